//! What the teacher gives and writes on top of what was marked by itself, kept so that it can go on tomorrow.
//!
//! Marks belong to the content of a hand-in, not to the name of its file: it is found again when the file was
//! renamed, and a second hand-in of the same student starts without them.

use super::assignment::Assignment;
use super::marking::{Sheet, TaskLine};
use crate::report::{SavedError, Unknown, envelope};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How the document names its kind.
const KIND: &str = "marks";

/// The teacher's marks for one assignment.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    /// [`Assignment::fingerprint`] of what they are for.
    pub fingerprint: String,
    /// What that was called.
    pub title: String,
    /// By [`Sheet::content`].
    #[serde(default)]
    pub hand_ins: BTreeMap<String, OwnMarks>,
    #[serde(flatten)]
    unknown: Unknown,
}

/// The teacher's marks for one hand-in.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct OwnMarks {
    /// Whose it is, for a person who reads the document.
    #[serde(default)]
    pub student: String,
    /// The points given in place of those marked, by the key of the task.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub earned: BTreeMap<String, f64>,
    /// Comments, by the key of the task.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub comments: BTreeMap<String, String>,
    /// A comment on the whole; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub comment: String,
    #[serde(flatten)]
    unknown: Unknown,
}

/// What a hand-in earned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Total {
    /// The points so far.
    pub earned: f64,
    /// What could be earned.
    pub of: f64,
    /// How many tasks wait for the teacher.
    pub open: usize,
}

impl Marks {
    /// No marks yet.
    pub fn of(assignment: &Assignment) -> Self {
        let (fingerprint, title) = (assignment.fingerprint(), assignment.title.clone());
        Self { fingerprint, title, ..Self::default() }
    }

    /// What the teacher gave and wrote for a hand-in.
    pub fn for_sheet(&self, sheet: &Sheet) -> Option<&OwnMarks> {
        self.hand_ins.get(&sheet.content)
    }

    /// The place for it, made when it is missing.
    pub fn for_sheet_mut(&mut self, sheet: &Sheet) -> &mut OwnMarks {
        let own = self.hand_ins.entry(sheet.content.clone()).or_default();
        own.student.clone_from(&sheet.student);
        own
    }

    /// Gives points for a task in place of those marked; `None` takes them back. What is no number from 0 up
    /// changes nothing.
    pub fn give(&mut self, sheet: &Sheet, task: &str, earned: Option<f64>) {
        let own = self.for_sheet_mut(sheet);
        match earned {
            None => {
                own.earned.remove(task);
            }
            Some(points) if points.is_finite() && points >= 0.0 => {
                own.earned.insert(task.to_owned(), points);
            }
            Some(_) => {}
        }
    }

    /// Comments on a task; an empty text takes the comment away.
    pub fn comment_on(&mut self, sheet: &Sheet, task: &str, text: &str) {
        let comments = &mut self.for_sheet_mut(sheet).comments;
        if text.is_empty() {
            comments.remove(task);
        } else {
            comments.insert(task.to_owned(), text.to_owned());
        }
    }

    /// What a task earned: as the teacher gave, or else as it was marked; `None` while the teacher has to decide.
    pub fn earned(&self, sheet: &Sheet, line: &TaskLine) -> Option<f64> {
        let given = self.for_sheet(sheet).and_then(|own| own.earned.get(&line.key));
        given.copied().or(line.earned)
    }

    /// The comment on a task; may be empty.
    pub fn comment(&self, sheet: &Sheet, task: &str) -> &str {
        let own = self.for_sheet(sheet);
        own.and_then(|own| own.comments.get(task)).map_or("", String::as_str)
    }

    /// What a hand-in earned in all.
    pub fn total(&self, sheet: &Sheet) -> Total {
        sheet.lines.iter().fold(Total::default(), |total, line| {
            let earned = self.earned(sheet, line);
            Total {
                earned: total.earned + earned.unwrap_or_default(),
                of: total.of + line.of,
                open: total.open + usize::from(earned.is_none()),
            }
        })
    }

    /// The document as text.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        envelope::write(KIND, self)
    }

    /// Opens the document.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        let mut marks: Self = envelope::open(KIND, text)?;
        for own in marks.hand_ins.values_mut() {
            own.earned.retain(|_, points| points.is_finite() && *points >= 0.0);
        }
        Ok(marks)
    }
}
