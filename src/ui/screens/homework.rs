//! Homework: what a teacher set, task by task, and the file to hand in.

use crate::ui::browser::{save_text, takes_focus};
use crate::ui::homework::HomeworkDesk;
use crate::ui::parts::{FilePick, OwnMaterial, TaskCard, TextField};
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::homework::Assignment;
use beatwalk::words::{say, say_with};
use leptos::html::H1;
use leptos::prelude::*;
use std::sync::Arc;

/// The screen of homework.
#[component]
pub fn HomeworkScreen() -> impl IntoView {
    let desk = HomeworkDesk::here();
    move || match desk.assignment.get() {
        None => view! { <NothingSet /> }.into_any(),
        Some(assignment) => view! { <Set assignment=assignment /> }.into_any(),
    }
}

/// Ways to open what a teacher set, and to set something.
#[component]
fn NothingSet() -> impl IntoView {
    let app = App::here();
    view! {
        <div class="tasks">
            <header>
                <h1>{tr("tasks.title")}</h1>
                <p>{tr("tasks.lead")}</p>
            </header>
            <section class="card">
                <h2>{tr("tasks.open_title")}</h2>
                <p>{tr("tasks.open_about")}</p>
                <FilePick
                    text="tasks.open"
                    label=Signal::derive(tr("tasks.open"))
                    main=true
                    on_files=Callback::new(move |files| app.open_files(files))
                />
            </section>
            <ForTeachers />
        </div>
    }
}

/// The ways to set homework and to mark it.
#[component]
fn ForTeachers() -> impl IntoView {
    let app = App::here();
    view! {
        <section class="card">
            <h2>{tr("tasks.teachers")}</h2>
            <p>{tr("tasks.teachers_about")}</p>
            <div class="button-row">
                <button class="button" on:click=move |_| app.screen.set(Screen::Set)>
                    {tr("tasks.set.title")}
                </button>
                <button class="button" on:click=move |_| app.screen.set(Screen::HandIns)>
                    {tr("hand_ins.title")}
                </button>
            </div>
        </section>
    }
}

#[component]
fn Set(assignment: Arc<Assignment>) -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let heading = takes_focus::<H1>();
    let student = move || desk.done.with(|done| done.student.clone());
    let due = (!assignment.due.is_empty()).then(|| {
        let due = assignment.due.clone();
        view! {
            <p>
                {tr("tasks.due")} " " <bdi>{due}</bdi>
            </p>
        }
    });
    let cards = assignment.tasks.iter().enumerate().map(|(place, task)| {
        view! { <TaskCard number=place + 1 task=task.clone() /> }
    });
    let own = assignment.materials.iter().filter(|material| material.given.is_none());
    let own = own.map(|material| view! { <OwnMaterial material=material.clone() /> });
    view! {
        <div class="tasks">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    <bdi>{assignment.title.clone()}</bdi>
                </h1>
                <p class="tasks__text" dir="auto">
                    {assignment.instructions.clone()}
                </p>
                {due}
            </header>
            <Show when=move || !app.projector.get()>
                <section class="card">
                    <TextField
                        label=Signal::derive(tr("tasks.student"))
                        text=Signal::derive(student)
                        on_text=Callback::new(move |text| desk.done.update(|done| done.student = text))
                    />
                    <p class="soft">{tr("tasks.student_about")}</p>
                </section>
            </Show>
            {own.views()}
            <ol class="tasks__list">{cards.views()}</ol>
            <HandingIn assignment=assignment.clone() />
            <ForTeachers />
        </div>
    }
}

/// What is left, the file to hand in, and the ways to leave.
#[component]
fn HandingIn(assignment: Arc<Assignment>) -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let all = assignment.tasks.len();
    let left = Memo::new(move |_| {
        desk.done.with(|done| {
            let left = done.left(&assignment);
            let number = |task: &&_| assignment.tasks.iter().position(|it| std::ptr::eq(it, *task));
            left.iter().filter_map(number).map(|place| (place + 1).to_string()).collect::<Vec<_>>()
        })
    });
    let said = move || {
        let left = left.get();
        let done = (all - left.len()).to_string();
        let places = [("done", &*done), ("all", &all.to_string()), ("left", &left.join(", "))];
        let key = if left.is_empty() { "tasks.all_done" } else { "tasks.left" };
        say_with(app.language.get(), key, &places)
    };
    let hand_in = move |_| {
        let saved = desk.hand_in().map(|(name, text)| save_text(&name, "application/json", &text));
        app.check_saved(saved);
    };
    let sure = RwSignal::new(false);
    view! {
        <section class="card" aria-labelledby="hand-in">
            <h2 id="hand-in">{tr("tasks.hand_in_title")}</h2>
            <p role="status">{live(said)}</p>
            <p>{tr("tasks.hand_in_about")}</p>
            <div class="button-row">
                <button class="button button--main" on:click=hand_in>
                    {tr("tasks.hand_in")}
                </button>
                <button class="button" on:click=move |_| desk.leave()>
                    {tr("tasks.leave")}
                </button>
                <button class="button" aria-expanded=move || sure.get().to_string() on:click=move |_| sure.update(|it| *it = !*it)>
                    {tr("tasks.clear")}
                </button>
            </div>
            <Show when=move || sure.get()>
                <div class="notice notice--caution button-row" role="alert">
                    <span>{tr("tasks.clear_sure")}</span>
                    <button class="button" on:click=move |_| app.clear()>
                        {tr("tasks.clear_do")}
                    </button>
                </div>
            </Show>
            <p class="soft">{move || say(app.language.get(), "tasks.kept").into_owned()}</p>
        </section>
    }
}
