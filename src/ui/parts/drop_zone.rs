//! A part of the page on which files can be dropped; what misses it is opened on the first screen.

use crate::ui::browser::{Dropped, dropped_files};
use leptos::prelude::*;

/// A section that shows when something is held over it.
#[component]
pub fn DropZone(
    /// Its class.
    class: &'static str,
    /// The id of what names it.
    #[prop(optional, into)]
    labelled_by: Option<String>,
    /// Hears the files.
    on_files: Callback<Dropped>,
    /// What stands on it.
    children: Children,
) -> impl IntoView {
    let over = RwSignal::new(false);
    view! {
        <section
            class=class
            class:drop-zone--over=over
            aria-labelledby=labelled_by
            on:dragover=move |_| over.set(true)
            on:dragleave=move |_| over.set(false)
            on:drop=move |event| {
                over.set(false);
                // Else the page would open it on the first screen.
                event.prevent_default();
                event.stop_propagation();
                on_files.run(dropped_files(&event));
            }
        >
            {children()}
        </section>
    }
}
