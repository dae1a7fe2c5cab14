//! Marks one hand-in after the other; each stands for itself, and none stops the rest.

use super::fault::MarkFault;
use super::lines::{help_used, line};
use super::reference::References;
use super::sheet::{HelpUsed, Origin, Sheet};
use crate::homework::{Assignment, HandIn, Homework, plain};
use crate::signal::Progress;
use serde::{Deserialize, Serialize};

/// What marks the hand-ins of an assignment.
#[derive(Debug)]
pub struct Marker {
    assignment: Assignment,
    fingerprint: String,
    references: References,
    /// Whether hand-ins for another assignment are marked as if they were for this one: where the teacher mended
    /// a word in it after it was given out.
    pub takes_others: bool,
}

/// What came of one file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Marked {
    /// The file.
    pub file: String,
    /// Its sheet, or why there is none.
    pub outcome: Result<Sheet, MarkFault>,
}

impl Marker {
    /// For the teacher's copy of an assignment.
    pub fn new(assignment: Assignment) -> Self {
        let fingerprint = assignment.fingerprint();
        Self { assignment, fingerprint, references: References::default(), takes_others: false }
    }

    /// What is marked.
    pub const fn assignment(&self) -> &Assignment {
        &self.assignment
    }

    /// Marks a file.
    pub fn mark(&mut self, file: &str, text: &str, progress: &mut dyn Progress) -> Marked {
        Marked { file: file.to_owned(), outcome: self.sheet(file, text, progress) }
    }

    fn sheet(
        &mut self,
        file: &str,
        text: &str,
        progress: &mut dyn Progress,
    ) -> Result<Sheet, MarkFault> {
        if text.trim().is_empty() {
            return Err(MarkFault::empty());
        }
        let HandIn { homework, seal, content } = HandIn::from_json(text)?;
        let origin = if homework.fingerprint == self.fingerprint {
            Origin::This
        } else {
            Origin::Other { title: plain::name(&homework.title) }
        };
        let is_marked = origin == Origin::This || self.takes_others;
        self.references.next_student();
        let tasks = if is_marked { &*self.assignment.tasks } else { &[] };
        let of = tasks.len() as f64;
        let lines = tasks.iter().enumerate().map(|(place, task)| {
            let mut within = |part: f64| progress.at((place as f64 + part) / of);
            line(task, &self.assignment, &homework, &mut self.references, &mut within)
        });
        let lines = lines.collect();
        progress.at(1.0);
        Ok(Sheet {
            file: file.to_owned(),
            content,
            student: plain::name(&homework.student),
            origin,
            seal,
            started: plain::name(&homework.started),
            handed_in: plain::name(&homework.handed_in),
            lines,
            seconds: (!homework.seconds.is_empty()).then(|| homework.seconds.values().sum()),
            help_used: all_help(&homework),
        })
    }
}

fn all_help(homework: &Homework) -> HelpUsed {
    let each = homework.works.values().map(|work| help_used(&work.session));
    each.fold(HelpUsed::default(), |all, one| HelpUsed {
        checks: all.checks.saturating_add(one.checks),
        worked_answers: all.worked_answers.saturating_add(one.worked_answers),
        questions: all.questions.saturating_add(one.questions),
    })
}
