//! What was guessed or repaired in an EDF or BDF file.

use super::SignalFault;
use crate::words::{Phrase, phrase, shown_as_said};

/// What was guessed or repaired in an EDF or BDF file.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum EdfNote {
    /// The recorder never closed the file.
    RecordsCounted {
        /// How many whole records there are.
        records: usize,
    },
    /// The file ends too early.
    Truncated {
        /// How many records there should be.
        stated: u64,
        /// How many whole ones there are.
        whole: usize,
        /// How many bytes of a broken record follow.
        bytes: usize,
    },
    /// The file goes on after its last record.
    LeftOver {
        /// How many records there should be.
        stated: u64,
        /// How many bytes follow.
        bytes: usize,
    },
    /// The header gives itself another length than it has.
    HeaderLength {
        /// What the number of signals makes it.
        expected: usize,
        /// What it says.
        stated: usize,
        /// Where the samples were taken to begin.
        taken: usize,
    },
    /// The records of a file without breaks say that there are some.
    TimesDiffer,
    /// A signal can't be used.
    SignalRefused(SignalFault),
    /// The unit was another one of voltage.
    Converted {
        /// The signals and their units in the file.
        signals: Vec<String>,
    },
    /// The unit is not one of voltage.
    NoVoltage {
        /// The signal.
        signal: String,
        /// Its unit.
        unit: String,
    },
    /// There is no unit.
    NoUnit {
        /// The signal.
        signal: String,
    },
    /// The recording was interrupted.
    Interrupted {
        /// How many breaks.
        breaks: usize,
        /// How long they are together, to the millisecond.
        seconds: f64,
    },
    /// Breaks so long, or time that runs back, that the parts are traces of their own.
    Parts {
        /// How many parts.
        parts: usize,
    },
    /// More parts than are taken.
    PartsLeftOut {
        /// How many were taken.
        taken: usize,
        /// How many records were left out.
        records: usize,
    },
    /// Some annotations make no sense.
    AnnotationsDamaged {
        /// How many.
        count: usize,
    },
    /// More than one file was dropped.
    OtherFiles {
        /// The file that was read.
        opened: String,
        /// The others.
        others: Vec<String>,
    },
}

impl EdfNote {
    /// What was guessed or repaired.
    pub fn said(&self) -> Phrase {
        match self {
            Self::RecordsCounted { records } => phrase!("repairs.edf.records_counted", records),
            Self::Truncated { stated, whole, bytes } => {
                phrase!("repairs.edf.truncated", stated, whole, bytes)
            }
            Self::LeftOver { stated, bytes } => phrase!("repairs.edf.left_over", stated, bytes),
            Self::HeaderLength { expected, stated, taken } => {
                phrase!("repairs.edf.header_length", expected, stated, taken)
            }
            Self::TimesDiffer => phrase!("repairs.edf.times_differ"),
            Self::SignalRefused(fault) => {
                let fault = fault.said();
                phrase!("repairs.edf.signal_refused", fault)
            }
            Self::Converted { signals } => {
                let signals = Phrase::names(signals);
                phrase!("repairs.edf.converted", signals)
            }
            Self::NoVoltage { signal, unit } => phrase!("repairs.edf.no_voltage", signal, unit),
            Self::NoUnit { signal } => phrase!("repairs.edf.no_unit", signal),
            Self::Interrupted { breaks, seconds } => {
                let seconds = Phrase::exact(*seconds);
                phrase!("repairs.edf.interrupted", breaks, seconds)
            }
            Self::Parts { parts } => phrase!("repairs.edf.parts", parts),
            Self::PartsLeftOut { taken, records } => {
                phrase!("repairs.edf.parts_left_out", taken, records)
            }
            Self::AnnotationsDamaged { count } => phrase!("repairs.edf.annotations_damaged", count),
            Self::OtherFiles { opened, others } => {
                let others = Phrase::names(others);
                phrase!("repairs.other_files", opened, others)
            }
        }
    }
}

shown_as_said!(EdfNote);
