//! Why a saved document can't be opened: what is wrong, and what to do about it.

use super::VERSION;
use crate::lesson::MisplacedAnswer;
use thiserror::Error;

/// A saved document can't be opened, or written. `Display` says what is wrong, [`Self::remedy`] what to do.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SavedError {
    /// The document can't be written.
    #[error("the work can't be written: {why}")]
    Unwritable {
        /// What the JSON writer says.
        why: String,
    },
    /// It is not JSON, or not with the fields of ours.
    #[error("the document is damaged: {why}")]
    Damaged {
        /// What the JSON reader says, with line and column.
        why: String,
    },
    /// It is JSON, but something else.
    #[error("this is a JSON file, but not a {wanted} saved by Beatwalk")]
    SomethingElse {
        /// The kind of document that was wanted.
        wanted: &'static str,
    },
    /// A later version of the app wrote it.
    #[error("a newer Beatwalk saved this: its version is {found}, this one knows {VERSION}")]
    Newer {
        /// The version it says it has.
        found: u64,
    },
    /// The samples can't be decoded.
    #[error("the samples in the document are damaged: {why}")]
    Undecodable {
        /// What the base64 reader says.
        why: String,
    },
    /// There are not as many samples as the document says.
    #[error("the document says it has {stated} samples, but {found} are there")]
    SampleCount {
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
            Self::Unwritable { .. } => "Reload the page and save again.",
            Self::SomethingElse { .. } => {
                "Choose a file that was saved with Beatwalk; its name ends in .beatwalk.json."
            }
            Self::Newer { .. } => "Reload the page to get the newest Beatwalk, then open it again.",
            Self::OtherRecording(_) => "Open the recording that this work was done on.",
            Self::Damaged { .. }
            | Self::Undecodable { .. }
            | Self::SampleCount { .. }
            | Self::NotANumber { .. }
            | Self::Misplaced { .. } => {
                "Open another copy of the file, or start again from the recording itself."
            }
        }
    }
}
