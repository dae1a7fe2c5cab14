//! Why nothing could be read: what, where, and what to do about it.
//!
//! Each reader has an enum of its own for what only it can meet; this one holds them all.

use super::{ArchiveError, EdfError, LARGEST_FILE, TextError, WavError, WfdbError};
use std::fmt;
use thiserror::Error;

/// A place in a text file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column of the table, counted from 1, when it concerns one.
    pub column: Option<usize>,
}

impl fmt::Display for Place {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "line {}", self.line)?;
        self.column.map_or(Ok(()), |column| write!(formatter, ", column {column}"))
    }
}

/// Nothing could be read. `Display` says what is wrong and where; [`OpenError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum OpenError {
    /// The file has no bytes.
    #[error("{file} is empty")]
    Empty {
        /// The file.
        file: String,
    },
    /// The file is larger than [`LARGEST_FILE`].
    #[error("{file} has {} MB; at most {} MB can be read", bytes >> 20, LARGEST_FILE >> 20)]
    TooLarge {
        /// Its size.
        bytes: u64,
        /// The file.
        file: String,
    },
    /// The file is something else than a recording.
    #[error("{file} is {kind}, not a recording")]
    NotARecording {
        /// What it is, with its article.
        kind: &'static str,
        /// The file.
        file: String,
    },
    /// The file is work of ours, which opens by itself only.
    #[error("{file} is saved work, which opens only by itself")]
    SavedWork {
        /// The file.
        file: String,
    },
    /// Rows of numbers can't be read.
    #[error(transparent)]
    Text(#[from] TextError),
    /// A WFDB record can't be read.
    #[error(transparent)]
    Wfdb(#[from] WfdbError),
    /// An EDF or BDF file can't be read.
    #[error(transparent)]
    Edf(#[from] EdfError),
    /// A WAV file can't be read.
    #[error(transparent)]
    Wav(#[from] WavError),
    /// A packed file can't be read.
    #[error(transparent)]
    Archive(#[from] ArchiveError),
}

impl OpenError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty { .. } => {
                "Record again, or export the file again and drop it here.".to_owned()
            }
            Self::TooLarge { .. } => "Cut the recording into shorter parts and open one of them.".to_owned(),
            Self::NotARecording { .. } => {
                "Export the recording as text (CSV) from the program that made it, and drop that file here.".to_owned()
            }
            Self::SavedWork { .. } => "Drop that one file here, without others and unpacked.".to_owned(),
            Self::Text(error) => error.remedy(),
            Self::Wfdb(error) => error.remedy(),
            Self::Edf(error) => error.remedy(),
            Self::Wav(error) => error.remedy(),
            Self::Archive(error) => error.remedy(),
        }
    }
}
