//! The small part: what the student did and chose.

use super::{SavedError, SavedRecording, Unknown, envelope};
use crate::lesson::Session;
use crate::signal::Recording;
use serde::{Deserialize, Serialize};

/// A student's work on a recording, without the recording.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SavedWork {
    /// A code or first name, as the teacher asks for; may be empty.
    #[serde(default)]
    pub student: String,
    /// What the student wrote about the reading; may be empty.
    #[serde(default)]
    pub remark: String,
    /// How the trace is taken.
    #[serde(default)]
    pub settings: Settings,
    /// The answers.
    #[serde(default)]
    pub session: Session,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
}

/// What has to be known besides the samples to measure again.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// Which way up the trace is read.
    #[serde(default)]
    pub orientation: Orientation,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
}

/// Which way up a trace is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Orientation {
    /// As the file has it.
    #[default]
    AsRecorded,
    /// Turned over: the student decided that the arm electrodes were swapped.
    TurnedOver,
}

impl Orientation {
    /// The trace as it is read; the recording that is kept stays as it was.
    #[must_use]
    pub fn of(self, recording: &Recording) -> Recording {
        match self {
            Self::AsRecorded => recording.clone(),
            Self::TurnedOver => Recording {
                samples: recording.samples.iter().map(|sample| -sample).collect(),
                ..recording.clone()
            },
        }
    }
}

impl SavedWork {
    /// The part as text.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        envelope::write("work", self)
    }

    /// Opens the part.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        envelope::open("work", text)
    }

    /// Checks that every mark lies inside the recording.
    ///
    /// # Errors
    /// [`SavedError::OtherRecording`] when one does not.
    pub fn fits(&self, recording: &SavedRecording) -> Result<(), SavedError> {
        self.session.fits(recording.recording.samples.len()).map_err(SavedError::OtherRecording)
    }
}
