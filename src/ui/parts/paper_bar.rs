//! The way to the preview of the printed page, and what stands above it there.

use crate::ui::browser::{print, takes_focus};
use crate::ui::paper::Paper;
use crate::ui::reactive::{Show, Views};
use crate::ui::state::{App, tr};
use beatwalk::words::say;
use leptos::html::Button;
use leptos::prelude::*;

/// Opens the preview.
#[component]
pub fn PaperPreview() -> impl IntoView {
    let app = App::here();
    view! {
        <button class="button" on:click=move |_| app.preview()>
            {tr("page.paper.open")}
        </button>
    }
}

/// Paper, printing and the way back; there only while the page is previewed.
#[component]
pub fn PaperBar() -> impl IntoView {
    let app = App::here();
    let choice = move |paper: Paper| {
        let name =
            move || say(app.language.get(), &format!("page.paper.{}", paper.key())).into_owned();
        view! {
            <button
                class="button"
                aria-pressed=move || (app.paper.get() == Some(paper)).to_string()
                on:click=move |_| app.paper.set(Some(paper))
            >
                {name}
            </button>
        }
    };
    let back = takes_focus::<Button>();
    view! {
        <Show when=move || app.paper.get().is_some()>
            <div
                class="paper__bar"
                role="group"
                aria-label=tr("page.paper.title")
                on:keydown=move |event| {
                    if event.key() == "Escape" {
                        app.paper.set(None);
                    }
                }
            >
                <button class="button" node_ref=back on:click=move |_| app.paper.set(None)>
                    {tr("page.paper.close")}
                </button>
                {Paper::ALL.map(choice).views()}
                <button class="button button--main" on:click=move |_| print()>
                    {tr("page.paper.print")}
                </button>
            </div>
        </Show>
    }
}
