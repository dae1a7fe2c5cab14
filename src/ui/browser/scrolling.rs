//! A row that scrolls sideways on a narrow screen keeps its current entry in sight.

use leptos::html::ElementType;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Brings the entry that is marked as the current one into the middle of a row, whenever `current`
/// changes what that is.
pub fn keep_current_in_sight<E>(row: NodeRef<E>, current: impl Fn() + 'static)
where
    E: ElementType + 'static,
    E::Output: JsCast + AsRef<HtmlElement> + Clone + 'static,
{
    Effect::new(move |_| {
        current();
        let Some(row) = row.get() else { return };
        // Which entry is marked is known once the page has been brought up to date.
        request_animation_frame(move || centre_current(row.as_ref()));
    });
}

fn centre_current(row: &HtmlElement) {
    let found = row.query_selector("[aria-current]").ok().flatten();
    let Some(entry) = found.and_then(|entry| entry.dyn_into::<HtmlElement>().ok()) else { return };
    let from_start = entry.offset_left() - row.offset_left();
    row.set_scroll_left(from_start + entry.offset_width() / 2 - row.client_width() / 2);
}
