//! One task of all hand-ins, side by side: the quickest way to mark texts alike.

use super::points_field::PointsField;
use super::table::{or_dash, who};
use crate::ui::browser::takes_focus;
use crate::ui::hand_ins::HandIns;
use crate::ui::reactive::{Views, live};
use crate::ui::state::App;
use beatwalk::homework::{Ask, Sheet, TaskLine};
use beatwalk::words::{Phrase, say_with};
use leptos::html::H2;
use leptos::prelude::*;

/// All answers to the task at a place of the table.
#[component]
pub fn OneTask(place: usize) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let heading = takes_focus::<H2>();
    let task = hand_ins.assignment.with_untracked(|set| set.as_ref()?.tasks.get(place).cloned());
    let (text, guide) = match task {
        None => (String::new(), None),
        Some(task) => match task.ask {
            Ask::Text { guide } => (task.text, guide),
            _ => (task.text, None),
        },
    };
    let head = move || {
        let number = (place + 1).to_string();
        say_with(app.language.get(), "hand_ins.task_number", &[("number", &number)])
    };
    let guide = move || {
        let guide = Phrase::message("hand_ins.guide").with("guide", guide.as_deref()?);
        Some(guide.in_words(app.language.get()))
    };
    let answers = move || {
        let one = |sheet: &Sheet| {
            let line = sheet.lines.get(place)?.clone();
            Some(view! { <OneAnswer sheet=sheet.clone() line=line /> })
        };
        hand_ins.sheets.with(|sheets| sheets.iter().filter_map(one).views())
    };
    view! {
        <section class="card">
            <h2 tabindex="-1" node_ref=heading>
                {live(head)}
            </h2>
            <p class="tasks__text" dir="auto">
                {text}
            </p>
            <p class="tasks__text soft" dir="auto">
                {live(guide)}
            </p>
            <ul class="hand-ins__answers">{live(answers)}</ul>
        </section>
    }
}

#[component]
fn OneAnswer(sheet: Sheet, line: TaskLine) -> impl IntoView {
    let app = App::here();
    let name = who(&sheet);
    let sheet = StoredValue::new(sheet);
    let shown = move || app.nameless().unwrap_or_else(|| name.clone());
    let given = line.clone();
    let answer = move || or_dash(given.answer_words(app.language.get()));
    view! {
        <li class="hand-ins__line">
            <h3>
                <bdi>{live(shown)}</bdi>
            </h3>
            <p class="tasks__text" dir="auto">
                {live(answer)}
            </p>
            <PointsField sheet=sheet line=line />
        </li>
    }
}
