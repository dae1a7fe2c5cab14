//! Why rows of numbers could not be read.

use super::super::Place;
use thiserror::Error;

/// A text file that can't be read. `Display` says what is wrong; [`TextError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum TextError {
    /// There is text, but no row of numbers.
    #[error("no row of numbers was found; line {line} says \"{says}\": {file}")]
    NoNumbers {
        /// The last line with text in it.
        line: usize,
        /// How it begins.
        says: String,
        /// The file.
        file: String,
    },
    /// The column has a name and no value at all.
    #[error("column {} has no value from line {} on: {file}", place.column.unwrap_or(1), place.line)]
    NoValues {
        /// Where the column begins.
        place: Place,
        /// The file.
        file: String,
    },
    /// Too little for a single heartbeat.
    #[error("there are only {rows} rows of numbers, from line {line} on: {file}")]
    TooFewRows {
        /// How many.
        rows: usize,
        /// Where they begin.
        line: usize,
        /// The file.
        file: String,
    },
    /// Commas between columns and before decimals.
    #[error("line {line} uses the comma between columns and before decimals: {file}")]
    CommaForBoth {
        /// The first such line.
        line: usize,
        /// The file.
        file: String,
    },
    /// A chosen column is not there.
    #[error("there is no column {column} of numbers; the table has {columns} columns: {file}")]
    NoSuchColumn {
        /// The chosen column, counted from 1.
        column: usize,
        /// How many there are.
        columns: usize,
        /// The file.
        file: String,
    },
    /// The chosen rate is not possible.
    #[error(transparent)]
    Rate(#[from] crate::signal::UnusableRate),
    /// Several files that do not belong together.
    #[error("{count} files were dropped at once, and they do not belong together")]
    SeveralFiles {
        /// How many.
        count: usize,
    },
}

impl TextError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::NoNumbers { .. } => {
                "Open the file in a text editor: it must hold rows of numbers, such as a time and a voltage; export it again with its data."
            }
            Self::NoValues { .. } => "Choose another column, or check the electrode cable and record again.",
            Self::TooFewRows { .. } => "Record for at least 10 seconds and export the whole recording.",
            Self::CommaForBoth { .. } => {
                "Export again with semicolons or tabs between the columns, or with a decimal point."
            }
            Self::NoSuchColumn { .. } => "Choose one of the columns shown in the preview.",
            Self::Rate(_) => "Look up the sampling rate in the sensor's manual and type it again.",
            Self::SeveralFiles { .. } => "Drop one file after the other.",
        }
        .to_owned()
    }
}
