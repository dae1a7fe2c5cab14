//! The steps of the guided reading as stones to walk on.

use super::check_card::CheckDoor;
use crate::ui::browser::keep_current_in_sight;
use crate::ui::reactive::{Show, Views};
use crate::ui::state::{App, tr};
use beatwalk::lesson::{Command, Step};
use beatwalk::words::say;
use leptos::html::Ol;
use leptos::prelude::*;

/// All steps: where the student is, what is done.
#[component]
pub fn StonePath() -> impl IntoView {
    let app = App::here();
    let stone = move |step: Step| {
        let title = move || say(app.language.get(), &step.title_key()).into_owned();
        let short = move || {
            let key = match step.landmark() {
                Some(landmark) => format!("page.walk.short.{}", landmark.key()),
                None => step.title_key(),
            };
            say(app.language.get(), &key).into_owned()
        };
        let done = move || app.lesson.with(|lesson| lesson.session().is_done(step));
        let tried = move || {
            app.lesson.with(|lesson| {
                let placement =
                    step.landmark().and_then(|landmark| lesson.session().placement(landmark));
                placement.is_some_and(|placement| !placement.tries.is_empty())
            })
        };
        let label = move || {
            let state = match (done(), tried()) {
                (true, _) => say(app.language.get(), "page.walk.stone_done"),
                (false, true) => say(app.language.get(), "page.walk.stone_tried"),
                (false, false) => return title(),
            };
            format!("{} {state}", title())
        };
        view! {
            <li>
                <button
                    class="walk__stone"
                    class:walk__stone--right=done
                    class:walk__stone--tried=move || tried() && !done()
                    aria-current=move || {
                        app.lesson.with(|lesson| lesson.session().step() == step).then_some("step")
                    }
                    aria-label=label
                    on:click=move |_| app.walk(Command::GoTo(step))
                >
                    {short}
                    {move || if done() { " ✓" } else { "" }}
                </button>
            </li>
        }
    };
    let row = NodeRef::<Ol>::new();
    let step = Memo::new(move |_| app.lesson.with(|lesson| lesson.session().step()));
    keep_current_in_sight(row, Signal::<Step>::from(step));
    view! {
        <nav aria-label=tr("page.walk.path")>
            <ol class="walk__path" node_ref=row>
                {Step::ALL.map(stone).views()}
                <Show when=move || app.help().verdicts>
                    <li>
                        <CheckDoor class="walk__stone" />
                    </li>
                </Show>
            </ol>
        </nav>
    }
}
