//! What was guessed or repaired in an EDF or BDF file.

use super::SignalFault;
use thiserror::Error;

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
    /// The header gives itself another length than it has.
    #[error(
        "the header should be {expected} bytes long, but says {stated}; taken as {taken}, which fits the file"
    )]
    HeaderLength {
        /// What the number of signals makes it.
        expected: usize,
        /// What it says.
        stated: usize,
        /// Where the samples were taken to begin.
        taken: usize,
    },
    /// The records of a file without breaks say that there are some.
    #[error(
        "the times of the records have breaks or overlap, but the file says that it was not interrupted; read without breaks"
    )]
    TimesDiffer,
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
        /// Its unit.
        unit: String,
    },
    /// There is no unit.
    #[error("signal \"{signal}\" has no unit; its numbers are kept as they are")]
    NoUnit {
        /// The signal.
        signal: String,
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
