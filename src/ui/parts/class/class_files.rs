//! How files come to the class desk, and which of them did not fit.

use crate::ui::browser::{dropped_files, save_text};
use crate::ui::class::ClassDesk;
use crate::ui::parts::file_pick::FilePick;
use crate::ui::parts::notices::ProgressLine;
use crate::ui::reactive::Show;
use crate::ui::state::{App, tr};
use beatwalk::report::{PoolEntry, pool_csv};
use beatwalk::words::say_with;
use leptos::prelude::*;

/// Ways to bring files, to take the table away, and to clear the desk.
#[component]
pub fn ClassFiles() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let said = Signal::derive(move || {
        let (done, of) = desk.job.get().unwrap_or_default();
        let places = [("done", &*done.to_string()), ("of", &*of.to_string())];
        say_with(app.language.get(), "class.progress", &places)
    });
    let part = Signal::derive(move || {
        desk.job.get().map_or(0.0, |(done, of)| done as f64 / of.max(1) as f64)
    });
    let save = move |_| {
        let entries: Vec<PoolEntry> =
            desk.entries.read_untracked().iter().map(|(_, entry)| entry.clone()).collect();
        app.check_saved(Some(save_text("pooled.csv", "text/csv", &pool_csv(&entries))));
    };
    let empty = move || desk.entries.read().is_empty();
    view! {
        <section
            class="card no-print"
            on:drop=move |event| {
                // Else the page would open it on the first screen.
                event.prevent_default();
                event.stop_propagation();
                desk.take(dropped_files(&event));
            }
        >
            <p>{tr("class.drop")}</p>
            <div class="button-row">
                <FilePick
                    text="class.pick"
                    label=Signal::derive(tr("class.pick"))
                    main=true
                    on_files=move |files| desk.take(files)
                />
                <button class="button" disabled=empty on:click=save>
                    {tr("class.save")}
                </button>
                <button class="button" disabled=empty on:click=move |_| desk.clear()>
                    {tr("class.clear")}
                </button>
            </div>
            <div role="status">
                <Show when=move || desk.job.read().is_some()>
                    <ProgressLine said=said part=part on_stop=move || desk.stop() />
                </Show>
            </div>
        </section>
    }
}
