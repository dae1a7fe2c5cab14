//! The recordings of an assignment: those that the teacher gives, and those that students bring.

use crate::report::{SavedError, SavedRecording, SavedWork, Settings, Unknown, WrittenRecording};
use serde::{Deserialize, Serialize};

/// One recording that tasks are about.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// What tasks call it: unique, and the same for ever.
    pub key: String,
    /// What the student reads.
    pub label: String,
    /// The recording; `None` where each student brings one.
    pub given: Option<Given>,
    unknown: Unknown,
}

/// A recording that the teacher gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The recording.
    pub recording: SavedRecording,
    /// How the teacher takes it: part, scale, direction, corrected beats.
    pub settings: Settings,
    unknown: Unknown,
}

impl Material {
    /// A recording that each student brings.
    pub fn own(key: impl Into<String>, label: impl Into<String>) -> Self {
        Self { key: key.into(), label: label.into(), given: None, unknown: Unknown::new() }
    }

    /// A recording that the teacher gives.
    pub fn given(
        key: impl Into<String>,
        label: impl Into<String>,
        recording: SavedRecording,
        settings: Settings,
    ) -> Self {
        let given = Given { recording, settings, unknown: Unknown::new() };
        Self { given: Some(given), ..Self::own(key, label) }
    }

    /// The work that a student begins with: nothing done yet, the trace taken as the teacher takes it.
    pub fn untouched(&self) -> SavedWork {
        let mut work = SavedWork::default();
        if let Some(given) = &self.given {
            work.settings = given.settings.clone();
        }
        work
    }
}

/// A recording of an assignment as it stands in a document.
#[derive(Serialize, Deserialize)]
pub(super) struct Written {
    key: String,
    label: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    given: Option<WrittenGiven>,
    #[serde(flatten)]
    unknown: Unknown,
}

#[derive(Serialize, Deserialize)]
struct WrittenGiven {
    #[serde(default)]
    settings: Settings,
    recording: WrittenRecording,
    #[serde(flatten)]
    unknown: Unknown,
}

impl Material {
    pub(super) fn written(&self) -> Written {
        let given = self.given.as_ref().map(|given| WrittenGiven {
            settings: given.settings.clone(),
            recording: given.recording.written(),
            unknown: given.unknown.clone(),
        });
        let Self { key, label, unknown, .. } = self;
        Written { key: key.clone(), label: label.clone(), given, unknown: unknown.clone() }
    }
}

impl Written {
    /// The recording, once all its numbers fit.
    pub(super) fn checked(self) -> Result<Material, SavedError> {
        let Self { key, label, given, unknown } = self;
        let given = given.map(WrittenGiven::checked).transpose()?;
        Ok(Material { key, label, given, unknown })
    }
}

impl WrittenGiven {
    fn checked(self) -> Result<Given, SavedError> {
        let recording = self.recording.checked()?;
        self.settings.fits(recording.recording.samples.len())?;
        Ok(Given { recording, settings: self.settings, unknown: self.unknown })
    }
}
