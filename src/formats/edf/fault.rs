//! What can be so wrong with an EDF or BDF file, or a signal of it, that it can't be read.

use thiserror::Error;

/// Why an EDF or BDF file can't be read.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum EdfError {
    /// The header makes no sense.
    #[error("the header of {file} can't be read: {fault}")]
    Header {
        /// The file.
        file: String,
        /// What is wrong.
        fault: EdfFault,
    },
    /// There is not one whole record.
    #[error("{file} ends before its first record is complete")]
    NoRecords {
        /// The file.
        file: String,
    },
    /// There are annotations, or nothing.
    #[error("{file} holds no signal, only annotations")]
    OnlyAnnotations {
        /// The file.
        file: String,
    },
    /// None of the signals can be used.
    #[error("{file} holds no signal that can be used: {}", .reasons.join("; "))]
    NoSignals {
        /// The file.
        file: String,
        /// Why not, for each signal.
        reasons: Vec<String>,
    },
}

impl EdfError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Header { .. } | Self::NoRecords { .. } => {
                "Export the recording again as EDF or as CSV, and drop it here.".to_owned()
            }
            Self::OnlyAnnotations { .. } => {
                "Drop the file with the signals: some recorders write notes into a file of their own."
                    .to_owned()
            }
            Self::NoSignals { .. } => {
                "Export the ECG signal with its range and unit, or as CSV.".to_owned()
            }
        }
    }
}

/// What is wrong with a header.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum EdfFault {
    /// It does not begin as EDF or BDF do.
    #[error("it does not begin as an EDF or BDF file does")]
    OtherKind,
    /// It is shorter than it says.
    #[error("it should be {expected} bytes long, but the file has {found}")]
    Short {
        /// How long it should be.
        expected: usize,
        /// How long the whole file is.
        found: usize,
    },
    /// A field of the file as a whole is not a number that makes sense.
    #[error("the {field} is given as \"{found}\" at byte {offset}")]
    Field {
        /// Which field.
        field: &'static str,
        /// What stands there.
        found: String,
        /// Where, counted from 0.
        offset: usize,
    },
}

/// Why a signal can't be used.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum SignalFault {
    /// Nothing says how high a step is.
    #[error("signal \"{signal}\" has no scale: {digital} steps stand for {physical} {unit}")]
    NoScale {
        /// The signal.
        signal: String,
        /// The lowest and highest step, as they stand in the file.
        digital: String,
        /// The lowest and highest value, as they stand in the file.
        physical: String,
        /// The unit.
        unit: String,
    },
    /// Nothing says how fast its samples follow each other.
    #[error("signal \"{signal}\" has no possible sampling rate: {samples} samples in {seconds} s")]
    NoRate {
        /// The signal.
        signal: String,
        /// Samples to a record.
        samples: usize,
        /// The duration of a record.
        seconds: f64,
    },
    /// It has no samples.
    #[error("signal \"{signal}\" has no samples")]
    Empty {
        /// The signal.
        signal: String,
    },
}
