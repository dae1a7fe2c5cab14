//! Why nothing could be read: what, where, and what to do about it.

use super::WfdbError;
use thiserror::Error;

/// A place in a text file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column of the table, counted from 1, when it concerns one.
    pub column: Option<usize>,
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
    /// A WFDB record can't be read.
    #[error(transparent)]
    Wfdb(#[from] WfdbError),
}

impl OpenError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty { .. } => {
                "Record again, or export the file again and drop it here.".to_owned()
            }
            Self::Wfdb(error) => error.remedy(),
        }
    }
}
