//! What a teacher must mend before an assignment can be given out.

use super::assignment::Assignment;
use super::task::{Ask, Task, Tolerance};
use crate::words::{Phrase, phrase};
use std::collections::BTreeSet;

/// One thing to mend.
#[derive(Clone, Debug, PartialEq)]
pub struct SetProblem {
    /// The place of the task in [`Assignment::tasks`]; `None` for the assignment as a whole.
    pub task: Option<usize>,
    /// What is wrong.
    pub fault: SetFault,
}

/// What is wrong with an assignment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetFault {
    /// It has no title.
    NoTitle,
    /// It has no task.
    NoTask,
    /// Two recordings have one key, or one has none.
    MaterialKey,
    /// A task has no key, or that of another task or of a recording.
    TaskKey,
    /// A task says nothing.
    NoText,
    /// A task is about a recording that is not there.
    UnknownMaterial,
    /// No point is asked for.
    NoLandmark,
    /// There are fewer than two answers to choose from, or one of them is empty.
    FewOptions,
    /// No answer is said to be right.
    NoRightOption,
    /// The right number is not known.
    NoValue,
    /// The tolerance is no number from 0 up.
    Tolerance,
    /// The points are no number from 0 up.
    Points,
}

impl SetFault {
    /// What is wrong, and what to do.
    pub const fn said(self) -> Phrase {
        match self {
            Self::NoTitle => phrase!("homework.problem.no_title"),
            Self::NoTask => phrase!("homework.problem.no_task"),
            Self::MaterialKey => phrase!("homework.problem.material_key"),
            Self::TaskKey => phrase!("homework.problem.task_key"),
            Self::NoText => phrase!("homework.problem.no_text"),
            Self::UnknownMaterial => phrase!("homework.problem.unknown_material"),
            Self::NoLandmark => phrase!("homework.problem.no_landmark"),
            Self::FewOptions => phrase!("homework.problem.few_options"),
            Self::NoRightOption => phrase!("homework.problem.no_right_option"),
            Self::NoValue => phrase!("homework.problem.no_value"),
            Self::Tolerance => phrase!("homework.problem.tolerance"),
            Self::Points => phrase!("homework.problem.points"),
        }
    }
}

impl Assignment {
    /// What must be mended before it can be given out, in the order in which it stands.
    pub fn problems(&self) -> Vec<SetProblem> {
        let material_keys = || self.materials.iter().map(|one| &*one.key);
        // Time is kept by the keys of both.
        let all_keys = self.tasks.iter().map(|one| &*one.key).chain(material_keys());
        let whole = [
            (self.title.trim().is_empty(), SetFault::NoTitle),
            (self.tasks.is_empty(), SetFault::NoTask),
            (!are_keys(material_keys()), SetFault::MaterialKey),
            (!are_keys(all_keys), SetFault::TaskKey),
        ];
        let whole = whole.into_iter().filter(|(is, _)| *is);
        let whole = whole.map(|(_, fault)| SetProblem { task: None, fault });
        let of_tasks = self.tasks.iter().enumerate().flat_map(|(place, task)| {
            let faults = self.faults_of(task).into_iter();
            faults.map(move |fault| SetProblem { task: Some(place), fault })
        });
        whole.chain(of_tasks).collect()
    }

    fn faults_of(&self, task: &Task) -> Vec<SetFault> {
        let unknown = task.ask.material().is_some_and(|key| self.material(key).is_none());
        let loose = |tolerance: &Tolerance| !is_from_zero_up(tolerance.amount());
        let mut faults = vec![
            (task.text.trim().is_empty(), SetFault::NoText),
            (!is_from_zero_up(task.points), SetFault::Points),
            (unknown, SetFault::UnknownMaterial),
        ];
        match &task.ask {
            Ask::Points { landmarks, .. } => {
                faults.push((landmarks.is_empty(), SetFault::NoLandmark));
            }
            Ask::Measure { tolerance, .. } => {
                // Nobody measures a length to the last bit.
                let exact = tolerance.amount() == 0.0;
                faults.push((loose(tolerance) || exact, SetFault::Tolerance));
            }
            Ask::Number { value, tolerance, .. } => {
                let known = value.is_some_and(f64::is_finite);
                faults
                    .extend([(!known, SetFault::NoValue), (loose(tolerance), SetFault::Tolerance)]);
            }
            Ask::Choice { options, right } => {
                let few = options.len() < 2 || options.iter().any(|one| one.trim().is_empty());
                let right = right.is_some_and(|place| place < options.len());
                faults.extend([(few, SetFault::FewOptions), (!right, SetFault::NoRightOption)]);
            }
            Ask::Text { .. } => {}
        }
        faults.into_iter().filter(|(is, _)| *is).map(|(_, fault)| fault).collect()
    }
}

fn are_keys<'a>(keys: impl Iterator<Item = &'a str>) -> bool {
    let mut seen = BTreeSet::new();
    keys.into_iter().all(|key| !key.trim().is_empty() && seen.insert(key))
}

/// A tolerance of nothing is meant where a count is asked for.
fn is_from_zero_up(number: f64) -> bool {
    number.is_finite() && number >= 0.0
}
