//! A labelled field for some lines of text, kept as they are typed.

use leptos::prelude::*;

/// A label and a few lines.
#[component]
pub fn TextArea(
    /// What the text is.
    #[prop(into)]
    label: Signal<String>,
    /// What it says now.
    #[prop(into)]
    text: Signal<String>,
    /// Hears each change.
    on_text: Callback<String>,
) -> impl IntoView {
    view! {
        <label class="field">
            {label}
            <textarea
                rows="3"
                maxlength="20000"
                dir="auto"
                prop:value=text
                on:input=move |event| on_text.run(event_target_value(&event))
            ></textarea>
        </label>
    }
}
