//! What the chosen beat is good for, why, and the way back to the one that is suggested.

use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::{BeatGrade, Command, suggest_beat};
use leptos::prelude::*;

/// The grade of the chosen beat with its reasons.
#[component]
pub fn ChosenBeatGrade() -> impl IntoView {
    let app = App::here();
    let graded = Memo::new(move |_| {
        let language = app.language.get();
        let graded = app.with_evidence(|evidence| {
            let (place, _) = app.lesson.with(|lesson| evidence.chosen(lesson.session()))?;
            let grade = BeatGrade::of(place, evidence)?;
            let reasons = grade.reasons(evidence, language);
            Some((grade.is_clean(), grade.sentence(language), reasons))
        });
        graded.flatten()
    });
    let suggested = Memo::new(move |_| {
        let r = app.with_evidence(|evidence| {
            let place = suggest_beat(evidence.recording, evidence.reading)?;
            evidence.reading.beats.get(place).map(|beat| beat.r)
        });
        r.flatten()
    });
    let is_suggested = move || app.lesson.with(|lesson| lesson.session().beat()) == suggested.get();
    let told = move || {
        graded.get().map(|(clean, sentence, reasons)| {
            let class = if clean { "notice notice--right" } else { "notice notice--caution" };
            let reasons = reasons.into_iter().map(|it| view! { <li>{it}</li> }).views();
            view! {
                <div class=class>
                    <p>{sentence}</p>
                    <ul>{reasons}</ul>
                </div>
            }
        })
    };
    let take = move |_| {
        if let Some(r) = suggested.get_untracked() {
            app.lesson(Command::ChooseBeat(r));
        }
    };
    view! {
        <div role="status">{live(told)}</div>
        <Show
            when=is_suggested
            fallback=move || view! {
                <button class="button" on:click=take>{tr("choosing.take_suggested")}</button>
            }
        >
            <p class="soft">{tr("choosing.suggested")}</p>
        </Show>
    }
}
