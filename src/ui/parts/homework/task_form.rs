//! The tasks of an assignment, each with its form, and the ways to add one.

use super::task_ask::AskForm;
use crate::ui::parts::number_field::NumberSetting;
use crate::ui::parts::text_area::TextArea;
use crate::ui::reactive::{Views, live};
use crate::ui::setting::Setting;
use crate::ui::state::{App, tr};
use beatwalk::homework::{Ask, Tolerance};
use beatwalk::inquiry::Measured;
use beatwalk::lesson::{Choice, Quantity, Question};
use beatwalk::signal::Landmark;
use beatwalk::words::say_with;
use leptos::prelude::*;

/// All tasks, in order.
#[component]
pub fn TaskForms() -> impl IntoView {
    let setting = Setting::here();
    let forms = move || {
        setting.shape.track();
        let tasks = setting.draft.with_untracked(|draft| draft.tasks.len());
        (0..tasks).map(|place| view! { <TaskForm place=place last=place + 1 == tasks /> }).views()
    };
    view! { <ol class="tasks__list">{live(forms)}</ol> }
}

#[component]
fn TaskForm(place: usize, last: bool) -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let head = move || {
        let number = (place + 1).to_string();
        say_with(app.language.get(), "tasks.set.task", &[("number", &number)])
    };
    let text = move || {
        setting
            .draft
            .with(|draft| draft.tasks.get(place).map(|it| it.text.clone()))
            .unwrap_or_default()
    };
    let points = setting.draft.with_untracked(|draft| draft.tasks.get(place).map(|it| it.points));
    let button = move |words: &'static str, off: bool, act: fn(Setting, usize)| {
        view! {
            <button class="button" disabled=off on:click=move |_| act(setting, place)>
                {tr(words)}
                <span class="hidden-visually">{live(head)}</span>
            </button>
        }
    };
    view! {
        <li class="card tasks__task">
            <h2>{live(head)}</h2>
            <TextArea
                label=Signal::derive(tr("tasks.set.task_text"))
                text=Signal::derive(text)
                on_text=Callback::new(move |text| setting.change_task(place, |task| task.text = text))
            />
            <AskForm place=place />
            <NumberSetting
                label=Signal::derive(tr("tasks.set.task_points"))
                value=points
                on_number=Callback::new(move |points: Option<f64>| {
                    setting.change_task(place, |task| task.points = points.unwrap_or(f64::NAN));
                })
            />
            <div class="button-row">
                {button("tasks.set.earlier", place == 0, |setting, place| setting.move_task(place, -1))}
                {button("tasks.set.later", last, |setting, place| setting.move_task(place, 1))}
                {button(
                    "tasks.set.remove",
                    false,
                    |setting, place| setting.reshape(|draft| {
                        draft.tasks.remove(place);
                    }),
                )}
            </div>
        </li>
    }
}

/// A kind of task, as it begins.
#[derive(Clone, Copy)]
enum Kind {
    Points,
    Measure,
    Number,
    Choice,
    Text,
}

impl Kind {
    const ALL: [(Self, &'static str); 5] = [
        (Self::Points, "tasks.set.add_points"),
        (Self::Measure, "tasks.set.add_measure"),
        (Self::Choice, "tasks.set.add_choice"),
        (Self::Number, "tasks.set.add_number"),
        (Self::Text, "tasks.set.add_text"),
    ];

    /// The boundaries of a usual first task.
    const FIRST: [Landmark; 5] =
        [Landmark::POnset, Landmark::QrsOnset, Landmark::R, Landmark::QrsEnd, Landmark::TEnd];

    fn ask(self, material: String) -> Ask {
        match self {
            Self::Points => Ask::Points { material, landmarks: Self::FIRST.into() },
            Self::Measure => Ask::Measure {
                material,
                measured: Measured::Of(Quantity::Rate),
                tolerance: Tolerance::Within(2.0),
            },
            Self::Number => {
                Ask::Number { value: None, unit: String::new(), tolerance: Tolerance::Percent(5.0) }
            }
            Self::Choice => Ask::Choice { options: vec![String::new(); 3], right: None },
            Self::Text => Ask::Text { guide: None },
        }
    }
}

/// Adds an empty task of a kind, or one of the lesson's questions with its answers.
#[component]
pub fn AddTask() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let add = move |(kind, words): (Kind, &'static str)| {
        let add = move |_| {
            let first = setting.draft.with_untracked(|draft| {
                draft.materials.first().map(|it| it.key.clone()).unwrap_or_default()
            });
            setting.add_task("", kind.ask(first));
        };
        view! {
            <button class="button" on:click=add>
                {tr(words)}
            </button>
        }
    };
    let question = move |(place, question): (usize, Question)| {
        let ask = move || question.words(app.language.get()).ask.into_owned();
        view! { <option value=place.to_string()>{live(ask)}</option> }
    };
    let chosen = RwSignal::new(String::new());
    let add_question = move |_| {
        let place = chosen.get_untracked().parse::<usize>().ok();
        chosen.set(String::new());
        if let Some(question) = place.and_then(|place| Question::ALL.get(place)) {
            let words = question.words(app.language.get_untracked());
            let right = words.choices.iter().position(|(choice, _)| *choice == Choice::Right);
            let options = words.choices.iter().map(|(_, words)| words.text.to_string()).collect();
            setting.add_task(&words.ask, Ask::Choice { options, right });
        }
    };
    let questions = Question::ALL.into_iter().enumerate().map(question);
    view! {
        <section class="card" aria-labelledby="set-add">
            <h2 id="set-add">{tr("tasks.set.add")}</h2>
            <div class="button-row">{Kind::ALL.map(add).views()}</div>
            <div class="tasks__row">
                <label class="field">
                    {tr("tasks.set.add_question")}
                    <select bind:value=chosen>
                        <option value="">{tr("tasks.set.choose_question")}</option>
                        {questions.views()}
                    </select>
                </label>
                <button class="button" on:click=add_question>
                    {tr("tasks.set.add_chosen")}
                </button>
            </div>
        </section>
    }
}
