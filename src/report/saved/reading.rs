//! The whole document: the work on top, the recording below it.

use super::recording::Written;
use super::{SavedError, SavedRecording, SavedWork, Unknown, envelope};
use serde::{Deserialize, Serialize};

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

/// The document, the part that a person reads first.
#[derive(Serialize, Deserialize)]
struct Document {
    work: SavedWork,
    recording: Written,
    #[serde(flatten)]
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
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        let document = Document {
            work: self.work.clone(),
            recording: self.recording.written(),
            unknown: self.unknown.clone(),
        };
        envelope::write("reading", &document)
    }

    /// Opens the document, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged, or when the parts don't belong together.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        let Document { work, recording, unknown } = envelope::open("reading", text)?;
        let recording = recording.checked()?;
        work.fits(&recording)?;
        Ok(Self { work, recording, unknown })
    }
}
