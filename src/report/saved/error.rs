//! Why a saved document can't be opened: what is wrong, and what to do about it.

use super::VERSION;
use crate::lesson::MisplacedAnswer;
use crate::words::{Phrase, errors_as_said, phrase};

/// A saved document can't be opened, or written. [`Self::said`] is what is wrong, [`Self::remedy`] what to do.
#[derive(Clone, Debug, PartialEq)]
pub enum SavedError {
    /// The document can't be written.
    Unwritable {
        /// What the JSON writer says.
        why: String,
    },
    /// It is not JSON, or not with the fields of ours.
    Damaged {
        /// What the JSON reader says, with line and column.
        why: String,
    },
    /// It is JSON, but something else.
    SomethingElse {
        /// The kind of document that was wanted.
        wanted: Phrase,
    },
    /// A later version of the app wrote it.
    Newer {
        /// The version it says it has.
        found: u64,
    },
    /// The samples can't be decoded.
    Undecodable {
        /// What the base64 reader says.
        why: String,
    },
    /// There are not as many samples as the document says.
    SampleCount {
        /// How many can be read.
        found: usize,
        /// How many the document states.
        stated: usize,
    },
    /// A sample is not a number.
    NotANumber {
        /// Which one, counted from 0.
        sample: usize,
    },
    /// A stretch without data or a mark does not fit the samples.
    Misplaced {
        /// What does not fit.
        what: Phrase,
        /// Where it is.
        sample: usize,
        /// How many samples there are.
        samples: usize,
    },
    /// An answer of the student lies outside the recording.
    OtherRecording(MisplacedAnswer),
}

impl SavedError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Unwritable { why } => phrase!("faults.saved.unwritable", why),
            Self::Damaged { why } => phrase!("faults.saved.damaged", why),
            Self::SomethingElse { wanted } => phrase!("faults.saved.something_else", wanted),
            Self::Newer { found } => {
                let known = VERSION;
                phrase!("faults.saved.newer", found, known)
            }
            Self::Undecodable { why } => phrase!("faults.saved.undecodable", why),
            Self::SampleCount { found, stated } => {
                phrase!("faults.saved.sample_count", stated, found)
            }
            Self::NotANumber { sample } => phrase!("faults.saved.not_a_number", sample),
            Self::Misplaced { what, sample, samples } => {
                phrase!("faults.saved.misplaced", what, sample, samples)
            }
            Self::OtherRecording(MisplacedAnswer { sample, samples }) => {
                phrase!("faults.saved.other_recording", sample, samples)
            }
        }
    }

    /// What the student can do now, as one sentence.
    pub const fn remedy(&self) -> Phrase {
        match self {
            Self::Unwritable { .. } => phrase!("faults.remedy.saved.reload_save"),
            Self::SomethingElse { .. } => phrase!("faults.remedy.saved.ours"),
            Self::Newer { .. } => phrase!("faults.remedy.saved.reload_open"),
            Self::OtherRecording(_) => phrase!("faults.remedy.saved.its_recording"),
            Self::Damaged { .. }
            | Self::Undecodable { .. }
            | Self::SampleCount { .. }
            | Self::NotANumber { .. }
            | Self::Misplaced { .. } => phrase!("faults.remedy.saved.other_copy"),
        }
    }
}

errors_as_said!(SavedError);
