//! What a teacher sets: recordings, tasks, and what help is allowed.
//!
//! Two copies of it are the same assignment: the teacher's, and the one for students without right answers and
//! guides. Their fingerprint is the same, because it is that of the copy for students. The kind and the version
//! of the document are not in it, so that a copy that a later version wrote is still the same assignment.

use super::canonical;
use super::given::{Material, Written};
use super::task::Task;
use crate::report::{SavedError, Unknown, envelope};
use crate::words::Language;
use serde::{Deserialize, Serialize};

/// How the document names its kind.
const KIND: &str = "assignment";

/// What a teacher sets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assignment {
    /// What it is called.
    pub title: String,
    /// What the student reads first; may have several lines.
    pub instructions: String,
    /// Until when, shown as written; may be empty.
    pub due: String,
    /// The language of the page; `None` leaves it to the student.
    pub language: Option<Language>,
    /// What help is allowed.
    pub help: Help,
    /// The recordings.
    pub materials: Vec<Material>,
    /// The tasks, in order.
    pub tasks: Vec<Task>,
    unknown: Unknown,
}

/// What a student may use while placing points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Help {
    /// To be told how far off a checked mark is.
    #[serde(default = "allowed")]
    pub verdicts: bool,
    /// To be shown the worked answer.
    #[serde(default = "allowed")]
    pub worked_answers: bool,
    /// The questions of the lesson, with their explanations.
    #[serde(default = "allowed")]
    pub questions: bool,
    #[serde(flatten)]
    unknown: Unknown,
}

const fn allowed() -> bool {
    true
}

impl Default for Help {
    fn default() -> Self {
        Self { verdicts: true, worked_answers: true, questions: true, unknown: Unknown::new() }
    }
}

/// The document: what a person reads first, the recordings below it.
#[derive(Serialize, Deserialize)]
struct Document {
    title: String,
    #[serde(default)]
    instructions: String,
    #[serde(default)]
    due: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    language: Option<Language>,
    #[serde(default)]
    help: Help,
    tasks: Vec<Task>,
    materials: Vec<Written>,
    #[serde(flatten)]
    unknown: Unknown,
}

impl Assignment {
    /// The copy for students: without right values, right choices and guides.
    #[must_use]
    pub fn for_students(&self) -> Self {
        Self { tasks: self.tasks.iter().map(Task::for_students).collect(), ..self.clone() }
    }

    /// Whether anything in it is not for students.
    pub fn is_teachers_copy(&self) -> bool {
        *self != self.for_students()
    }

    /// What tells this assignment from any other: hexadecimal SHA-256 over the copy for students, with its
    /// recordings.
    pub fn fingerprint(&self) -> String {
        let value = serde_json::to_value(self.for_students().document());
        // Texts, lists and finite or absent numbers can always be written.
        canonical::fingerprint(&value.unwrap_or_default())
    }

    /// The recording with a key.
    pub fn material(&self, key: &str) -> Option<&Material> {
        self.materials.iter().find(|material| material.key == key)
    }

    /// The task with a key.
    pub fn task(&self, key: &str) -> Option<&Task> {
        self.tasks.iter().find(|task| task.key == key)
    }

    /// What all tasks together are worth.
    pub fn points(&self) -> f64 {
        self.tasks.iter().map(|task| task.points).sum()
    }

    /// The document as text.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        envelope::write(KIND, &self.document())
    }

    /// Opens the document, and checks every number in it. What a teacher still has to mend is told by
    /// [`Self::problems`]: a draft opens too.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged, or a recording does not fit its settings.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        let Document { title, instructions, due, language, help, tasks, materials, unknown } =
            envelope::open(KIND, text)?;
        let materials = materials.into_iter().map(Written::checked).collect::<Result<_, _>>()?;
        Ok(Self { title, instructions, due, language, help, materials, tasks, unknown })
    }

    fn document(&self) -> Document {
        let Self { title, instructions, due, language, help, materials, tasks, unknown } =
            self.clone();
        let materials = materials.iter().map(Material::written).collect();
        Document { title, instructions, due, language, help, tasks, materials, unknown }
    }
}
