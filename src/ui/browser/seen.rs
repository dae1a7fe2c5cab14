//! Whether a part of the page has come into view: what nobody looks at is not drawn.

use crate::ui::reactive::follow;
use js_sys::Array;
use leptos::html::Canvas;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{IntersectionObserver, IntersectionObserverEntry};

/// Becomes true when a canvas first comes into view, and stays so.
pub fn observe_seen(canvas: NodeRef<Canvas>) -> ReadSignal<bool> {
    let (seen, set_seen) = signal(false);
    follow(move || {
        let Some(element) = canvas.get() else { return };
        let look = Closure::<dyn FnMut(Array)>::new(move |entries: Array| {
            let in_view = entries
                .iter()
                .any(|entry| entry.unchecked_into::<IntersectionObserverEntry>().is_intersecting());
            if in_view && seen.try_get_untracked() == Some(false) {
                set_seen.set(true);
            }
        });
        if let Ok(observer) = IntersectionObserver::new(look.as_ref().unchecked_ref()) {
            observer.observe(&element);
            let kept = StoredValue::new_local((observer, look));
            on_cleanup(move || kept.with_value(|(observer, _)| observer.disconnect()));
        }
    });
    seen
}
