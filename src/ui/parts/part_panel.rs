//! Which part of the recording is used, with the ways to choose another.

use super::part_strip::{End, Whole};
use super::tools::Tools;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::words::{decimal, say_with};
use leptos::prelude::*;

/// What is used now, and the way to another part.
#[component]
pub fn PartPanel(tools: Tools) -> impl IntoView {
    let app = App::here();
    let part = move || app.work.with(|work| work.settings.part);
    let used = move || {
        let whole = Whole::of(app)?;
        let language = app.language.get();
        let duration = decimal(language, whole.duration(), 1);
        let Some(part) = part() else {
            return Some(say_with(language, "page.part.all_used", &[("duration", &duration)]));
        };
        let (from, to) = (whole.seconds(part, End::Start), whole.seconds(part, End::Finish));
        let (from, to) = (decimal(language, from, 2), decimal(language, to, 2));
        let places = [("from", &*from), ("to", &*to), ("duration", &*duration)];
        Some(say_with(language, "page.part.used", &places))
    };
    let all = move |_| {
        tools.put_away();
        app.use_part(None);
    };
    view! {
        <p role="status">{live(used)}</p>
        <div class="button-row">
            <button
                class="button"
                aria-expanded=move || tools.part.read().is_some().to_string()
                on:click=move |_| tools.toggle_part(app)
            >
                {tr("page.part.choose")}
            </button>
            <Show when=move || part().is_some()>
                <button class="button" on:click=all>
                    {tr("page.part.all")}
                </button>
            </Show>
        </div>
    }
}
