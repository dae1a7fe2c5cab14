//! One hand-in, task by task: what was answered, what was expected, points and comments.

use super::points_field::PointsField;
use super::table::{or_dash, who};
use crate::ui::browser::{save_text, takes_focus};
use crate::ui::hand_ins::HandIns;
use crate::ui::homework::as_file_name;
use crate::ui::parts::text_area::TextArea;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::homework::{Feedback, Sheet, TaskLine, feedback_html};
use beatwalk::words::{Language, Phrase, say_with};
use leptos::html::H2;
use leptos::prelude::*;

/// The hand-in at a place of the table.
#[component]
pub fn OneHandIn(place: usize) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let heading = takes_focus::<H2>();
    let found = hand_ins.sheets.with_untracked(|sheets| sheets.get(place).cloned());
    let Some(sheet) = found else { return ().into_any() };
    let name = who(&sheet);
    let lines = sheet.lines.clone();
    let sheet = StoredValue::new(sheet);
    let comment = move || {
        sheet.with_value(|sheet| {
            hand_ins.marks.with(|marks| marks.for_sheet(sheet).map(|own| own.comment.clone()))
        })
    };
    let save = move |_| {
        let made = untrack(|| {
            let (set, language) = (hand_ins.assignment.get()?, app.language.get());
            let one = sheet.with_value(|sheet| {
                hand_ins.marks.with(|marks| Feedback::of(&set, sheet, marks, language))
            });
            let name = sheet.with_value(|sheet| as_file_name(&who(sheet)));
            Some(save_text(
                &format!("{name}-feedback.html"),
                "text/html",
                &feedback_html(&[one], language),
            ))
        });
        app.check_saved(made);
    };
    let shown = move || app.nameless().unwrap_or_else(|| name.clone());
    let one = move |(number, line): (usize, TaskLine)| {
        view! { <Answered number=number + 1 sheet=sheet line=line /> }
    };
    view! {
        <section class="card">
            <h2 tabindex="-1" node_ref=heading>
                <bdi>{live(shown)}</bdi>
            </h2>
            <ol class="tasks__list">{lines.into_iter().enumerate().map(one).views()}</ol>
            <TextArea
                label=Signal::derive(tr("hand_ins.comment_on_all"))
                text=Signal::derive(move || comment().unwrap_or_default())
                on_text=Callback::new(move |text| {
                    hand_ins.marks.update(|marks| {
                        sheet.with_value(|sheet| marks.for_sheet_mut(sheet).comment = text);
                    });
                })
            />
            <div class="button-row">
                <button class="button" on:click=save>
                    {tr("hand_ins.save_one")}
                </button>
            </div>
        </section>
    }
    .into_any()
}

#[component]
fn Answered(number: usize, sheet: StoredValue<Sheet>, line: TaskLine) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let task =
        hand_ins.assignment.with_untracked(|set| Some(set.as_ref()?.task(&line.key)?.text.clone()));
    let head = move || {
        say_with(app.language.get(), "hand_ins.task_number", &[("number", &number.to_string())])
    };
    let told = StoredValue::new(line.clone());
    let said = move |words: fn(&TaskLine, Language) -> String| {
        or_dash(told.with_value(|line| words(line, app.language.get())))
    };
    let verdict = line.verdict;
    let notes = line.notes.clone();
    let notes = move || {
        let note =
            |note: &Phrase| view! { <p class="soft">{note.in_words(app.language.get())}</p> };
        notes.iter().map(note).views()
    };
    view! {
        <li class="hand-ins__line">
            <h3>{live(head)}</h3>
            <p class="tasks__text soft" dir="auto">
                {task}
            </p>
            <dl class="facts">
                <dt>{tr("hand_ins.answer")}</dt>
                <dd class="tasks__text" dir="auto">
                    {move || said(TaskLine::answer_words)}
                </dd>
                <dt>{tr("hand_ins.expected")}</dt>
                <dd dir="auto">
                    {move || said(TaskLine::expected_words)}
                </dd>
                <dt>{tr("hand_ins.verdict")}</dt>
                <dd>{move || verdict.said().in_words(app.language.get())}</dd>
            </dl>
            {live(notes)}
            <PointsField sheet=sheet line=line />
        </li>
    }
}
