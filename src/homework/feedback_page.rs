//! Feedback as one HTML page that stands alone, a sheet of paper for each student.

use super::feedback::{Feedback, FeedbackRow};
use crate::report::Markup;
use crate::words::{Language, figure, say, say_with};

/// What stands where nothing was given yet.
const DASH: &str = "–";

/// The feedback on one or more hand-ins as a page.
pub fn feedback_html(all: &[Feedback], language: Language) -> String {
    let said = |key: &str| say(language, key);
    let title = all.first().map_or("", |one| &*one.title);
    let mut page = Markup::page(language.tag(), title);
    for one in all {
        page.begin("article");
        page.text("h1", &one.title);
        if !one.student.is_empty() {
            page.labelled(&said("tasks.student"), &one.student);
        }
        page.text("p", &total(one, language));
        if !one.notes.is_empty() {
            page.items(&one.notes);
        }
        let heads = ["task", "answer", "expected", "verdict", "points", "comment"]
            .map(|head| said(&format!("hand_ins.{head}")).into_owned());
        page.table(&heads, one.rows.iter().map(|row| cells(row, language)));
        if !one.comment.is_empty() {
            page.labelled(&said("hand_ins.comment"), &one.comment);
        }
        page.end("article");
    }
    page.done(&said("page.teaching"))
}

/// What was earned, in words.
fn total(one: &Feedback, language: Language) -> String {
    let [earned, of] = [one.total.earned, one.total.of].map(|points| figure(language, points, 2));
    say_with(language, "hand_ins.total", &[("earned", &earned), ("of", &of)])
}

fn cells(row: &FeedbackRow, language: Language) -> Vec<String> {
    let earned = row.earned.map_or_else(|| DASH.to_owned(), |it| figure(language, it, 2));
    vec![
        row.task.clone(),
        row.answer.clone(),
        row.expected.clone(),
        row.verdict.clone(),
        format!("{earned} / {}", figure(language, row.of, 2)),
        row.comment.clone(),
    ]
}
