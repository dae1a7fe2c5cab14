//! Bringing many files: dropped or picked, taken one after another, and how far that has come.

use super::drop_zone::DropZone;
use super::file_pick::FilePick;
use super::notices::ProgressLine;
use crate::ui::browser::Dropped;
use crate::ui::reactive::Show;
use crate::ui::state::{App, tr};
use beatwalk::words::say_with;
use leptos::prelude::*;

/// A card to drop files on, with a button to pick them.
#[component]
pub fn BringFiles(
    /// The message that says what to drop.
    drop: &'static str,
    /// The message on the button.
    pick: &'static str,
    /// The message that says how many are `{done}`, and `{of}` how many.
    progress: &'static str,
    /// How many are done, and of how many; `None` while nothing is under way.
    count: RwSignal<Option<(usize, usize)>>,
    /// Hears the files.
    on_files: Callback<Dropped>,
    /// Stops taking them.
    on_stop: Callback<()>,
    /// More to press.
    children: Children,
) -> impl IntoView {
    let app = App::here();
    let said = Signal::derive(move || {
        let [done, of] = count.get().map_or([0, 0], <[usize; 2]>::from).map(|it| it.to_string());
        say_with(app.language.get(), progress, &[("done", &done), ("of", &of)])
    });
    let part = Signal::derive(move || {
        count.get().map_or(0.0, |(done, of)| done as f64 / of.max(1) as f64)
    });
    view! {
        <DropZone class="card no-print" on_files=on_files>
            <p>{tr(drop)}</p>
            <div class="button-row">
                <FilePick text=pick label=Signal::derive(tr(pick)) main=true on_files=on_files />
                {children()}
            </div>
            <div role="status">
                <Show when=move || count.read().is_some()>
                    <ProgressLine said=said part=part on_stop=on_stop />
                </Show>
            </div>
        </DropZone>
    }
}
