//! The app: one WASM with two entries. The page and the worker load the same module, so `main` looks
//! at where it runs.

#![allow(unreachable_pub, reason = "components and their props are public by the macros' design")]

#[cfg(target_arch = "wasm32")]
mod ui;
#[cfg(target_arch = "wasm32")]
mod worker;

#[cfg(target_arch = "wasm32")]
fn main() {
    use wasm_bindgen::JsCast;

    match js_sys::global().dyn_into::<web_sys::DedicatedWorkerGlobalScope>() {
        Ok(scope) => {
            console_error_panic_hook::set_once();
            worker::serve(scope);
        }
        Err(_) => ui::start(),
    }
}

/// The app lives in a browser; natively there is only the library and its examples.
#[cfg(not(target_arch = "wasm32"))]
fn main() {}
