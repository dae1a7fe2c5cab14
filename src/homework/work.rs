//! What a student has on the table: the small part, written on every change.
//!
//! The assignment and recordings of the student's own are kept beside it, because they are large and do not
//! change. Points stand in the session of the work on their recording; everything else is an [`Answered`]. An
//! answer is kept as it was typed: what it means is asked when it is marked.

use super::assignment::Assignment;
use super::task::{Ask, Task};
use crate::report::{SavedError, SavedRecording, SavedWork, Unknown, envelope};
use crate::signal::map_of;
use crate::words::{Language, typed};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How the document names its kind.
const KIND: &str = "homework";

/// A student's homework.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Homework {
    /// [`Assignment::fingerprint`] of what it answers.
    pub fingerprint: String,
    /// What that was called.
    pub title: String,
    /// A code or first name, as the teacher asks for; may be empty.
    #[serde(default)]
    pub student: String,
    /// The language it was done in; `None` when unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// When it was begun, as the clock of the computer says; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub started: String,
    /// When it was handed in, as the clock of the computer says; empty until then.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub handed_in: String,
    /// The answers, by the key of the task.
    #[serde(default)]
    pub answers: BTreeMap<String, Answered>,
    /// How long the student was at it, s, by the key of the task or of the recording.
    #[serde(default)]
    pub seconds: BTreeMap<String, f64>,
    /// The work on the recordings, by their keys.
    #[serde(default)]
    pub works: BTreeMap<String, SavedWork>,
    /// Recordings that the student brought, by their keys. They are kept apart, and are inside a hand-in.
    #[serde(skip)]
    pub own: BTreeMap<String, SavedRecording>,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
}

/// An answer that is no point on a trace.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answered {
    /// A number, as it was typed.
    Number(String),
    /// The place of the chosen answer, the first being 0.
    Choice(usize),
    /// Some sentences.
    Text(String),
}

/// How far a task is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TaskState {
    /// Nothing was answered.
    Untouched,
    /// Something was, but not all that is asked; or what stands there is no number.
    Begun,
    /// All that is asked has an answer.
    Done,
}

impl Homework {
    /// An empty table for an assignment.
    pub fn of(assignment: &Assignment) -> Self {
        let untouched = |material: &super::Material| (material.key.clone(), material.untouched());
        Self {
            fingerprint: assignment.fingerprint(),
            title: assignment.title.clone(),
            language: assignment.language,
            works: map_of(assignment.materials.iter().map(untouched)),
            ..Self::default()
        }
    }

    /// The recording with a key: the one that is given, or the student's own.
    pub fn recording<'a>(
        &'a self,
        assignment: &'a Assignment,
        material: &str,
    ) -> Option<&'a SavedRecording> {
        match &assignment.material(material)?.given {
            Some(given) => Some(&given.recording),
            None => self.own.get(material),
        }
    }

    /// How far a task is done.
    pub fn state(&self, assignment: &Assignment, task: &Task) -> TaskState {
        if let Ask::Points { material, landmarks } = &task.ask {
            let known = assignment.material(material).is_some();
            let work = self.works.get(material).filter(|_| known);
            let answered = landmarks.iter().filter(|&&landmark| {
                work.is_some_and(|work| work.session.answer(landmark).is_some())
            });
            return match answered.count() {
                0 => TaskState::Untouched,
                count if count < landmarks.len() => TaskState::Begun,
                _ => TaskState::Done,
            };
        }
        match (&task.ask, self.answers.get(&task.key)) {
            (_, None) => TaskState::Untouched,
            (Ask::Text { .. }, Some(Answered::Text(text))) if !text.trim().is_empty() => {
                TaskState::Done
            }
            (Ask::Choice { options, .. }, Some(Answered::Choice(place)))
                if *place < options.len() =>
            {
                TaskState::Done
            }
            (Ask::Measure { .. } | Ask::Number { .. }, Some(Answered::Number(text)))
                if !text.trim().is_empty() =>
            {
                if typed(text).is_some() {
                    TaskState::Done
                } else {
                    TaskState::Begun
                }
            }
            _ => TaskState::Untouched,
        }
    }

    /// The tasks that still want something, in order.
    pub fn left<'a>(&self, assignment: &'a Assignment) -> Vec<&'a Task> {
        let open = |task: &&Task| self.state(assignment, task) != TaskState::Done;
        assignment.tasks.iter().filter(open).collect()
    }

    /// Checks that all work lies inside its recording, given or brought; work on a recording that is not there
    /// is left alone.
    ///
    /// # Errors
    /// [`SavedError::Misplaced`] or [`SavedError::OtherRecording`] as [`SavedWork::fits`].
    pub fn fits(&self, assignment: &Assignment) -> Result<(), SavedError> {
        self.works.iter().try_for_each(|(key, work)| {
            self.recording(assignment, key).map_or(Ok(()), |recording| work.fits(recording))
        })
    }

    /// The document as text, without the student's own recordings.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        envelope::write(KIND, self)
    }

    /// Opens the document. Whether its work fits the recordings is for [`Self::fits`] to say.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        envelope::open::<Self>(KIND, text).map(Self::with_times_in_order)
    }

    /// Without fields that are not known here but elsewhere.
    pub(super) fn without(mut self, fields: &[&str]) -> Self {
        self.unknown.retain(|name, _| !fields.contains(&name.as_str()));
        self
    }

    /// No time is shorter than nothing.
    pub(super) fn with_times_in_order(mut self) -> Self {
        self.seconds.retain(|_, seconds| seconds.is_finite() && *seconds >= 0.0);
        self
    }
}
