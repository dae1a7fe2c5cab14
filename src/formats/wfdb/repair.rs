//! What was guessed or repaired in a record.

use crate::words::{Phrase, phrase, shown_as_said};

/// What was guessed or repaired in a record.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum WfdbNote {
    /// The header gives no sampling rate.
    RateAssumed,
    /// The header gives no gain.
    GainAssumed {
        /// The signal.
        signal: String,
        /// Its unit.
        unit: String,
    },
    /// The unit was another one of voltage.
    Converted {
        /// The signal.
        signal: String,
        /// The header's unit.
        unit: String,
    },
    /// The unit is not one of voltage.
    NoVoltage {
        /// The signal.
        signal: String,
        /// Its unit.
        unit: String,
    },
    /// A signal file ends too early.
    Truncated {
        /// The signal file.
        file: String,
        /// How many samples are missing.
        missing: u64,
        /// How many there should be.
        stated: u64,
    },
    /// A signal file goes on after the last sample that the header speaks of.
    LeftOver {
        /// The signal file.
        file: String,
        /// How many samples were left out.
        left: usize,
    },
    /// Some signal files are missing: their signals are left out.
    SignalFileMissing {
        /// The missing file.
        file: String,
        /// The signals in it.
        signals: Vec<String>,
    },
    /// The first value is not the one the header gives.
    FirstValueDiffers {
        /// The signal.
        signal: String,
        /// What the header says.
        stated: i32,
        /// What the file holds.
        found: i32,
    },
    /// The sum of all values is not the one the header gives.
    ChecksumDiffers {
        /// The signal.
        signal: String,
    },
    /// Values were missing for so short a time that a straight line stands for them.
    Bridged {
        /// The signal.
        signal: String,
        /// How many values.
        samples: usize,
    },
    /// Values are missing for longer.
    Holes {
        /// The signal.
        signal: String,
        /// How many stretches.
        holes: usize,
        /// How many samples they hold.
        samples: usize,
    },
    /// The signal was recorded later than the others, and moved back.
    Skewed {
        /// The signal.
        signal: String,
        /// By how many frames.
        frames: usize,
    },
    /// Signals are described without values.
    OnlyDescribed {
        /// The signals.
        signals: Vec<String>,
    },
    /// Parts of the record are missing: a hole stands for each.
    SegmentsMissing {
        /// The headers or signal files that are missing.
        files: Vec<String>,
    },
    /// Parts of the record can't be read: a hole stands for each.
    SegmentsLeftOut {
        /// Which parts, and why.
        reasons: Vec<Phrase>,
    },
    /// Breaks so long that the stretches between them are traces of their own.
    Stretches {
        /// How many stretches.
        stretches: usize,
    },
    /// Signals that are there for a small part of the time only.
    Seldom {
        /// The signals.
        signals: Vec<String>,
    },
    /// A file beside the record is not one of annotations.
    MarksUnread {
        /// The file.
        file: String,
    },
    /// An annotation file has no end.
    MarksCut {
        /// The file.
        file: String,
    },
    /// Annotations lie after the end of the signal.
    MarksBeyond {
        /// The file.
        file: String,
        /// How many.
        beyond: usize,
    },
    /// More than one record was dropped.
    OtherRecords {
        /// The header of the record that was read.
        opened: String,
        /// The other headers.
        others: Vec<String>,
    },
}

impl WfdbNote {
    /// What was guessed or repaired.
    pub fn said(&self) -> Phrase {
        match self {
            Self::RateAssumed => phrase!("repairs.wfdb.rate_assumed"),
            Self::GainAssumed { signal, unit } => {
                phrase!("repairs.wfdb.gain_assumed", signal, unit)
            }
            Self::Converted { signal, unit } => phrase!("repairs.wfdb.converted", signal, unit),
            Self::NoVoltage { signal, unit } => phrase!("repairs.wfdb.no_voltage", signal, unit),
            Self::Truncated { file, missing, stated } => {
                phrase!("repairs.wfdb.truncated", file, missing, stated)
            }
            Self::LeftOver { file, left } => phrase!("repairs.wfdb.left_over", file, left),
            Self::SignalFileMissing { file, signals } => {
                let signals = Phrase::names(signals);
                phrase!("repairs.wfdb.signal_file_missing", file, signals)
            }
            Self::FirstValueDiffers { signal, stated, found } => {
                phrase!("repairs.wfdb.first_value_differs", signal, stated, found)
            }
            Self::ChecksumDiffers { signal } => phrase!("repairs.wfdb.checksum_differs", signal),
            Self::Bridged { signal, samples } => phrase!("repairs.wfdb.bridged", signal, samples),
            Self::Holes { signal, holes, samples } => {
                phrase!("repairs.wfdb.holes", signal, holes, samples)
            }
            Self::Skewed { signal, frames } => phrase!("repairs.wfdb.skewed", signal, frames),
            Self::OnlyDescribed { signals } => {
                let signals = Phrase::names(signals);
                phrase!("repairs.wfdb.only_described", signals)
            }
            Self::SegmentsMissing { files } => {
                let files = Phrase::names(files);
                phrase!("repairs.wfdb.segments_missing", files)
            }
            Self::SegmentsLeftOut { reasons } => {
                let reasons = Phrase::sentences(reasons);
                phrase!("repairs.wfdb.segments_left_out", reasons)
            }
            Self::Stretches { stretches } => phrase!("repairs.wfdb.stretches", stretches),
            Self::Seldom { signals } => {
                let signals = Phrase::names(signals);
                phrase!("repairs.wfdb.seldom", signals)
            }
            Self::MarksUnread { file } => phrase!("repairs.wfdb.marks_unread", file),
            Self::MarksCut { file } => phrase!("repairs.wfdb.marks_cut", file),
            Self::MarksBeyond { file, beyond } => {
                phrase!("repairs.wfdb.marks_beyond", file, beyond)
            }
            Self::OtherRecords { opened, others } => {
                let others = Phrase::names(others);
                phrase!("repairs.other_files", opened, others)
            }
        }
    }
}

shown_as_said!(WfdbNote);
