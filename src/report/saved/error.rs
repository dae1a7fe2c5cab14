//! Why a saved document can't be opened: what is wrong, and what to do about it.

use super::VERSION;
use crate::lesson::MisplacedAnswer;
use thiserror::Error;

/// A saved document can't be opened, or written. `Display` says what is wrong, [`Self::remedy`] what to do.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SavedError {
    /// It is not JSON, or not with the fields of ours.
    #[error("this is not a complete Beatwalk document (line {line}, column {column}: {expected})")]
    Damaged {
        /// The line, counted from 1.
        line: usize,
        /// The column, counted from 1.
        column: usize,
        /// What was wrong there.
        expected: String,
    },
    /// It is JSON, but something else.
    #[error("this is a JSON file, but not a Beatwalk {wanted}")]
    SomethingElse {
        /// The kind of document that was wanted.
        wanted: &'static str,
    },
    /// A later version of the app wrote it.
    #[error(
        "version {found} of the document is newer than version {VERSION}, which this app knows"
    )]
    Newer {
        /// The version it says it has.
        found: u64,
    },
    /// The samples can't be decoded, or are not as many as the document says.
    #[error("the samples in the document are damaged: {found} can be read, {stated} are stated")]
    Samples {
        /// How many can be read.
        found: usize,
        /// How many the document states.
        stated: usize,
    },
    /// A sample is not a number.
    #[error("sample {sample} of the document is not a number")]
    NotANumber {
        /// Which one, counted from 0.
        sample: usize,
    },
    /// A stretch without data or a mark does not fit the samples.
    #[error("the {what} at sample {sample} does not fit the recording of {samples} samples")]
    Misplaced {
        /// What does not fit.
        what: &'static str,
        /// Where it is.
        sample: usize,
        /// How many samples there are.
        samples: usize,
    },
    /// An answer of the student lies outside the recording.
    #[error("the work does not belong to this recording: {0}")]
    OtherRecording(MisplacedAnswer),
}

impl SavedError {
    /// What the student can do now, as one sentence.
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::SomethingElse { .. } => {
                "Choose a file that was saved with Beatwalk; its name ends in .beatwalk.json."
            }
            Self::Newer { .. } => "Reload the page to get the newest Beatwalk, then open it again.",
            Self::OtherRecording(_) => "Open the recording that this work was done on.",
            Self::Damaged { .. }
            | Self::Samples { .. }
            | Self::NotANumber { .. }
            | Self::Misplaced { .. } => {
                "Open another copy of the file, or start again from the recording itself."
            }
        }
    }
}
