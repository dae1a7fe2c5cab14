//! The small part: what the student did and chose.

use super::{SavedError, SavedRecording, Settings, Unknown, envelope};
use crate::lesson::Session;
use crate::signal::SampleSpan;
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
    /// The answers, in samples of the recording that [`Settings::prepare`] makes.
    #[serde(default)]
    pub session: Session,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
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

    /// Whether there is anything in it that would be missed: an answer, a setting or a remark. The code
    /// of the student alone is no work.
    pub fn is_worth_keeping(&self) -> bool {
        let answered = self.session.placements().any(|placement| placement.answer.is_some());
        answered || self.settings != Settings::default() || !self.remark.is_empty()
    }

    /// Works on another part of a recording of so many samples, or on all of it. Answers that lie in
    /// the new part stay where they are on the trace; the others are let go. An empty part changes
    /// nothing.
    pub fn use_part(&mut self, part: Option<SampleSpan>, samples: usize) {
        let whole = SampleSpan::new(0, samples);
        let part = part.unwrap_or(whole);
        let part = SampleSpan::new(part.start().get().min(samples), part.end().get().min(samples));
        if part.is_empty() {
            return;
        }
        let earlier = part.start().get() as isize - self.settings.first_sample() as isize;
        self.session = self.session.moved(earlier, part.len());
        self.settings.part = (part != whole).then_some(part);
    }

    /// Checks that every mark and every answer lies inside the recording.
    ///
    /// # Errors
    /// [`SavedError::Misplaced`] when a part or a mark by hand does not, [`SavedError::OtherRecording`]
    /// when an answer does not.
    pub fn fits(&self, recording: &SavedRecording) -> Result<(), SavedError> {
        let samples = self.settings.fits(recording.recording.samples.len())?;
        self.session.fits(samples).map_err(SavedError::OtherRecording)
    }
}
