//! A labelled list to choose from.

use crate::ui::reactive::Views;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;

/// A label, a list, and what to do with the choice.
#[component]
pub fn Select(
    /// What is being chosen.
    #[prop(into)]
    label: Signal<String>,
    /// What there is to choose from, in order.
    options: Vec<String>,
    /// The place of what is chosen now.
    chosen: Option<usize>,
    /// Hears the place of what the student chooses.
    on_choose: Callback<usize>,
) -> impl IntoView {
    let choose = move |event: web_sys::Event| {
        let list = event.target().and_then(|target| target.dyn_into::<HtmlSelectElement>().ok());
        if let Some(place) = list.and_then(|list| usize::try_from(list.selected_index()).ok()) {
            on_choose.run(place);
        }
    };
    view! {
        <label class="field">
            {label}
            <select on:change=choose>
                {options
                    .into_iter()
                    .enumerate()
                    .map(|(place, text)| view! { <option selected=chosen == Some(place)>{text}</option> })
                    .views()}
            </select>
        </label>
    }
}
