//! What leaves the page: a file, by a link to a Blob that is clicked and let go, or the printed page.

use js_sys::Array;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, BlobPropertyBag, Document, HtmlAnchorElement, HtmlCanvasElement, Url};

/// Draws on a canvas of its own and saves that as a PNG, so many pixels wide and high.
pub fn draw_to_png(
    name: &str,
    size: (u32, u32),
    draw: impl FnOnce(&DrawingArea<CanvasBackend, Shift>),
) -> Result<(), JsValue> {
    let canvas: HtmlCanvasElement = document()?.create_element("canvas")?.unchecked_into();
    canvas.set_width(size.0);
    canvas.set_height(size.1);
    let backend = CanvasBackend::with_canvas_object(canvas.clone()).ok_or("nothing to draw on")?;
    draw(&backend.into_drawing_area());
    let name = name.to_owned();
    let take = Closure::once_into_js(move |blob: Option<Blob>| {
        if let Some(blob) = blob {
            let _ = offer(&name, &blob);
        }
    });
    canvas.to_blob(take.unchecked_ref())
}

/// Saves a text file.
pub fn save_text(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    offer(name, &Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?)
}

/// Opens the browser's own print dialog.
pub fn print() {
    if let Some(window) = web_sys::window() {
        let _ = window.print();
    }
}

fn document() -> Result<Document, JsValue> {
    Ok(web_sys::window().and_then(|window| window.document()).ok_or("no document")?)
}

fn offer(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let link: HtmlAnchorElement = document()?.create_element("a")?.unchecked_into();
    let address = Url::create_object_url_with_blob(blob)?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // The browser has taken hold of the Blob by the time the click returns.
    Url::revoke_object_url(&address)
}
