//! What can be so wrong with a record that it can't be read.

use crate::formats::Place;
use crate::formats::note::listed;
use thiserror::Error;

/// Why a record can't be read.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WfdbError {
    /// The header can't be understood.
    #[error("line {} of the header {header} can't be read: {fault}", .place.line)]
    Header {
        /// The header.
        header: String,
        /// Where in it.
        place: Place,
        /// What is wrong there.
        fault: WfdbFault,
    },
    /// None of the signal files that the header names was dropped with it.
    #[error("the header {header} holds no samples: they are in {}", listed(.missing, ", "))]
    SignalFileMissing {
        /// The header.
        header: String,
        /// The files it names.
        missing: Vec<String>,
    },
    /// A signal or annotation file came without its header.
    #[error("{file} can't be read without its header {header}")]
    HeaderMissing {
        /// The file that came alone.
        file: String,
        /// The header's name, as far as one can tell.
        header: String,
    },
    /// The signal files are there, but not one whole sample of each signal is.
    #[error("{file} ends before the first sample")]
    NoSamples {
        /// The signal file.
        file: String,
    },
    /// The header describes signals without values.
    #[error("the header {header} only describes its signals: nothing was recorded")]
    OnlyDescribed {
        /// The header.
        header: String,
    },
    /// The record is made of several, and none of them can be read.
    #[error("none of the parts that {header} lists can be read: {}", listed(.reasons, "; "))]
    NoSegments {
        /// The header.
        header: String,
        /// Why not, for each part.
        reasons: Vec<String>,
    },
    /// A signal has more samples a second than any sensor.
    #[error("line {} of the header {header} gives its signal {hz} samples a second", .place.line)]
    RateTooHigh {
        /// The header.
        header: String,
        /// The signal's line.
        place: Place,
        /// Samples a second.
        hz: f64,
    },
}

impl WfdbError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Header { .. } | Self::RateTooHigh { .. } => {
                "Fetch or export the record again, and drop all of its files together.".to_owned()
            }
            Self::SignalFileMissing { header, missing } => {
                format!("Drop {} together with {header}.", listed(missing, ", "))
            }
            Self::OnlyDescribed { .. } | Self::NoSegments { .. } => {
                "Drop all files of the record together: every header and every signal file."
                    .to_owned()
            }
            Self::HeaderMissing { file, header } => format!("Drop {header} together with {file}."),
            Self::NoSamples { file } => {
                format!("Fetch or export {file} again: it should be larger than its header.")
            }
        }
    }
}

/// What is wrong with a line of a header.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum WfdbFault {
    /// There is nothing but empty lines and remarks.
    #[error("it should begin with the record's name and the number of signals, but is empty")]
    NoRecordLine,
    /// The first line is not a record line.
    #[error("it should begin with the record's name and the number of signals, not \"{found}\"")]
    RecordLine {
        /// What stands there.
        found: String,
    },
    /// The record has no signals.
    #[error("it says that the record has no signals")]
    NoSignals,
    /// A segment line lacks its record or its length.
    #[error("\"{found}\" is not the name of a part and its number of samples")]
    SegmentLine {
        /// What stands there.
        found: String,
    },
    /// There are fewer segment lines than the record line promises.
    #[error("it promises {stated} parts, but {found} are listed below it")]
    SegmentLineCount {
        /// How many are promised.
        stated: usize,
        /// How many there are.
        found: usize,
    },
    /// The sampling rate is not a number that one can work with.
    #[error("a sampling rate of \"{found}\" samples a second is not possible")]
    Rate {
        /// What stands there.
        found: String,
    },
    /// There are fewer or more signal lines than the record line promises.
    #[error("it promises {stated} signals, but {found} are described below it")]
    SignalLineCount {
        /// How many are promised.
        stated: usize,
        /// How many there are.
        found: usize,
    },
    /// A signal line lacks its file or format, or has a word where a number belongs.
    #[error("\"{found}\" is not what belongs on a signal's line")]
    SignalLine {
        /// What stands there.
        found: String,
    },
    /// The storage format can't be read.
    #[error(
        "storage format \"{found}\" can't be read; 8, 16, 24, 32, 61, 80, 160, 212, 310 and 311 can"
    )]
    StorageFormat {
        /// What stands there.
        found: String,
    },
    /// Two signals in one file are said to be packed differently.
    #[error("the signals in {file} have different storage formats, which one file can't have")]
    MixedFormats {
        /// The signal file.
        file: String,
    },
    /// The gain can't be understood.
    #[error("\"{found}\" is not a gain")]
    Gain {
        /// What stands there.
        found: String,
    },
}
