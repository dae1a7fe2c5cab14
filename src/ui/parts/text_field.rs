//! A labelled field for a short text, kept as it is typed.

use leptos::prelude::*;

/// A label and a line of text.
#[component]
pub fn TextField(
    /// What the text is.
    #[prop(into)]
    label: Signal<String>,
    /// What it says now.
    #[prop(into)]
    text: Signal<String>,
    /// The longest that can be typed, in letters.
    #[prop(default = 40)]
    longest: u32,
    /// Hears each change.
    on_text: Callback<String>,
) -> impl IntoView {
    view! {
        <label class="field">
            {label}
            <input
                type="text"
                maxlength=longest
                autocomplete="off"
                prop:value=text
                on:input=move |event| on_text.run(event_target_value(&event))
            />
        </label>
    }
}
