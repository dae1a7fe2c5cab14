//! Why nothing could be read: what, where, and what to do about it.
//!
//! Each reader has an enum of its own for what only it can meet; this one holds them all.

use super::{ArchiveError, EdfError, LARGEST_FILE, TextError, WavError, WfdbError};
use crate::words::{Phrase, errors_as_said, phrase};

/// A place in a text file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column of the table, counted from 1, when it concerns one.
    pub column: Option<usize>,
}

impl Place {
    pub(super) fn said(self) -> Phrase {
        let line = self.line;
        match self.column {
            Some(column) => phrase!("faults.place.line_column", line, column),
            None => phrase!("faults.place.line", line),
        }
    }
}

/// Nothing could be read. [`OpenError::said`] is what is wrong and where; [`OpenError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum OpenError {
    /// The file has no bytes.
    Empty {
        /// The file.
        file: String,
    },
    /// The file is larger than [`LARGEST_FILE`].
    TooLarge {
        /// Its size.
        bytes: u64,
        /// The file.
        file: String,
    },
    /// The file is something else than a recording.
    NotARecording {
        /// What it is, with its article.
        kind: Phrase,
        /// The file.
        file: String,
    },
    /// The file is work of ours, which opens by itself only.
    SavedWork {
        /// The file.
        file: String,
    },
    /// Rows of numbers can't be read.
    Text(TextError),
    /// A WFDB record can't be read.
    Wfdb(WfdbError),
    /// An EDF or BDF file can't be read.
    Edf(EdfError),
    /// A WAV file can't be read.
    Wav(WavError),
    /// A packed file can't be read.
    Archive(ArchiveError),
}

impl OpenError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Empty { file } => phrase!("faults.file.empty", file),
            Self::TooLarge { bytes, file } => {
                let (megabytes, most) = (bytes >> 20, LARGEST_FILE >> 20);
                phrase!("faults.file.too_large", file, megabytes, most)
            }
            Self::NotARecording { kind, file } => {
                phrase!("faults.file.not_a_recording", file, kind)
            }
            Self::SavedWork { file } => phrase!("faults.file.saved_work", file),
            Self::Text(error) => error.said(),
            Self::Wfdb(error) => error.said(),
            Self::Edf(error) => error.said(),
            Self::Wav(error) => error.said(),
            Self::Archive(error) => error.said(),
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::Empty { .. } => phrase!("faults.remedy.file.record_again"),
            Self::TooLarge { .. } => phrase!("faults.remedy.file.cut"),
            Self::NotARecording { .. } => phrase!("faults.remedy.file.export_text"),
            Self::SavedWork { .. } => phrase!("faults.remedy.file.alone"),
            Self::Text(error) => error.remedy(),
            Self::Wfdb(error) => error.remedy(),
            Self::Edf(error) => error.remedy(),
            Self::Wav(error) => error.remedy(),
            Self::Archive(error) => error.remedy(),
        }
    }
}

errors_as_said!(OpenError);

impl From<TextError> for OpenError {
    fn from(error: TextError) -> Self {
        Self::Text(error)
    }
}

impl From<WfdbError> for OpenError {
    fn from(error: WfdbError) -> Self {
        Self::Wfdb(error)
    }
}

impl From<EdfError> for OpenError {
    fn from(error: EdfError) -> Self {
        Self::Edf(error)
    }
}

impl From<WavError> for OpenError {
    fn from(error: WavError) -> Self {
        Self::Wav(error)
    }
}

impl From<ArchiveError> for OpenError {
    fn from(error: ArchiveError) -> Self {
        Self::Archive(error)
    }
}
