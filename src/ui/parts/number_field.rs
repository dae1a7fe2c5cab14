//! A labelled field for a number, typed with a point or a comma.

use leptos::prelude::*;

/// A label and a field that a number is typed into; what it says is read with `words::typed`.
#[component]
pub fn NumberField(
    /// What the number is.
    #[prop(into)]
    label: Signal<String>,
    /// What is typed.
    text: RwSignal<String>,
) -> impl IntoView {
    view! {
        <label class="field">
            {label}
            <input type="text" inputmode="decimal" autocomplete="off" bind:value=text />
        </label>
    }
}
