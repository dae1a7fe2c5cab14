//! What can be wrong with a record: too wrong to read ([`WfdbError`]), or repaired ([`WfdbNote`]).

use crate::formats::Place;
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
    #[error("the header {header} holds no samples: they are in {}", .missing.join(", "))]
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
            Self::Header { fault: WfdbFault::Segments, .. } => {
                "Drop the header of one part with its signal file instead.".to_owned()
            }
            Self::Header { .. } | Self::RateTooHigh { .. } => {
                "Fetch or export the record again, and drop all of its files together.".to_owned()
            }
            Self::SignalFileMissing { header, missing } => {
                format!("Drop {} together with {header}.", missing.join(", "))
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
    /// The record is made of several shorter ones.
    #[error("the record is put together from several others, which can't be read as one")]
    Segments,
    /// The sampling rate is not a number that one can work with.
    #[error("a sampling rate of \"{found}\" samples a second is not possible")]
    Rate {
        /// What stands there.
        found: String,
    },
    /// There are fewer signal lines than the record line promises.
    #[error("it promises {stated} signals, but {found} are described below it")]
    SignalLinesMissing {
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

/// What was guessed or repaired in a record.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WfdbNote {
    /// The header gives no sampling rate.
    #[error("the header gives no sampling rate; taken as 250 samples a second, as the format says")]
    RateAssumed,
    /// The header gives no gain.
    #[error(
        "signal \"{signal}\" is uncalibrated: the header gives no gain; taken as 200 steps to one mV"
    )]
    GainAssumed {
        /// The signal.
        signal: String,
    },
    /// The unit was another one of voltage.
    #[error("signal \"{signal}\" was in {unit} and is now in mV")]
    Converted {
        /// The signal.
        signal: String,
        /// The header's unit.
        unit: String,
    },
    /// The unit is not one of voltage.
    #[error(
        "signal \"{signal}\" is in {unit}, which is not a voltage; its numbers are kept as they are"
    )]
    NoVoltage {
        /// The signal.
        signal: String,
        /// Its unit.
        unit: String,
    },
    /// A signal file ends too early.
    #[error("{file} ends too early; samples missing in each signal: {missing} of {stated}")]
    Truncated {
        /// The signal file.
        file: String,
        /// How many samples are missing.
        missing: u64,
        /// How many there should be.
        stated: u64,
    },
    /// A signal file goes on after the last sample that the header speaks of.
    #[error(
        "{file} goes on after the end that the header gives; samples of each signal left out: {left}"
    )]
    LeftOver {
        /// The signal file.
        file: String,
        /// How many samples were left out.
        left: usize,
    },
    /// Some signal files are missing: their signals are left out.
    #[error("left out, because {} was not dropped: {}", .file, .signals.join(", "))]
    SignalFileMissing {
        /// The missing file.
        file: String,
        /// The signals in it.
        signals: Vec<String>,
    },
    /// The first value is not the one the header gives.
    #[error(
        "signal \"{signal}\" begins with {found}, but the header says {stated}; the file may have been changed"
    )]
    FirstValueDiffers {
        /// The signal.
        signal: String,
        /// What the header says.
        stated: i32,
        /// What the file holds.
        found: i32,
    },
    /// The sum of all values is not the one the header gives.
    #[error(
        "signal \"{signal}\" does not add up to the header's checksum; the file may have been changed"
    )]
    ChecksumDiffers {
        /// The signal.
        signal: String,
    },
    /// Values were missing for so short a time that a straight line stands for them.
    #[error("signal \"{signal}\" lacks single values; bridged by straight lines: {samples}")]
    Bridged {
        /// The signal.
        signal: String,
        /// How many values.
        samples: usize,
    },
    /// Values are missing for longer.
    #[error(
        "signal \"{signal}\" has stretches without values: {holes}, together {samples} samples long"
    )]
    Holes {
        /// The signal.
        signal: String,
        /// How many stretches.
        holes: usize,
        /// How many samples they hold.
        samples: usize,
    },
    /// The signal was recorded later than the others, and moved back.
    #[error(
        "signal \"{signal}\" was behind the others and was moved to match; samples left out: {frames}"
    )]
    Skewed {
        /// The signal.
        signal: String,
        /// By how many frames.
        frames: usize,
    },
    /// A file beside the record is not one of annotations.
    #[error("{file} was left unread: it is not an annotation file of this record")]
    MarksUnread {
        /// The file.
        file: String,
    },
    /// An annotation file has no end.
    #[error("{file} ends too early: some annotations may be missing")]
    MarksCut {
        /// The file.
        file: String,
    },
    /// Annotations lie after the end of the signal.
    #[error("annotations in {file} after the end of the signals, left out: {beyond}")]
    MarksBeyond {
        /// The file.
        file: String,
        /// How many.
        beyond: usize,
    },
    /// More than one record was dropped.
    #[error("only {opened} was opened; drop {} by itself to open it", .others.join(", "))]
    OtherRecords {
        /// The header of the record that was read.
        opened: String,
        /// The other headers.
        others: Vec<String>,
    },
}
