//! Placing a mark without pointing: one sample to the left or right, or a time as a number.

use super::check_card::{is_checking, is_marked};
use crate::ui::reactive::Show;
use crate::ui::state::{App, tr};
use beatwalk::lesson::{Command, Grip};
use beatwalk::signal::Seconds;
use beatwalk::words::{decimal, typed as typed_number};
use leptos::prelude::*;

/// Buttons and a number for the mark of this step.
#[component]
pub fn PlacePad() -> impl IntoView {
    let app = App::here();
    let landmark = move || app.lesson.with(|lesson| lesson.session().step().landmark());
    let time = move || {
        app.lesson.with(|lesson| {
            let mark = lesson.session().marks_in_hand().at(landmark()?)?;
            let rate = app.rate()?;
            Some(decimal(app.language.get(), rate.time_of(mark).seconds(), 3))
        })
    };
    let typed = move |event: web_sys::Event| {
        let seconds = typed_number(&event_target_value(&event));
        let (Some(seconds), Some(landmark)) = (seconds, untrack(landmark)) else { return };
        if let Some(shown) = app.shown.get_untracked() {
            let at = shown.recording.rate.nearest(Seconds::new(seconds));
            app.lesson(Command::Place { landmark, at, grip: Grip::Fresh });
        }
    };
    view! {
        <Show when=move || landmark().is_some() && !(is_checking(app) && is_marked(app))>
            <button class="button" aria-label=tr("page.walk.earlier") on:click=move |_| app.nudge(-1, false)>
                "◀"
            </button>
            <button class="button" aria-label=tr("page.walk.later") on:click=move |_| app.nudge(1, false)>
                "▶"
            </button>
            <label class="place-pad__time">
                {tr("page.walk.time")}
                <input type="text" inputmode="decimal" prop:value=move || time().unwrap_or_default() on:change=typed />
            </label>
        </Show>
    }
}
