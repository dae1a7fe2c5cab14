//! The class desk: drop the files of a class, see who is where, compare conditions over people.

use crate::ui::browser::takes_focus;
use crate::ui::class::ClassDesk;
use crate::ui::parts::{ClassComparison, ClassFiles, ClassRows, RefusedFiles};
use crate::ui::reactive::Show;
use crate::ui::state::{App, Screen, tr};
use leptos::html::H1;
use leptos::prelude::*;

/// The screen of the class desk.
#[component]
pub fn ClassScreen() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let heading = takes_focus::<H1>();
    let some = move || !desk.entries.read().is_empty();
    view! {
        <div class="bench">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    {tr("class.title")}
                </h1>
                <p>{tr("class.lead")}</p>
                <button class="button no-print" on:click=move |_| app.screen.set(Screen::Investigate)>
                    {tr("bench.title")}
                </button>
            </header>
            <ClassFiles />
            <RefusedFiles title="class.refused" refused=desk.refused />
            <Show when=some>
                <ClassComparison />
                <ClassRows />
            </Show>
            <p class="notice notice--caution">{tr("class.privacy")}</p>
        </div>
    }
}
