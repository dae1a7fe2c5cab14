//! Why rows of numbers could not be read.

use super::super::Place;
use crate::signal::UnusableRate;
use crate::words::{Phrase, errors_as_said, phrase};

/// A text file that can't be read. `Display` says what is wrong; [`TextError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TextError {
    /// There is text, but no row of numbers.
    NoNumbers {
        /// The last line with text in it.
        line: usize,
        /// How it begins.
        says: String,
        /// The file.
        file: String,
    },
    /// The column has a name and no value at all.
    NoValues {
        /// Where the column begins.
        place: Place,
        /// The file.
        file: String,
    },
    /// Too little for a single heartbeat.
    TooFewRows {
        /// How many.
        rows: usize,
        /// Where they begin.
        line: usize,
        /// The file.
        file: String,
    },
    /// Commas between columns and before decimals.
    CommaForBoth {
        /// The first such line.
        line: usize,
        /// The file.
        file: String,
    },
    /// Commas between columns and between thousands.
    CommaInThousands {
        /// The first such line.
        line: usize,
        /// The file.
        file: String,
    },
    /// A point before the decimals of one column, a comma before those of another.
    BothMarks {
        /// The first such line.
        line: usize,
        /// The file.
        file: String,
    },
    /// JSON of a form that holds no table.
    JsonWithoutTable {
        /// The file.
        file: String,
    },
    /// A chosen column is not there.
    NoSuchColumn {
        /// The chosen column, counted from 1.
        column: usize,
        /// How many there are.
        columns: usize,
        /// The file.
        file: String,
    },
    /// The chosen rate is not possible.
    Rate(UnusableRate),
    /// Several files that do not belong together.
    SeveralFiles {
        /// How many.
        count: usize,
    },
}

impl TextError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::NoNumbers { line, says, file } => {
                phrase!("faults.text.no_numbers", line, says, file)
            }
            Self::NoValues { place: Place { line, column }, file } => {
                let column = column.unwrap_or(1);
                phrase!("faults.text.no_values", column, line, file)
            }
            Self::TooFewRows { rows, line, file } => {
                phrase!("faults.text.too_few_rows", rows, line, file)
            }
            Self::CommaForBoth { line, file } => phrase!("faults.text.comma_for_both", line, file),
            Self::CommaInThousands { line, file } => {
                phrase!("faults.text.comma_in_thousands", line, file)
            }
            Self::BothMarks { line, file } => phrase!("faults.text.both_marks", line, file),
            Self::JsonWithoutTable { file } => phrase!("faults.text.json_without_table", file),
            Self::NoSuchColumn { column, columns, file } => {
                phrase!("faults.text.no_such_column", column, columns, file)
            }
            Self::Rate(rate) => rate.said(),
            Self::SeveralFiles { count } => phrase!("faults.text.several_files", count),
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::NoNumbers { .. } => phrase!("faults.remedy.text.look_inside"),
            Self::NoValues { .. } => phrase!("faults.remedy.text.other_column"),
            Self::TooFewRows { .. } => phrase!("faults.remedy.text.longer"),
            Self::CommaForBoth { .. } => phrase!("faults.remedy.text.semicolons"),
            Self::CommaInThousands { .. } => phrase!("faults.remedy.text.no_thousands"),
            Self::BothMarks { .. } => phrase!("faults.remedy.text.one_mark"),
            Self::JsonWithoutTable { .. } => phrase!("faults.remedy.text.as_csv"),
            Self::NoSuchColumn { .. } => phrase!("faults.remedy.text.column_shown"),
            Self::Rate(_) => phrase!("faults.remedy.text.rate"),
            Self::SeveralFiles { .. } => phrase!("faults.remedy.text.one_by_one"),
        }
    }
}

impl From<UnusableRate> for TextError {
    fn from(rate: UnusableRate) -> Self {
        Self::Rate(rate)
    }
}

errors_as_said!(TextError);
