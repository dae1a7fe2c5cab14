//! Marking what was handed in: bring the files, see who did what, give points, write comments, give it back.

use crate::ui::browser::{save_text, takes_focus};
use crate::ui::hand_ins::HandIns;
use crate::ui::homework::as_file_name;
use crate::ui::parts::{BringFiles, HandInsTable, OneHandIn, OneTask, RefusedFiles};
use crate::ui::reactive::Show;
use crate::ui::state::{App, Screen, tr};
use beatwalk::homework::{Feedback, feedback_html, marks_csv};
use leptos::html::H1;
use leptos::prelude::*;

/// What is looked at below the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LookAt {
    /// One hand-in, by its place.
    HandIn(usize),
    /// All answers to one task, by its place.
    Task(usize),
}

/// The screen on which a teacher marks.
#[component]
pub fn HandInsScreen() -> impl IntoView {
    let hand_ins = HandIns::here();
    let heading = takes_focus::<H1>();
    let look_at = RwSignal::new(None::<LookAt>);
    let title = move || hand_ins.assignment.with(|set| set.as_ref().map(|set| set.title.clone()));
    let some = move || !hand_ins.sheets.read().is_empty();
    view! {
        <div class="tasks hand-ins">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    {tr("hand_ins.title")}
                </h1>
                <p>{tr("hand_ins.lead")}</p>
                <p role="status">
                    {move || match title() {
                        Some(title) => view! { <strong><bdi>{title}</bdi></strong> }.into_any(),
                        None => tr("hand_ins.no_assignment")().into_any(),
                    }}
                </p>
            </header>
            <Bring />
            <RefusedFiles title="hand_ins.refused" refused=hand_ins.refused />
            <Show when=some>
                <HandInsTable look_at=look_at />
                {move || match look_at.get() {
                    Some(LookAt::HandIn(place)) => view! { <OneHandIn place=place /> }.into_any(),
                    Some(LookAt::Task(place)) => view! { <OneTask place=place /> }.into_any(),
                    None => ().into_any(),
                }}
                <GiveBack />
            </Show>
            <p class="notice">{tr("homework.honest")}</p>
        </div>
    }
}

/// Ways to bring files, and whose answers they are marked by.
#[component]
fn Bring() -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let teachers = move || {
        hand_ins.assignment.with(|set| set.as_ref().is_none_or(|set| set.is_teachers_copy()))
    };
    view! {
        <BringFiles
            drop="hand_ins.drop"
            pick="hand_ins.pick"
            progress="hand_ins.progress"
            count=hand_ins.queue.count
            on_files=Callback::new(move |files| hand_ins.take(files))
            on_stop=Callback::new(move |()| hand_ins.stop())
        >
            <button class="button" on:click=move |_| app.screen.set(Screen::Homework)>
                {tr("tasks.title")}
            </button>
            <button class="button" on:click=move |_| hand_ins.leave()>
                {tr("hand_ins.clear")}
            </button>
            <label class="tasks__option">
                <input
                    type="checkbox"
                    prop:checked=move || hand_ins.takes_others.get()
                    on:change=move |event| {
                        hand_ins.takes_others.set(event_target_checked(&event));
                        hand_ins.mark_again();
                    }
                />
                <span>{tr("hand_ins.takes_others")}</span>
            </label>
        </BringFiles>
        <Show when=move || !teachers()>
            <p class="notice notice--caution">{tr("hand_ins.students_copy")}</p>
        </Show>
    }
}

/// Everything that leaves the desk: marks for a table, marks to go on with, feedback.
#[component]
fn GiveBack() -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let save = move |ending: &'static str,
                     kind: &'static str,
                     make: fn(HandIns, App) -> Option<String>| {
        move |_| {
            let title = hand_ins.marks.with_untracked(|marks| as_file_name(&marks.title));
            let saved = untrack(|| make(hand_ins, app))
                .map(|text| save_text(&format!("{title}{ending}"), kind, &text));
            app.check_saved(saved);
        }
    };
    view! {
        <section class="card no-print" aria-labelledby="give-back">
            <h2 id="give-back">{tr("hand_ins.give_back")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=save("-marks.csv", "text/csv", csv)>
                    {tr("hand_ins.save_csv")}
                </button>
                <button class="button" on:click=save("-feedback.html", "text/html", feedback_of_all)>
                    {tr("hand_ins.save_feedback")}
                </button>
                <button class="button" on:click=save("-marks.beatwalk.json", "application/json", marks)>
                    {tr("hand_ins.save_marks")}
                </button>
            </div>
            <p class="soft">{tr("hand_ins.give_back_about")}</p>
        </section>
    }
}

fn csv(hand_ins: HandIns, _: App) -> Option<String> {
    let set = hand_ins.assignment.get()?;
    Some(hand_ins.sheets.with(|sheets| hand_ins.marks.with(|marks| marks_csv(&set, sheets, marks))))
}

fn marks(hand_ins: HandIns, _: App) -> Option<String> {
    hand_ins.marks.with(|marks| marks.to_json().ok())
}

fn feedback_of_all(hand_ins: HandIns, app: App) -> Option<String> {
    let (set, language) = (hand_ins.assignment.get()?, app.language.get());
    let all: Vec<Feedback> = hand_ins.sheets.with(|sheets| {
        hand_ins.marks.with(|marks| {
            sheets.iter().map(|sheet| Feedback::of(&set, sheet, marks, language)).collect()
        })
    });
    Some(feedback_html(&all, language))
}
