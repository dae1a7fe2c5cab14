//! A button that opens the browser's file picker.

use crate::ui::browser::{Dropped, picked_files};
use crate::ui::state::tr;
use leptos::html::Input;
use leptos::prelude::*;

/// A button, and what to do with the files that are picked.
#[component]
pub fn FilePick(
    /// The message on the button.
    text: &'static str,
    /// What it says to those who can't see where it stands.
    #[prop(into)]
    label: Signal<String>,
    /// Whether it is the one to press.
    #[prop(default = false)]
    main: bool,
    /// Hears the files.
    on_files: Callback<Dropped>,
) -> impl IntoView {
    let picker = NodeRef::<Input>::new();
    view! {
        <input
            class="hidden-visually"
            type="file"
            multiple
            tabindex="-1"
            aria-label=label
            node_ref=picker
            on:change=move |event| on_files.run(picked_files(&event))
        />
        <button
            class="button"
            class:button--main=main
            aria-label=label
            on:click=move |_| {
                if let Some(picker) = picker.get_untracked() {
                    picker.click();
                }
            }
        >
            {tr(text)}
        </button>
    }
}
