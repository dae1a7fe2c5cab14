//! The card of one step: the task, the answer's buttons, the feedback and what the heart does there.

use super::beat_grade::ChosenBeatGrade;
use super::check_card::{CheckCard, is_checking};
use super::question_card::QuestionCard;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::{
    Command, CycleEvent, LandmarkWords, Placement, Question, QuestionWork, Step, Tolerance,
    Verdict, feedback, worked,
};
use beatwalk::signal::Landmark;
use beatwalk::words::{figure, say, say_with};
use leptos::prelude::*;

/// What to do in this step.
#[component]
pub fn StepCard() -> impl IntoView {
    let app = App::here();
    let step = Memo::new(move |_| app.lesson.with(|lesson| lesson.session().step()));
    view! {
        {move || match step.get() {
            _ if is_checking(app) => view! { <CheckCard /> }.into_any(),
            Step::Place(landmark) => view! { <PlaceCard landmark=landmark /> }.into_any(),
            Step::ChooseBeat | Step::Results => view! { <ChooseCard /> }.into_any(),
        }}
    }
}

/// From step to step, and back from what was done.
#[component]
fn StepButtons() -> impl IntoView {
    let app = App::here();
    let first = move || app.lesson.with(|lesson| lesson.session().step().back().is_none());
    // One button stands out: what to do next.
    let done = move || app.lesson.with(|lesson| lesson.session().is_done(lesson.session().step()));
    view! {
        <div class="button-row">
            <button class="button" disabled=first on:click=move |_| app.walk(Command::Back)>
                {tr("page.walk.back")}
            </button>
            <button
                class="button"
                disabled=move || !app.lesson.with(|lesson| lesson.can_undo())
                on:click=move |_| app.walk(Command::Undo)
            >
                {tr("page.walk.undo")}
            </button>
            <button
                class="button"
                disabled=move || !app.lesson.with(|lesson| lesson.can_redo())
                on:click=move |_| app.walk(Command::Redo)
            >
                {tr("page.walk.redo")}
            </button>
            <button class="button" class:button--main=done on:click=move |_| app.walk(Command::Next)>
                {tr("page.walk.next")}
            </button>
        </div>
    }
}

#[component]
fn ChooseCard() -> impl IntoView {
    let app = App::here();
    let which = move || {
        let chosen = app.with_evidence(|evidence| {
            let place = app
                .lesson
                .with(|lesson| evidence.chosen(lesson.session()).map(|(place, _)| place))?;
            Some((place + 1, evidence.reading.beats.len()))
        });
        chosen.flatten().map(|(beat, beats)| {
            say_with(
                app.language.get(),
                "app.beat_of",
                &[("beat", &beat.to_string()), ("beats", &beats.to_string())],
            )
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.walk.choose_title")}</h2>
            <p>{tr("page.walk.choose")}</p>
            <p role="status">
                <strong>{live(which)}</strong>
            </p>
            <ChosenBeatGrade />
            <StepButtons />
        </section>
        <Refused />
        <Show when=move || which().is_some() && app.help().questions>
            <QuestionCard question=Question::of(Step::ChooseBeat) />
        </Show>
    }
}

#[component]
fn PlaceCard(landmark: Landmark) -> impl IntoView {
    let app = App::here();
    let question = Question::of(Step::Place(landmark));
    let words = Memo::new(move |_| LandmarkWords::of(landmark, app.language.get()));
    let placement =
        Memo::new(move |_| app.lesson.with(|lesson| lesson.session().placement(landmark).cloned()));
    let has_answer = move || placement.with(|it| it.as_ref().is_some_and(|it| it.answer.is_some()));
    let may_reveal =
        move || placement.with(|it| it.as_ref().is_some_and(|it| it.may_reveal() && !it.revealed));
    let revealed = move || placement.with(|it| it.as_ref().is_some_and(|it| it.revealed));
    let done = move || placement.with(|it| it.as_ref().is_some_and(|it| it.is_done()));
    let answered = move || is_answered(app, question);
    let tolerance = move || {
        app.shown.with(|shown| {
            let limit = Tolerance::of(landmark, shown.as_ref()?.recording.rate);
            let right = figure(app.language.get(), limit.right.milliseconds(), 1);
            Some(say_with(app.language.get(), "page.walk.tolerance", &[("ms", &right)]))
        })
    };
    view! {
        <section class="card">
            <h2>{move || words.read().task.clone()}</h2>
            <p>{move || words.read().look_for.clone()}</p>
            <div class="button-row">
                <Show when=move || app.help().verdicts>
                    <button
                        class="button"
                        class:button--main=move || !done()
                        disabled=move || !has_answer()
                        on:click=move |_| app.lesson(Command::Check(landmark))
                    >
                        {tr("page.walk.check")}
                    </button>
                </Show>
                <button
                    class="button"
                    on:click=move |_| {
                        app.lesson(Command::NotHere(landmark));
                        if app.help().verdicts {
                            app.lesson(Command::Check(landmark));
                        }
                    }
                >
                    {tr("page.walk.not_here")}
                </button>
                <Show when=move || may_reveal() && app.help().worked_answers>
                    <button class="button" on:click=move |_| app.lesson(Command::Reveal(landmark))>
                        {tr("page.walk.reveal")}
                    </button>
                </Show>
            </div>
            <p class="soft">{live(tolerance)}</p>
            <StepButtons />
            <Show when=move || done() && !answered() && app.help().questions>
                <p class="soft">{tr("page.walk.below")}</p>
            </Show>
        </section>
        <Refused />
        <div role="status">
            {move || {
                let placement = placement.get()?;
                let rate = app.rate()?;
                let text = feedback(&placement, rate, app.language.get())?;
                Some(view! { <div class=feedback_class(placement.verdict())><p>{text}</p></div> })
            }}
            <Show when=revealed>
                <div class="notice">
                    <p>{move || placement.get().and_then(|it| worked_here(app, &it))}</p>
                </div>
            </Show>
        </div>
        <Show when=done>
            <Event event=CycleEvent::of(landmark) question=question />
            <Show when=move || app.help().questions>
                <QuestionCard question=question />
            </Show>
        </Show>
    }
}

/// The worked answer on the chosen beat.
fn worked_here(app: App, placement: &Placement) -> Option<String> {
    let language = app.language.get();
    let said = app.with_evidence(|evidence| {
        let (_, beat) = app.lesson.with(|lesson| evidence.chosen(lesson.session()))?;
        Some(worked(placement, &beat.landmarks, evidence.recording.rate, language))
    });
    said.flatten()
}

const fn feedback_class(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::Right { .. } | Verdict::RightlyNotHere) => "notice notice--right",
        Some(Verdict::Close { .. }) => "notice notice--caution",
        Some(Verdict::Off { .. } | Verdict::IsHere) => "notice notice--problem",
        Some(Verdict::CannotTell) | None => "notice",
    }
}

/// Whether a question has its right answer.
fn is_answered(app: App, question: Question) -> bool {
    app.lesson
        .with(|lesson| lesson.session().question(question).is_some_and(QuestionWork::is_settled))
}

/// What the heart does: electrically first, then mechanically. What is often believed would give the
/// question away: it comes once that is answered.
#[component]
fn Event(event: CycleEvent, question: Question) -> impl IntoView {
    let app = App::here();
    let answered = move || is_answered(app, question);
    let words = Memo::new(move |_| event.words(app.language.get()));
    view! {
        <section class="card walk__event">
            <h2>{move || words.read().name.clone()}</h2>
            <h3>{tr("page.walk.electrical")}</h3>
            <p>{move || words.read().electrical.clone()}</p>
            <h3>{tr("page.walk.mechanical")}</h3>
            <p>{move || words.read().mechanical.clone()}</p>
            <Show when=answered>
                <details>
                    <summary>{tr("page.walk.myth")} " " {move || words.read().myth.clone()}</summary>
                    <p>{move || words.read().truth.clone()}</p>
                </details>
            </Show>
        </section>
    }
}

/// Why the last wish was not carried out.
#[component]
pub fn Refused() -> impl IntoView {
    let app = App::here();
    view! {
        <div role="status">
            {move || {
                let refusal = app.refusal.get()?;
                Some(view! { <p class="notice">{say(app.language.get(), refusal.key()).into_owned()}</p> })
            }}
        </div>
    }
}
