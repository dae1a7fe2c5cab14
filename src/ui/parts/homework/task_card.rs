//! One task as a student meets it: what is asked, a place for the answer, and whether anything is missing.

use crate::ui::homework::HomeworkDesk;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::homework::{Answered, Ask, Task, TaskState};
use beatwalk::lesson::LandmarkWords;
use beatwalk::signal::Landmark;
use beatwalk::words::{figure, say, say_with};
use leptos::prelude::*;

/// One task.
#[component]
pub fn TaskCard(
    /// Its number, the first being 1.
    number: usize,
    /// The task.
    task: Task,
) -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let (key, points) = (task.key.clone(), task.points);
    let head = move || {
        let language = app.language.get();
        let points = figure(language, points, 1);
        say_with(language, "tasks.head", &[("number", &number.to_string()), ("points", &points)])
    };
    let own = task.clone();
    let state = Memo::new(move |_| {
        desk.assignment
            .with(|set| set.as_ref().map(|set| desk.done.with(|done| done.state(set, &own))))
    });
    let told = move || {
        let key = match state.get()? {
            TaskState::Untouched => return None,
            TaskState::Begun => "tasks.begun",
            TaskState::Done => "tasks.done",
        };
        Some(say(app.language.get(), key).into_owned())
    };
    view! {
        <li
            class="card tasks__task"
            class:tasks__task--done=move || state.get() == Some(TaskState::Done)
            on:focusin=move |_| desk.turn_to(&key)
        >
            <h2>
                {live(head)} " " <span class="tasks__state" role="status">
                    {live(told)}
                </span>
            </h2>
            <p class="tasks__text" dir="auto" id=format!("task-{number}")>
                {task.text.clone()}
            </p>
            {answer(number, &task)}
        </li>
    }
}

fn answer(number: usize, task: &Task) -> AnyView {
    let asked = format!("task-{number}");
    match &task.ask {
        Ask::Points { material, landmarks } => {
            view! { <Points material=material.clone() landmarks=landmarks.clone() /> }.into_any()
        }
        Ask::Measure { material, .. } => view! {
            <NumberAnswer asked=asked key=task.key.clone() unit=task.ask.unit().to_owned() />
            <ToTheTrace material=material.clone() screen=Screen::See />
        }
        .into_any(),
        Ask::Number { unit, .. } => {
            view! { <NumberAnswer asked=asked key=task.key.clone() unit=unit.clone() /> }.into_any()
        }
        Ask::Choice { options, .. } => {
            view! { <ChoiceAnswer asked=asked key=task.key.clone() options=options.clone() /> }
                .into_any()
        }
        Ask::Text { .. } => view! { <TextAnswer asked=asked key=task.key.clone() /> }.into_any(),
    }
}

/// The way to a recording of the homework.
#[component]
fn ToTheTrace(material: String, screen: Screen) -> impl IntoView {
    let desk = HomeworkDesk::here();
    let key = StoredValue::new(material);
    let label = move || {
        let key = key.get_value();
        desk.assignment.with(|set| Some(set.as_ref()?.material(&key)?.label.clone()))
    };
    let there = move || {
        let key = key.get_value();
        desk.assignment.with(|set| {
            set.as_ref()
                .is_some_and(|set| desk.done.with(|done| done.recording(set, &key).is_some()))
        })
    };
    view! {
        <button
            class="button"
            disabled=move || !there()
            on:click=move |_| desk.work_on(&key.get_value(), screen)
        >
            {tr("tasks.to_trace")} " " <bdi>{live(label)}</bdi>
        </button>
    }
}

/// The points that are asked for: which have an answer, and the way to place them.
#[component]
fn Points(material: String, landmarks: Vec<Landmark>) -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let key = material.clone();
    let placed = move |landmark: Landmark| {
        desk.done.with(|done| {
            done.works.get(&key).is_some_and(|work| work.session.answer(landmark).is_some())
        })
    };
    let one = move |landmark: Landmark| {
        let name = move || LandmarkWords::of(landmark, app.language.get()).name.into_owned();
        let placed = placed.clone();
        let mark = move || {
            let key = if placed(landmark) { "tasks.placed" } else { "tasks.not_placed" };
            say(app.language.get(), key).into_owned()
        };
        view! { <li>{live(name)} " " <span class="soft">{live(mark)}</span></li> }
    };
    view! {
        <ul class="tasks__points">{landmarks.into_iter().map(one).views()}</ul>
        <ToTheTrace material=material screen=Screen::Walk />
    }
}

#[component]
fn NumberAnswer(asked: String, key: String, unit: String) -> impl IntoView {
    let desk = HomeworkDesk::here();
    let own = key.clone();
    let value = move || match desk.done.with(|done| done.answers.get(&own).cloned()) {
        Some(Answered::Number(text)) => text,
        _ => String::new(),
    };
    view! {
        <label class="field field--number">
            {tr("tasks.answer")}
            <span>
                <input
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    maxlength="40"
                    aria-describedby=asked
                    prop:value=value
                    on:input=move |event| desk.answer(&key, Answered::Number(event_target_value(&event)))
                />
                " "
                <bdi>{unit}</bdi>
            </span>
        </label>
    }
}

#[component]
fn ChoiceAnswer(asked: String, key: String, options: Vec<String>) -> impl IntoView {
    let desk = HomeworkDesk::here();
    let own = key.clone();
    let chosen = Memo::new(move |_| match desk.done.with(|done| done.answers.get(&own).cloned()) {
        Some(Answered::Choice(place)) => Some(place),
        _ => None,
    });
    let group = asked.clone();
    let option = move |(place, text): (usize, String)| {
        let key = key.clone();
        view! {
            <label class="tasks__option">
                <input
                    type="radio"
                    name=group.clone()
                    prop:checked=move || chosen.get() == Some(place)
                    on:change=move |_| desk.answer(&key, Answered::Choice(place))
                />
                <bdi>{text}</bdi>
            </label>
        }
    };
    view! {
        <fieldset class="tasks__options" aria-describedby=asked>
            <legend class="hidden-visually">{tr("tasks.answer")}</legend>
            {options.into_iter().enumerate().map(option).views()}
        </fieldset>
    }
}

#[component]
fn TextAnswer(asked: String, key: String) -> impl IntoView {
    let desk = HomeworkDesk::here();
    let own = key.clone();
    let value = move || match desk.done.with(|done| done.answers.get(&own).cloned()) {
        Some(Answered::Text(text)) => text,
        _ => String::new(),
    };
    view! {
        <label class="field">
            {tr("tasks.answer")}
            <textarea
                rows="4"
                maxlength="20000"
                dir="auto"
                aria-describedby=asked
                prop:value=value
                on:input=move |event| desk.answer(&key, Answered::Text(event_target_value(&event)))
            ></textarea>
        </label>
    }
}
