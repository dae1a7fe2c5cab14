//! The final check within the walk: its points, its card without help, and the table once it is marked.

use super::step_card::Refused;
use crate::ui::browser::keep_current_in_sight;
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::lesson::{Answer, Command, LandmarkWords, Specimen, Step};
use beatwalk::report::{CheckLine, Understood};
use beatwalk::signal::Landmark;
use beatwalk::words::{say, say_with};
use leptos::html::Ol;
use leptos::prelude::*;

/// Whether the student is at the final check.
pub fn is_checking(app: App) -> bool {
    app.lesson.with(|lesson| lesson.session().is_checking())
}

/// Whether its points are marked: nothing of them changes any more.
pub fn is_marked(app: App) -> bool {
    app.lesson.with(|lesson| lesson.session().final_check().is_some_and(|check| check.marked))
}

fn answer(app: App, landmark: Landmark) -> Option<Answer> {
    app.lesson.with(|lesson| lesson.session().placement_in_hand(landmark)?.answer)
}

/// The way into the final check, named by how far that has come.
#[component]
pub fn CheckDoor(
    /// Looks like this: a stone on the path, or a button on its own.
    class: &'static str,
) -> impl IntoView {
    let app = App::here();
    let name = move || {
        let begun = app.lesson.with(|lesson| lesson.session().final_check().is_some());
        let key = match (begun, is_marked(app)) {
            (false, _) => "check.start",
            (true, false) => "check.go_on",
            (true, true) => "check.look",
        };
        say(app.language.get(), key).into_owned()
    };
    let enter = move |_| {
        app.lesson(Command::StartCheck);
        if untrack(|| is_checking(app)) {
            app.screen.set(Screen::Walk);
        }
    };
    view! {
        <button class=class on:click=enter>
            {live(name)}
        </button>
    }
}

/// The points of the check: where the student is, and which have an answer.
#[component]
pub fn CheckPath() -> impl IntoView {
    let app = App::here();
    let stone = move |landmark: Landmark| {
        let step = Step::Place(landmark);
        let answered = move || answer(app, landmark).is_some();
        let short = format!("page.walk.short.{}", landmark.key());
        let label = move || {
            let language = app.language.get();
            let name = LandmarkWords::of(landmark, language).name;
            match answered() {
                true => format!("{name} {}", say(language, "check.placed")),
                false => name.into_owned(),
            }
        };
        view! {
            <li>
                <button
                    class="walk__stone"
                    class:walk__stone--answered=answered
                    aria-current=move || {
                        app.lesson.with(|lesson| lesson.session().step() == step).then_some("step")
                    }
                    aria-label=label
                    on:click=move |_| app.lesson(Command::GoTo(step))
                >
                    {move || say(app.language.get(), &short).into_owned()}
                </button>
            </li>
        }
    };
    let stones = Step::ALL.into_iter().filter_map(Step::landmark).map(stone).views();
    let row = NodeRef::<Ol>::new();
    let step = Memo::new(move |_| app.lesson.with(|lesson| lesson.session().step()));
    keep_current_in_sight(row, Signal::<Step>::from(step));
    view! {
        <nav aria-label=tr("check.path")>
            <ol class="walk__path" node_ref=row>{stones}</ol>
        </nav>
    }
}

/// What to do in the check, or how it came out.
#[component]
pub fn CheckCard() -> impl IntoView {
    let app = App::here();
    let flaws_left = move || {
        let lesson = app.lesson.read();
        Specimen::ALL.into_iter().any(|it| lesson.session().flaw_answer(it).is_none())
    };
    view! {
        <Show when=move || is_marked(app) fallback=|| view! { <Placing /> }>
            <section class="card">
                <h2>{tr("check.title")}</h2>
                <CheckTable />
                <Show when=flaws_left>
                    <p>{tr("check.flaws_below")}</p>
                </Show>
                <Leave key="check.results" to=Command::GoTo(Step::Results) />
            </section>
        </Show>
        <Refused />
    }
}

/// A way out of the check.
#[component]
fn Leave(key: &'static str, to: Command) -> impl IntoView {
    let app = App::here();
    view! {
        <div class="button-row">
            <button class="button" on:click=move |_| app.walk(to)>
                {tr(key)}
            </button>
        </div>
    }
}

#[component]
fn Placing() -> impl IntoView {
    let app = App::here();
    let landmark = Memo::new(move |_| app.lesson.with(|lesson| lesson.session().step().landmark()));
    let words = move || Some(LandmarkWords::of(landmark.get()?, app.language.get()));
    let beat = move || {
        let place = app.with_evidence(|evidence| {
            app.lesson.with(|lesson| evidence.in_hand(lesson.session()).map(|(place, _)| place))
        });
        let number = (place.flatten()? + 1).to_string();
        Some(say_with(app.language.get(), "check.beat", &[("beat", &number)]))
    };
    let left = Memo::new(move |_| {
        app.lesson.with(|lesson| lesson.session().check_left().collect::<Vec<_>>())
    });
    let left_words = move || {
        let language = app.language.get();
        let left = left.read();
        let names: Vec<String> =
            left.iter().map(|&it| LandmarkWords::of(it, language).name.into_owned()).collect();
        match names.is_empty() {
            true => say(language, "check.mark_about").into_owned(),
            false => say_with(language, "check.left", &[("points", &names.join(", "))]),
        }
    };
    let not_here = move || landmark.get().and_then(|it| answer(app, it)) == Some(Answer::NotHere);
    let absent = move |_| {
        if let Some(landmark) = landmark.get_untracked() {
            app.lesson(Command::NotHere(landmark));
        }
    };
    // Neither leads out of the check: before the first point and after the last there is no other.
    let back = move |_| app.check_step(Step::back);
    let next = move |_| app.check_step(Step::next);
    let is_last = move |to: fn(Step) -> Option<Step>| {
        let step = app.lesson.with(|lesson| to(lesson.session().step()));
        step.and_then(Step::landmark).is_none()
    };
    let complete = move || left.read().is_empty();
    view! {
        <section class="card">
            <h2>{tr("check.title")}</h2>
            <p class="soft">{live(beat)}</p>
            <p><strong>{move || words().map(|words| words.task)}</strong></p>
            <Show when=not_here>
                <p role="status">{tr("check.said_not_here")}</p>
            </Show>
            <div class="button-row">
                <button class="button" disabled=move || is_last(Step::back) on:click=back>
                    {tr("page.walk.back")}
                </button>
                <button class="button" aria-pressed=move || not_here().to_string() on:click=absent>
                    {tr("page.walk.not_here")}
                </button>
                <button
                    class="button"
                    class:button--main=move || !complete()
                    disabled=move || is_last(Step::next)
                    on:click=next
                >
                    {tr("page.walk.next")}
                </button>
            </div>
            <p class="soft" role="status">{live(left_words)}</p>
            <div class="button-row">
                <button
                    class="button"
                    class:button--main=complete
                    disabled=move || !complete()
                    on:click=move |_| app.lesson(Command::MarkCheck)
                >
                    {tr("check.mark")}
                </button>
                <button
                    class="button"
                    disabled=move || !app.lesson.with(|lesson| lesson.can_undo())
                    on:click=move |_| app.walk(Command::Undo)
                >
                    {tr("page.walk.undo")}
                </button>
            </div>
            <Leave key="check.leave" to=Command::LeaveCheck />
        </section>
    }
}

/// Each point of a marked check: its miss, its limit, right or not; with the score of each part.
#[component]
pub fn CheckTable() -> impl IntoView {
    let app = App::here();
    let understood = Memo::new(move |_| {
        let (rate, language) = (app.rate()?, app.language.get());
        Some(app.lesson.with(|lesson| Understood::of(lesson.session(), rate, language)))
    });
    let row = |line: CheckLine| {
        let class = match line.right {
            Some(true) => "check__right",
            Some(false) => "check__wrong",
            None => "",
        };
        view! {
            <tr>
                <th scope="row">{line.landmark}</th>
                <td>{line.miss}</td>
                <td>{line.limit}</td>
                <td class=class>{line.verdict}</td>
            </tr>
        }
    };
    let heads = CheckLine::HEADS.map(|head| view! { <th scope="col">{tr(head)}</th> });
    let rows = move || {
        let points = understood.get().map(|it| it.points).unwrap_or_default();
        points.into_iter().map(row).views()
    };
    let scores = move || {
        let scores = understood.get().map(|it| it.scores).unwrap_or_default();
        scores.into_iter().map(|score| view! { <li>{score}</li> }).views()
    };
    let marked = move || understood.with(|it| it.as_ref().is_some_and(|it| !it.points.is_empty()));
    view! {
        <ul>{live(scores)}</ul>
        <div class="scroll-x" tabindex="0" role="group" aria-label=tr("check.title") hidden=move || !marked()>
            <table class="check__table">
                <thead>
                    <tr>{heads.views()}</tr>
                </thead>
                <tbody>{live(rows)}</tbody>
            </table>
        </div>
        <p class="soft" hidden=move || !marked()>
            {tr("check.source")}
        </p>
    }
}
