//! The question of a step: three answers, each explained as soon as it is chosen; and which are left.

use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::lesson::{Choice, Command, Question, Step};
use beatwalk::words::say;
use leptos::prelude::*;

/// Asks the question of a step.
#[component]
pub fn QuestionCard(
    /// Which question.
    question: Question,
) -> impl IntoView {
    let app = App::here();
    let words = Memo::new(move |_| question.words(app.language.get()));
    let chosen = Memo::new(move |_| {
        app.lesson.with(|lesson| lesson.session().question(question).and_then(|work| work.chosen))
    });
    let answer = move |choice: Choice| {
        view! {
            <button
                class="button question__choice"
                aria-pressed=move || (chosen.get() == Some(choice)).to_string()
                on:click=move |_| app.lesson(Command::Answer { question, choice })
            >
                {move || words.with(|words| text_of(&words.choices, choice))}
            </button>
        }
    };
    let explained = move || {
        let choice = chosen.get()?;
        let right = choice == Choice::Right;
        let (class, verdict) = if right {
            ("notice notice--right", "questions.card.right")
        } else {
            ("notice notice--caution", "questions.card.wrong")
        };
        let why = words.with(|words| why_of(&words.choices, choice));
        Some(view! {
            <div class=class>
                <p>
                    <strong>{say(app.language.get(), verdict).into_owned()}</strong>
                    " "
                    {why}
                </p>
                <p class="soft question__source">
                    {tr("questions.card.source")} " " {words.with(|words| words.source.clone())}
                </p>
            </div>
        })
    };
    view! {
        <section class="card question">
            <h2>{tr("questions.card.title")}</h2>
            <p>{move || words.read().ask.clone()}</p>
            <div class="question__choices" role="group" aria-label=move || words.read().ask.clone()>
                {question.choices().map(answer).views()}
            </div>
            <div role="status">{live(explained)}</div>
        </section>
    }
}

type Said = [(Choice, beatwalk::lesson::ChoiceWords); 3];

fn text_of(choices: &Said, choice: Choice) -> Option<String> {
    choices.iter().find(|(one, _)| *one == choice).map(|(_, words)| words.text.to_string())
}

fn why_of(choices: &Said, choice: Choice) -> Option<String> {
    choices.iter().find(|(one, _)| *one == choice).map(|(_, words)| words.why.to_string())
}

/// The questions of the walk without a right answer yet, each with the way to its step; nothing when
/// none is left. That of the results stands beside them.
#[component]
pub fn QuestionsLeft() -> impl IntoView {
    let app = App::here();
    let left = Memo::new(move |_| {
        let on_the_walk = |question: &Question| question.step() != Step::Results;
        app.lesson.with(|lesson| {
            lesson.session().questions_left().filter(on_the_walk).collect::<Vec<_>>()
        })
    });
    let go = move |question: Question| {
        let name = move || question.step_name(app.language.get()).into_owned();
        view! {
            <button
                class="button"
                on:click=move |_| {
                    app.lesson(Command::GoTo(question.step()));
                    app.screen.set(Screen::Walk);
                }
            >
                {live(name)}
            </button>
        }
    };
    view! {
        <Show when=move || !left.read().is_empty()>
            <section class="card no-print">
                <h2>{tr("questions.card.left_title")}</h2>
                <p>{tr("questions.card.left")}</p>
                <div class="button-row">{move || left.get().into_iter().map(go).views()}</div>
            </section>
        </Show>
    }
}
