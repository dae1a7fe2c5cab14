//! Files that did not fit, each with the reason and what to do; the others are there all the same.

use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, Problem, tr};
use leptos::prelude::*;

/// The list of them; nothing while there are none.
#[component]
pub fn RefusedFiles(
    /// The message above the list.
    title: &'static str,
    /// Their names, and what is wrong with them.
    refused: RwSignal<Vec<(String, Problem)>>,
) -> impl IntoView {
    let app = App::here();
    let lines = move || {
        let line = |(file, problem): &(String, Problem)| {
            let file = app.nameless().unwrap_or_else(|| file.clone());
            view! {
                <li>
                    <strong>
                        <bdi>{file}</bdi>
                    </strong>
                    ": "
                    {app.tell(&problem.what)}
                    ". "
                    {app.tell(&problem.remedy)}
                </li>
            }
        };
        refused.read().iter().map(line).views()
    };
    view! {
        <Show when=move || !refused.read().is_empty()>
            <section class="notice notice--problem no-print">
                <h2>{tr(title)}</h2>
                <ul>{live(lines)}</ul>
            </section>
        </Show>
    }
}
