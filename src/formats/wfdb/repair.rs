//! What was guessed or repaired in a record.

use crate::formats::note::listed;
use thiserror::Error;

/// What was guessed or repaired in a record.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WfdbNote {
    /// The header gives no sampling rate.
    #[error("the header gives no sampling rate; taken as 250 samples a second, as the format says")]
    RateAssumed,
    /// The header gives no gain.
    #[error(
        "signal \"{signal}\" is uncalibrated: the header gives no gain; taken as 200 steps to one {unit}"
    )]
    GainAssumed {
        /// The signal.
        signal: String,
        /// Its unit.
        unit: String,
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
    /// Signals are described without values.
    #[error("left out, because nothing was recorded of them: {}", listed(.signals, ", "))]
    OnlyDescribed {
        /// The signals.
        signals: Vec<String>,
    },
    /// Parts of the record are missing: a hole stands for each.
    #[error(
        "a hole stands for each part of the record that was not dropped; missing: {}",
        listed(.files, ", ")
    )]
    SegmentsMissing {
        /// The headers or signal files that are missing.
        files: Vec<String>,
    },
    /// Parts of the record can't be read: a hole stands for each.
    #[error(
        "a hole stands for each part of the record that can't be read: {}",
        listed(.reasons, "; ")
    )]
    SegmentsLeftOut {
        /// Which parts, and why.
        reasons: Vec<String>,
    },
    /// Breaks so long that the stretches between them are traces of their own.
    #[error(
        "the record is in {stretches} stretches with long breaks between them; each is a trace of its own"
    )]
    Stretches {
        /// How many stretches.
        stretches: usize,
    },
    /// Signals that are there for a small part of the time only.
    #[error(
        "left out, because they were recorded for less than an eighth of the time: {}; to open one, drop its part alone",
        listed(.signals, ", ")
    )]
    Seldom {
        /// The signals.
        signals: Vec<String>,
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
