//! The large part: the recording itself. Samples are base64 of 32-bit floats, low byte first.

use super::{SavedError, Unknown, envelope};
use crate::signal::{Hole, Mark, Recording, SampleIndex, SampleRate, VoltageUnit};
use crate::words::{Phrase, phrase};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};

/// How the samples begin in a document.
const SAMPLES: &str = "\"samples_base64_f32_le\": \"";
/// How it says that they are kept elsewhere.
const NO_SAMPLES: &str = "\"samples_base64_f32_le\": \"\"";

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

    /// The part as text without its samples, for where these are kept beside it as numbers: writing an hour of
    /// them as text takes half a second.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json_without_samples(&self) -> Result<String, SavedError> {
        envelope::write("recording", &self.written_with(String::new()))
    }

    /// Opens the part, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        envelope::open::<Written>("recording", text)?.checked()
    }

    /// Opens a part that was written without its samples, and checks every number in it.
    ///
    /// # Errors
    /// As [`Self::from_json`].
    pub fn from_json_and_samples(text: &str, samples: Vec<f32>) -> Result<Self, SavedError> {
        envelope::open::<Written>("recording", text)?.checked_with(samples)
    }

    /// A part that was written without its samples, with them in it again, whatever else it holds.
    pub fn filled_in(text: &str, samples: &[f32]) -> String {
        text.replacen(NO_SAMPLES, &format!("{SAMPLES}{}\"", encoded(samples)), 1)
    }

    pub(crate) fn written(&self) -> Written {
        self.written_with(encoded(&self.recording.samples))
    }

    fn written_with(&self, samples_base64_f32_le: String) -> Written {
        let Recording { name, rate, unit, samples, holes, marks } = &self.recording;
        Written {
            file: self.file.clone(),
            name: name.clone(),
            rate_hz: *rate,
            unit: *unit,
            holes: holes.clone(),
            marks: marks.clone(),
            notes: self.notes.clone(),
            sample_count: samples.len(),
            samples_base64_f32_le,
            unknown: self.unknown.clone(),
        }
    }
}

impl Written {
    /// The recording, once it keeps what [`Recording`] promises.
    pub(crate) fn checked(self) -> Result<SavedRecording, SavedError> {
        let samples = decoded(&self.samples_base64_f32_le, self.sample_count)?;
        self.checked_with(samples)
    }

    fn checked_with(self, samples: Vec<f32>) -> Result<SavedRecording, SavedError> {
        if samples.len() != self.sample_count {
            let (found, stated) = (samples.len(), self.sample_count);
            return Err(SavedError::SampleCount { found, stated });
        }
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

fn encoded(samples: &[f32]) -> String {
    let bytes: Vec<u8> = samples.iter().flat_map(|sample| sample.to_le_bytes()).collect();
    STANDARD.encode(bytes)
}

fn decoded(text: &str, stated: usize) -> Result<Vec<f32>, SavedError> {
    let bytes = STANDARD
        .decode(text)
        .map_err(|error| SavedError::Undecodable { why: error.to_string() })?;
    let (whole, rest) = bytes.as_chunks::<4>();
    if !rest.is_empty() {
        return Err(SavedError::SampleCount { found: whole.len(), stated });
    }
    Ok(whole.iter().map(|bytes| f32::from_le_bytes(*bytes)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_kept_apart_come_back() {
        let samples = vec![0.0, -0.25, 1.5, f32::MIN_POSITIVE];
        let recording = Recording {
            name: "lead I".to_owned(),
            rate: SampleRate::new(250.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: samples.clone().into(),
            holes: Vec::new(),
            marks: Vec::new(),
        };
        // A name that looks like the field itself is only text.
        let saved = SavedRecording::new(NO_SAMPLES, recording);
        let apart = saved.to_json_without_samples().unwrap();
        assert_eq!(SavedRecording::filled_in(&apart, &samples), saved.to_json().unwrap());
        let opened = SavedRecording::from_json_and_samples(&apart, samples.clone()).unwrap();
        assert_eq!(opened, saved);
        let missing = SavedRecording::from_json_and_samples(&apart, samples[1..].to_vec());
        assert!(matches!(missing, Err(SavedError::SampleCount { found: 3, stated: 4 })));
    }
}
