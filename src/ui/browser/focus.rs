//! Where the keyboard goes on when something new is shown.

use crate::ui::reactive::follow;
use leptos::html::ElementType;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Names an element that has the focus as soon as it is there: whoever comes by keyboard goes on from it.
pub fn takes_focus<E>() -> NodeRef<E>
where
    E: ElementType + 'static,
    E::Output: JsCast + AsRef<HtmlElement> + Clone + 'static,
{
    let element = NodeRef::<E>::new();
    follow(move || {
        let _ = element.get().map(|it| AsRef::<HtmlElement>::as_ref(&it).focus());
    });
    element
}
