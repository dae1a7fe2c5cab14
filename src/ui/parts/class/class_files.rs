//! How files come to the class desk, and how its table leaves it.

use crate::ui::browser::save_text;
use crate::ui::class::ClassDesk;
use crate::ui::parts::bring_files::BringFiles;
use crate::ui::state::{App, tr};
use beatwalk::report::{PoolEntry, pool_csv};
use leptos::prelude::*;

/// Ways to bring files, to take the table away, and to clear the desk.
#[component]
pub fn ClassFiles() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let save = move |_| {
        let entries: Vec<PoolEntry> =
            desk.entries.read_untracked().iter().map(|(_, entry)| entry.clone()).collect();
        app.check_saved(Some(save_text("pooled.csv", "text/csv", &pool_csv(&entries))));
    };
    let empty = move || desk.entries.read().is_empty();
    view! {
        <BringFiles
            drop="class.drop"
            pick="class.pick"
            progress="class.progress"
            count=desk.queue.count
            on_files=Callback::new(move |files| desk.take(files))
            on_stop=Callback::new(move |()| desk.stop())
        >
            <button class="button" disabled=empty on:click=save>
                {tr("class.save")}
            </button>
            <button class="button" disabled=empty on:click=move |_| desk.clear()>
                {tr("class.clear")}
            </button>
        </BringFiles>
    }
}
