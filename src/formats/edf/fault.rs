//! What can be wrong with an EDF or BDF file: too wrong to read, or repaired.

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

/// What was guessed or repaired in an EDF or BDF file.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum EdfNote {
    /// The recorder never closed the file.
    #[error(
        "the recorder never closed the file; the number of records was counted from its size: {records}"
    )]
    RecordsCounted {
        /// How many whole records there are.
        records: usize,
    },
    /// The file ends too early.
    #[error(
        "the file ends too early: it promises {stated} records and holds {whole} whole ones, which are kept; what is left of the next one was left out ({bytes} bytes)"
    )]
    Truncated {
        /// How many records there should be.
        stated: u64,
        /// How many whole ones there are.
        whole: usize,
        /// How many bytes of a broken record follow.
        bytes: usize,
    },
    /// The file goes on after its last record.
    #[error(
        "the file goes on after the {stated} records that it promises; left out: {bytes} bytes"
    )]
    LeftOver {
        /// How many records there should be.
        stated: u64,
        /// How many bytes follow.
        bytes: usize,
    },
    /// A signal can't be used.
    #[error("left out: {0}")]
    SignalRefused(SignalFault),
    /// The unit was another one of voltage.
    #[error("turned into mV: {}", .signals.join(", "))]
    Converted {
        /// The signals and their units in the file.
        signals: Vec<String>,
    },
    /// The unit is not one of voltage.
    #[error(
        "signal \"{signal}\" is in \"{unit}\", which is not a voltage; its numbers are kept as they are"
    )]
    NoVoltage {
        /// The signal.
        signal: String,
        /// Its unit; may be empty.
        unit: String,
    },
    /// The recording was interrupted.
    #[error("the recording was interrupted; breaks: {breaks}, together {seconds} s")]
    Interrupted {
        /// How many breaks.
        breaks: usize,
        /// How long they are together, to the millisecond.
        seconds: f64,
    },
    /// Breaks so long, or time that runs back, that the parts are traces of their own.
    #[error(
        "the recording is in {parts} parts with long breaks between them; each is a trace of its own"
    )]
    Parts {
        /// How many parts.
        parts: usize,
    },
    /// More parts than are taken.
    #[error("the recording is in too many parts; left out after the {taken}th: {records} records")]
    PartsLeftOut {
        /// How many were taken.
        taken: usize,
        /// How many records were left out.
        records: usize,
    },
    /// Some annotations make no sense.
    #[error("annotations that can't be read were left out: {count}")]
    AnnotationsDamaged {
        /// How many.
        count: usize,
    },
    /// More than one file was dropped.
    #[error("only {opened} was opened; drop {} by itself to open it", .others.join(", "))]
    OtherFiles {
        /// The file that was read.
        opened: String,
        /// The others.
        others: Vec<String>,
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
}
