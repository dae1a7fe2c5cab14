//! Keeps the page itself in this browser, so that it opens without a network, by the service worker `offline.js`.
//!
//! A newer version waits beside the one that runs until no page is open, or until it is asked for. Browsers have
//! no service worker on an address without TLS, in some private windows, and on a page from a disk; the
//! page then works as ever and says nothing.

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Event, ServiceWorkerContainer, ServiceWorkerRegistration};

/// What of the page this browser keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PageKept {
    /// Not all of it, or it does not let us.
    No,
    /// All of it.
    Whole,
    /// All of it, and all of a newer version.
    Newer,
}

/// Has the browser keep the page; what is kept is told at each change.
pub fn keep_page(kept: RwSignal<PageKept>) {
    spawn_local(async move {
        // Refused is as good as not there: nothing but the network is missed.
        if let Ok(registration) = register().await {
            follow(registration, kept);
        }
    });
}

/// Changes to the version that waits: it takes over, and this page is loaded again from it.
pub async fn use_newer_page() -> Result<(), JsValue> {
    let container = container()?;
    let ready: ServiceWorkerRegistration = JsFuture::from(container.ready()?).await?.into();
    let again = Closure::once_into_js(|| {
        if let Some(window) = web_sys::window() {
            let _ = window.location().reload();
        }
    });
    container.set_oncontrollerchange(Some(again.unchecked_ref()));
    ready.waiting().ok_or("no newer version")?.post_message(&"take over".into())
}

async fn register() -> Result<ServiceWorkerRegistration, JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or("no document")?;
    // The page in one file has no manifest, and needs no keeping.
    document.query_selector("link[rel=manifest]")?.ok_or("nothing to keep")?;
    Ok(JsFuture::from(container()?.register("sw.js")).await?.into())
}

/// The browser's keeper of pages; asked for by name, because it is missing from many.
fn container() -> Result<ServiceWorkerContainer, JsValue> {
    let navigator = web_sys::window().ok_or("no window")?.navigator();
    let found = js_sys::Reflect::get(&navigator, &"serviceWorker".into())?;
    if found.is_undefined() { Err("no service worker".into()) } else { Ok(found.unchecked_into()) }
}

/// Tells what is kept now, and again whenever a version has been taken or has taken over.
fn follow(registration: ServiceWorkerRegistration, kept: RwSignal<PageKept>) {
    let look = {
        let registration = registration.clone();
        Closure::<dyn Fn(Event)>::new(move |_| kept.set(standing(&registration)))
    };
    // Lives as long as the page.
    let look: js_sys::Function = look.into_js_value().unchecked_into();
    kept.set(standing(&registration));
    watch_installing(&registration, &look);
    let found = {
        let registration = registration.clone();
        Closure::<dyn Fn(Event)>::new(move |_| watch_installing(&registration, &look))
    };
    registration.set_onupdatefound(Some(found.into_js_value().unchecked_ref()));
}

fn watch_installing(registration: &ServiceWorkerRegistration, look: &js_sys::Function) {
    if let Some(worker) = registration.installing() {
        worker.set_onstatechange(Some(look));
    }
}

fn standing(registration: &ServiceWorkerRegistration) -> PageKept {
    match (registration.active(), registration.waiting()) {
        (Some(_), Some(_)) => PageKept::Newer,
        (Some(_), None) => PageKept::Whole,
        (None, _) => PageKept::No,
    }
}
