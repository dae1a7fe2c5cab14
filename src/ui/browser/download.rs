//! Hands a file to the student: a link to a Blob, clicked and let go.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, HtmlCanvasElement, Url};

/// Saves a text file.
pub fn save_text(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    save(name, kind, &text.into())
}

/// Saves a file of bytes.
pub fn save_bytes(name: &str, kind: &str, bytes: &[u8]) -> Result<(), JsValue> {
    save(name, kind, &Uint8Array::from(bytes))
}

/// Saves what a canvas shows as a PNG.
pub fn save_canvas_png(name: &str, canvas: &HtmlCanvasElement) -> Result<(), JsValue> {
    let name = name.to_owned();
    let take = Closure::once_into_js(move |blob: Option<Blob>| {
        if let Some(blob) = blob {
            let _ = offer(&name, &blob);
        }
    });
    canvas.to_blob(take.unchecked_ref())
}

fn save(name: &str, kind: &str, part: &JsValue) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    offer(name, &Blob::new_with_u8_array_sequence_and_options(&Array::of1(part), &options)?)
}

fn offer(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or("no document")?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    let address = Url::create_object_url_with_blob(blob)?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // The browser has taken hold of the Blob by the time the click returns.
    Url::revoke_object_url(&address)
}
