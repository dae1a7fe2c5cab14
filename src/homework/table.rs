//! The marks of a class for other programs; the rules of `report/table.rs` hold.

use super::assignment::Assignment;
use super::hand_in::Seal;
use super::marking::{Origin, Sheet, TaskLine};
use super::marks::Marks;
use crate::report::{harmless, number, table};
use crate::words::{Language, Phrase};

/// Digits after the point of points.
const DECIMALS: usize = 2;
/// Digits after the point of what was measured and answered.
const NUMBER_DECIMALS: usize = 3;

/// One row a hand-in; for each task what was answered, what was expected, the verdict, the points and the comment.
/// Names of columns and verdicts are the same in all languages.
pub fn marks_csv(assignment: &Assignment, sheets: &[Sheet], marks: &Marks) -> String {
    let first = [
        "student",
        "file",
        "assignment",
        "seal",
        "handed_in",
        "minutes",
        "checks",
        "worked_answers",
        "questions",
        "points",
        "of",
        "open",
    ];
    let of_task = |key: &str| {
        ["answer", "expected", "unit", "verdict", "points", "comment"]
            .map(|what| harmless(&format!("{key}_{what}")))
    };
    let head = first.iter().map(|name| (*name).to_owned());
    let head = head.chain(assignment.tasks.iter().flat_map(|task| of_task(&task.key)));
    let row = |sheet: &Sheet| {
        let total = marks.total(sheet);
        let help = sheet.help_used;
        let first = [
            harmless(&sheet.student),
            harmless(&sheet.file),
            match &sheet.origin {
                Origin::This => "this".to_owned(),
                Origin::Other { title } => harmless(title),
            },
            match sheet.seal {
                Seal::Whole => "whole",
                Seal::Broken => "broken",
                Seal::Missing => "missing",
            }
            .to_owned(),
            harmless(&sheet.handed_in),
            number(sheet.seconds.map(|seconds| seconds / 60.0), 1),
            help.checks.to_string(),
            help.worked_answers.to_string(),
            help.questions.to_string(),
            number(Some(total.earned), DECIMALS),
            number(Some(total.of), DECIMALS),
            total.open.to_string(),
        ];
        let of_task = assignment.tasks.iter().flat_map(|task| {
            let line = sheet.lines.iter().find(|line| line.key == task.key);
            line.map_or_else(Default::default, |line| cells(sheet, line, marks))
        });
        first.into_iter().chain(of_task).collect()
    };
    table(head.collect(), sheets.iter().map(row))
}

/// What the student gave or what is right: a number as a number, text as text.
fn one(value: Option<f64>, said: Option<&Phrase>) -> String {
    match (value, said) {
        (Some(value), _) => number(Some(value), NUMBER_DECIMALS),
        (None, Some(said)) => harmless(&said.in_words(Language::English)),
        (None, None) => String::new(),
    }
}

fn cells(sheet: &Sheet, line: &TaskLine, marks: &Marks) -> [String; 6] {
    [
        one(line.answer_value, Some(&line.answer)),
        one(line.reference, line.expected.as_ref()),
        harmless(&line.unit),
        line.verdict.key().to_owned(),
        number(marks.earned(sheet, line), DECIMALS),
        harmless(marks.comment(sheet, &line.key)),
    ]
}
