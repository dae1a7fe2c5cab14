//! What a student gets back: each task with the answer, what was expected, points and comment. Data for print.

use super::assignment::Assignment;
use super::hand_in::Seal;
use super::marking::{Origin, Sheet, TaskLine};
use super::marks::{Marks, Total};
use crate::words::{Language, phrase};

/// The feedback on one hand-in.
#[derive(Clone, Debug, PartialEq)]
pub struct Feedback {
    /// What the assignment is called.
    pub title: String,
    /// Whose hand-in it is; may be empty.
    pub student: String,
    /// One row a task.
    pub rows: Vec<FeedbackRow>,
    /// What it earned.
    pub total: Total,
    /// The teacher's comment on the whole; may be empty.
    pub comment: String,
    /// What else has to be said, a sentence each.
    pub notes: Vec<String>,
}

/// The feedback on one task.
#[derive(Clone, Debug, PartialEq)]
pub struct FeedbackRow {
    /// The key of the task.
    pub key: String,
    /// The task.
    pub task: String,
    /// What the student gave, with its unit; empty where nothing was.
    pub answer: String,
    /// What was expected, with its unit; empty where there is no one thing.
    pub expected: String,
    /// How it was judged.
    pub verdict: String,
    /// The points; `None` while the teacher has to decide.
    pub earned: Option<f64>,
    /// What could be earned.
    pub of: f64,
    /// The teacher's comment; may be empty.
    pub comment: String,
}

impl Feedback {
    /// The feedback in a language.
    pub fn of(assignment: &Assignment, sheet: &Sheet, marks: &Marks, language: Language) -> Self {
        let row = |line: &TaskLine| FeedbackRow {
            key: line.key.clone(),
            task: assignment.task(&line.key).map(|task| task.text.clone()).unwrap_or_default(),
            answer: line.answer_words(language),
            expected: line.expected_words(language),
            verdict: line.verdict.said().in_words(language),
            earned: marks.earned(sheet, line),
            of: line.of,
            comment: marks.comment(sheet, &line.key).to_owned(),
        };
        let other = matches!(sheet.origin, Origin::Other { .. });
        let total = marks.total(sheet);
        let notes = [
            other.then(|| phrase!("homework.note.other_assignment")),
            (sheet.seal != Seal::Whole).then(|| phrase!("homework.note.altered")),
            (total.open > 0).then(|| phrase!("homework.note.open")),
        ];
        Self {
            title: assignment.title.clone(),
            student: sheet.student.clone(),
            rows: sheet.lines.iter().map(row).collect(),
            total,
            comment: marks.for_sheet(sheet).map(|own| own.comment.clone()).unwrap_or_default(),
            notes: notes.into_iter().flatten().map(|note| note.in_words(language)).collect(),
        }
    }
}
