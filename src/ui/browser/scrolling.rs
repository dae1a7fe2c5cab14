//! A row that scrolls sideways on a narrow screen keeps its current entry in sight.

use crate::ui::reactive::{follow, soon};
use leptos::html::ElementType;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Brings the entry that is marked as the current one into the middle of a row, whenever `current`
/// changes.
pub fn keep_current_in_sight<E, T>(row: NodeRef<E>, current: Signal<T>)
where
    T: Clone + Send + Sync + 'static,
    E: ElementType + 'static,
    E::Output: JsCast + AsRef<HtmlElement> + Clone + 'static,
{
    follow(move || {
        // Asked for its value and not only tracked: a memo that nobody asks is never worked out.
        let _ = current.get();
        let Some(row) = row.get() else { return };
        // Which entry is marked is known once the page has been brought up to date; where it lies, once it is drawn.
        request_animation_frame(move || soon(move || centre_current(row.as_ref())));
    });
}

fn centre_current(row: &HtmlElement) {
    let found = row.query_selector("[aria-current]").ok().flatten();
    let Some(entry) = found.and_then(|entry| entry.dyn_into::<HtmlElement>().ok()) else { return };
    let from_start = entry.offset_left() - row.offset_left();
    row.set_scroll_left(from_start + entry.offset_width() / 2 - row.client_width() / 2);
}
