//! What can be so wrong with a record that it can't be read.

use crate::formats::Place;
use crate::words::{Phrase, errors_as_said, phrase};

/// Why a record can't be read.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum WfdbError {
    /// The header can't be understood.
    Header {
        /// The header.
        header: String,
        /// Where in it.
        place: Place,
        /// What is wrong there.
        fault: WfdbFault,
    },
    /// None of the signal files that the header names was dropped with it.
    SignalFileMissing {
        /// The header.
        header: String,
        /// The files it names.
        missing: Vec<String>,
    },
    /// A signal or annotation file came without its header.
    HeaderMissing {
        /// The file that came alone.
        file: String,
        /// The header's name, as far as one can tell.
        header: String,
    },
    /// The signal files are there, but not one whole sample of each signal is.
    NoSamples {
        /// The signal file.
        file: String,
    },
    /// The header describes signals without values.
    OnlyDescribed {
        /// The header.
        header: String,
    },
    /// The record is made of several, and none of them can be read.
    NoSegments {
        /// The header.
        header: String,
        /// Why not, for each part.
        reasons: Vec<Phrase>,
    },
    /// A signal has more samples a second than any sensor.
    RateTooHigh {
        /// The header.
        header: String,
        /// The signal's line.
        place: Place,
        /// Samples a second.
        hz: f64,
    },
}

/// What is wrong with a line of a header.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum WfdbFault {
    /// There is nothing but empty lines and remarks.
    NoRecordLine,
    /// The first line is not a record line.
    RecordLine {
        /// What stands there.
        found: String,
    },
    /// The record has no signals.
    NoSignals,
    /// A segment line lacks its record or its length.
    SegmentLine {
        /// What stands there.
        found: String,
    },
    /// There are fewer segment lines than the record line promises.
    SegmentLineCount {
        /// How many are promised.
        stated: usize,
        /// How many there are.
        found: usize,
    },
    /// The sampling rate is not a number that one can work with.
    Rate {
        /// What stands there.
        found: String,
    },
    /// There are fewer or more signal lines than the record line promises.
    SignalLineCount {
        /// How many are promised.
        stated: usize,
        /// How many there are.
        found: usize,
    },
    /// A signal line lacks its file or format, or has a word where a number belongs.
    SignalLine {
        /// What stands there.
        found: String,
    },
    /// The storage format can't be read.
    StorageFormat {
        /// What stands there.
        found: String,
    },
    /// Two signals in one file are said to be packed differently.
    MixedFormats {
        /// The signal file.
        file: String,
    },
    /// The gain can't be understood.
    Gain {
        /// What stands there.
        found: String,
    },
}

impl WfdbError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Header { header, place: Place { line, .. }, fault } => {
                let fault = fault.said();
                phrase!("faults.wfdb.header", line, header, fault)
            }
            Self::SignalFileMissing { header, missing } => {
                let missing = Phrase::names(missing);
                phrase!("faults.wfdb.signal_file_missing", header, missing)
            }
            Self::HeaderMissing { file, header } => {
                phrase!("faults.wfdb.header_missing", file, header)
            }
            Self::NoSamples { file } => phrase!("faults.wfdb.no_samples", file),
            Self::OnlyDescribed { header } => phrase!("faults.wfdb.only_described", header),
            Self::NoSegments { header, reasons } => {
                let reasons = Phrase::sentences(reasons);
                phrase!("faults.wfdb.no_segments", header, reasons)
            }
            Self::RateTooHigh { header, place: Place { line, .. }, hz } => {
                let hz = Phrase::exact(*hz);
                phrase!("faults.wfdb.rate_too_high", line, header, hz)
            }
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::Header { .. } | Self::RateTooHigh { .. } => {
                phrase!("faults.remedy.wfdb.fetch_again")
            }
            Self::SignalFileMissing { header, missing } => {
                let files = Phrase::names(missing);
                phrase!("faults.remedy.wfdb.together", files, header)
            }
            Self::OnlyDescribed { .. } | Self::NoSegments { .. } => {
                phrase!("faults.remedy.wfdb.all_files")
            }
            Self::HeaderMissing { file, header } => {
                phrase!("faults.remedy.wfdb.with_header", header, file)
            }
            Self::NoSamples { file } => phrase!("faults.remedy.wfdb.larger", file),
        }
    }
}

impl WfdbFault {
    fn said(&self) -> Phrase {
        match self {
            Self::NoRecordLine => phrase!("faults.wfdb.line.no_record_line"),
            Self::RecordLine { found } => phrase!("faults.wfdb.line.record_line", found),
            Self::NoSignals => phrase!("faults.wfdb.line.no_signals"),
            Self::SegmentLine { found } => phrase!("faults.wfdb.line.segment_line", found),
            Self::SegmentLineCount { stated, found } => {
                phrase!("faults.wfdb.line.segment_line_count", stated, found)
            }
            Self::Rate { found } => phrase!("faults.wfdb.line.rate", found),
            Self::SignalLineCount { stated, found } => {
                phrase!("faults.wfdb.line.signal_line_count", stated, found)
            }
            Self::SignalLine { found } => phrase!("faults.wfdb.line.signal_line", found),
            Self::StorageFormat { found } => phrase!("faults.wfdb.line.storage_format", found),
            Self::MixedFormats { file } => phrase!("faults.wfdb.line.mixed_formats", file),
            Self::Gain { found } => phrase!("faults.wfdb.line.gain", found),
        }
    }
}

errors_as_said!(WfdbError, WfdbFault);
