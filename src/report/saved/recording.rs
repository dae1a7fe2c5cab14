//! The large part: the recording itself. Samples are base64 of 32-bit floats, low byte first.

use super::{SavedError, Unknown, envelope};
use crate::signal::{Hole, Mark, Recording, SampleIndex, SampleRate, VoltageUnit};
use crate::words::{Phrase, phrase};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};

/// A recording and the file it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedRecording {
    /// The name of the file, without folders.
    pub file: String,
    /// The recording, as opened.
    pub recording: Recording,
    /// What was guessed or repaired while it was opened, a sentence each.
    pub notes: Vec<Phrase>,
    /// What a later version wrote and this one does not know.
    unknown: Unknown,
}

/// The recording as it stands in a document.
#[derive(Serialize, Deserialize)]
pub(crate) struct Written {
    file: String,
    name: String,
    rate_hz: SampleRate,
    unit: VoltageUnit,
    holes: Vec<Hole>,
    marks: Vec<Mark>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    notes: Vec<Phrase>,
    sample_count: usize,
    samples_base64_f32_le: String,
    #[serde(flatten)]
    unknown: Unknown,
}

impl SavedRecording {
    /// A recording from a file.
    pub fn new(file: impl Into<String>, recording: Recording) -> Self {
        Self { file: file.into(), recording, notes: Vec::new(), unknown: Unknown::new() }
    }

    /// The same, with what was guessed or repaired while it was opened.
    #[must_use]
    pub fn with_notes(self, notes: Vec<Phrase>) -> Self {
        Self { notes, ..self }
    }

    /// The part as text.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        envelope::write("recording", &self.written())
    }

    /// Opens the part, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        envelope::open::<Written>("recording", text)?.checked()
    }

    pub(crate) fn written(&self) -> Written {
        let Recording { name, rate, unit, samples, holes, marks } = &self.recording;
        let bytes: Vec<u8> = samples.iter().flat_map(|sample| sample.to_le_bytes()).collect();
        Written {
            file: self.file.clone(),
            name: name.clone(),
            rate_hz: *rate,
            unit: *unit,
            holes: holes.clone(),
            marks: marks.clone(),
            notes: self.notes.clone(),
            sample_count: samples.len(),
            samples_base64_f32_le: STANDARD.encode(bytes),
            unknown: self.unknown.clone(),
        }
    }
}

impl Written {
    /// The recording, once it keeps what [`Recording`] promises.
    pub(crate) fn checked(self) -> Result<SavedRecording, SavedError> {
        let samples = decoded(&self.samples_base64_f32_le, self.sample_count)?;
        if let Some(sample) = samples.iter().position(|sample| !sample.is_finite()) {
            return Err(SavedError::NotANumber { sample });
        }
        let misplaced = |what, sample: SampleIndex| SavedError::Misplaced {
            what,
            sample: sample.get(),
            samples: samples.len(),
        };
        let mut free = 0;
        for hole in &self.holes {
            let (start, end) = (hole.span.start().get(), hole.span.end().get());
            if start < free || end <= start || end > samples.len() {
                return Err(misplaced(phrase!("faults.saved.what.hole"), hole.span.start()));
            }
            // Holes that touch would be one hole.
            free = end + 1;
        }
        let in_order = self.marks.is_sorted_by_key(|mark| mark.at);
        let outside = self.marks.iter().find(|mark| mark.at.get() >= samples.len());
        if let Some(mark) = outside.or(self.marks.first().filter(|_| !in_order)) {
            return Err(misplaced(phrase!("faults.saved.what.mark"), mark.at));
        }
        Ok(SavedRecording {
            file: self.file,
            notes: self.notes,
            recording: Recording {
                name: self.name,
                rate: self.rate_hz,
                unit: self.unit,
                samples: samples.into(),
                holes: self.holes,
                marks: self.marks,
            },
            unknown: self.unknown,
        })
    }
}

fn decoded(text: &str, stated: usize) -> Result<Vec<f32>, SavedError> {
    let bytes = STANDARD
        .decode(text)
        .map_err(|error| SavedError::Undecodable { why: error.to_string() })?;
    let (whole, rest) = bytes.as_chunks::<4>();
    if whole.len() != stated || !rest.is_empty() {
        return Err(SavedError::SampleCount { found: whole.len(), stated });
    }
    Ok(whole.iter().map(|bytes| f32::from_le_bytes(*bytes)).collect())
}
