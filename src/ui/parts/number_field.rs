//! Labelled fields for a number, typed with a point or a comma.

use crate::ui::state::App;
use beatwalk::words::{figure, typed};
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

/// A label and a number that is set already, and kept as it is typed.
#[component]
pub fn NumberSetting(
    /// What the number is.
    #[prop(into)]
    label: Signal<String>,
    /// What it is as the field is made.
    value: Option<f64>,
    /// How many decimals of it are shown.
    #[prop(default = 9)]
    decimals: usize,
    /// Hears each change; `None` when what is typed is no number.
    on_number: Callback<Option<f64>>,
) -> impl IntoView {
    let language = App::here().language.get_untracked();
    let value = value.filter(|it| it.is_finite()).map(|it| figure(language, it, decimals));
    view! {
        <label class="field field--number">
            {label}
            <input
                type="text"
                inputmode="decimal"
                autocomplete="off"
                prop:value=value.unwrap_or_default()
                on:input=move |event| on_number.run(typed(&event_target_value(&event)))
            />
        </label>
    }
}
