//! What the text reader guessed or repaired, in words.

use super::super::{Delimiter, TimeUnit, ValueUnit};
use super::line_list::LineList;
use super::note_words::{separated_by, time_unit_name, unit_name};
use std::fmt::{self, Display, Formatter};

/// Why a column of numbers was not taken for a trace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// The same value everywhere.
    Constant,
    /// Two values only: a switch.
    Switch,
    /// A number that counts up.
    Counter,
    /// Words that are the same on all rows, or others on nearly every one.
    Words,
}

/// What the text reader guessed or repaired.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TextNote {
    /// A byte order mark was taken off.
    MarkStripped,
    /// The text is not UTF-8.
    Encoding(String),
    /// Something other than a comma separates the columns.
    DelimiterGuessed(Delimiter),
    /// The decimals follow a comma.
    DecimalComma,
    /// Marks between thousands were read as such.
    ThousandsParted,
    /// Lines above the table.
    PreambleSkipped(LineList),
    /// Lines that begin as remarks.
    CommentsSkipped(LineList),
    /// Lines below the table.
    FooterSkipped(LineList),
    /// Lines of text among the rows.
    TextSkipped(LineList),
    /// Columns at the right that are empty throughout.
    EmptyColumns(usize),
    /// More columns than are read.
    ColumnsLimited(usize),
    /// Rows with fewer or more cells than the others.
    RaggedRows(LineList),
    /// The last line ends before its row does.
    LastLineCut,
    /// Cells that hold neither a number nor a sign for a missing value.
    UnreadableCells(LineList),
    /// Each row holds so many samples of one signal.
    BlocksUnrolled(usize),
    /// So many columns read like one signal, but their names say otherwise.
    ColumnsLikeBlocks(usize),
    /// So many columns without names of their own are separate signals.
    ColumnsAreSignals(usize),
    /// Which column is the time was found from its numbers.
    TimeColumnGuessed(String),
    /// Several columns could be the voltage.
    ValueColumnGuessed(String),
    /// A column of numbers is not taken for a trace.
    ColumnLeftOut(String, LeftOut),
    /// A column holds marks.
    MarksFrom {
        /// The column.
        column: String,
        /// How many.
        marks: usize,
    },
    /// Microvolts or volts became millivolts.
    UnitConverted(ValueUnit),
    /// The unit stands outside the table's head.
    UnitFromText(ValueUnit),
    /// The unit is not said.
    UnitUnknown,
    /// Converter steps without a scale.
    Uncalibrated,
    /// Values no electrode gives.
    ValuesUnlikely(f64),
    /// The unit of the time was found from its steps.
    TimeUnitGuessed(TimeUnit),
    /// The time is a time of day.
    ClockTime,
    /// The time of day passed midnight, or a counter its largest number.
    ClockWrapped,
    /// The time does not begin at 0; seconds.
    StartsLater(f64),
    /// Many rows share a stamp; Hz.
    StampsShared(f64),
    /// The stamps waver about an even grid; milliseconds at most.
    Jitter(f64),
    /// The rate stands outside the time column; Hz.
    RateFromText(f64),
    /// The rate is not said.
    RateUnknown,
    /// The file states another rate than its time column shows; Hz.
    RateConflict {
        /// What the text says.
        stated: f64,
        /// What the time column shows.
        found: f64,
    },
    /// No ECG is sampled like this; Hz.
    RateUnlikely(f64),
    /// One row, or very few, missing here and there: bridged in a straight line.
    RowsBridged(LineList),
    /// Rows are missing.
    Gap {
        /// How many.
        rows: usize,
        /// How long that is.
        seconds: f64,
    },
    /// More gaps than are listed one by one.
    MoreGaps {
        /// How many more.
        gaps: usize,
        /// How many samples they hold together.
        samples: usize,
    },
    /// The time goes back and starts again.
    TimeRestarts,
    /// A pause so long that the recording was split.
    LongPause(f64),
    /// A line of text says that a run begins.
    RunSaid,
    /// The recording was split into so many runs.
    Runs(usize),
    /// So many time columns, each with a run of its own.
    OwnTimes(usize),
    /// The columns after this time hold no run that can be used.
    PartLeftOut(String),
    /// The runs are called what these lines say.
    RunsNamed(LineList),
    /// Rows in runs too short to use.
    ShortRunsLeftOut(usize),
    /// Single stamps out of order, replaced.
    BackwardStamps(LineList),
    /// Stamps that are missing, filled in.
    MissingStamps(LineList),
    /// The same row twice.
    RepeatedRows(LineList),
    /// The time column is no time.
    StampsUnusable,
    /// Missing values bridged in a straight line.
    MissingBridged(usize),
    /// A longer stretch without values.
    MissingStretch {
        /// How many samples.
        samples: usize,
        /// How long that is.
        seconds: f64,
    },
}

impl Display for TextNote {
    #[allow(clippy::too_many_lines, reason = "one arm for each sentence")]
    fn fmt(&self, out: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::MarkStripped => out.write_str("an invisible byte order mark at the start was taken off"),
            Self::Encoding(name) => write!(out, "the text is not UTF-8; it was read as {name}"),
            Self::DelimiterGuessed(delimiter) => {
                write!(out, "the columns are taken to be separated by {}", separated_by(*delimiter))
            }
            Self::DecimalComma => out.write_str("a comma is taken to stand before the decimals"),
            Self::ThousandsParted => out.write_str("marks between thousands were read as such"),
            Self::PreambleSkipped(lines) => write!(out, "text above the table is not data: {lines}"),
            Self::CommentsSkipped(lines) => write!(out, "remarks are not data: {lines}"),
            Self::FooterSkipped(lines) => write!(out, "text below the table is not data: {lines}"),
            Self::TextSkipped(lines) => write!(out, "text among the rows was skipped: {lines}"),
            Self::EmptyColumns(1) => out.write_str("an empty column at the right was dropped"),
            Self::EmptyColumns(count) => write!(out, "{count} empty columns at the right were dropped"),
            Self::ColumnsLimited(read) => write!(out, "only the first {read} columns of numbers were read"),
            Self::RaggedRows(lines) => {
                write!(out, "rows with fewer or more cells than the others: {lines}")
            }
            Self::LastLineCut => out.write_str("the last line is cut off and was left out"),
            Self::UnreadableCells(lines) => {
                write!(out, "cells that are not numbers count as missing: {lines}")
            }
            Self::BlocksUnrolled(width) => write!(
                out,
                "each row holds {width} samples of one signal, one after the other; choose another column if they are separate signals"
            ),
            Self::ColumnsLikeBlocks(width) => write!(
                out,
                "{width} columns are taken for separate signals by their names, though their numbers run on from row to row like one signal"
            ),
            Self::ColumnsAreSignals(width) => {
                write!(out, "{width} columns are taken for separate signals, not for samples of one")
            }
            Self::TimeColumnGuessed(name) => write!(out, "\"{name}\" is taken to be the time, because it rises evenly"),
            Self::ValueColumnGuessed(name) => {
                write!(out, "\"{name}\" is taken to be the wanted signal; the others can be chosen too")
            }
            Self::ColumnLeftOut(name, why) => {
                let why = match why {
                    LeftOut::Constant => "has the same value everywhere",
                    LeftOut::Switch => "has only two values",
                    LeftOut::Counter => "only counts up",
                    LeftOut::Words => "holds words, but no marks,",
                };
                write!(out, "\"{name}\" {why} and is not offered as a signal")
            }
            Self::MarksFrom { column, marks: 1 } => write!(out, "\"{column}\" holds a note, which stands on the trace"),
            Self::MarksFrom { column, marks } => {
                write!(out, "\"{column}\" holds {marks} notes, which stand on the trace")
            }
            Self::UnitConverted(unit) => write!(out, "values in {} were turned into mV", unit_name(*unit)),
            Self::UnitFromText(unit) => {
                write!(out, "the unit, {}, is stated outside the table's head", unit_name(*unit))
            }
            Self::UnitUnknown => out.write_str("the file does not say the unit of the signal: heights can be compared, not measured"),
            Self::Uncalibrated => out.write_str("the signal is in converter counts: heights can be compared, not measured"),
            Self::ValuesUnlikely(largest) => {
                write!(out, "values up to {largest:.3e} mV are no skin voltage: check the unit and the column")
            }
            Self::TimeUnitGuessed(unit) => {
                write!(out, "the file does not say the unit of the time; {} are assumed, because of the steps", time_unit_name(*unit))
            }
            Self::ClockTime => out.write_str("the time is a time of day; it is counted from the first row"),
            Self::ClockWrapped => out.write_str("the clock started anew (at midnight, or a counter was full); time goes on"),
            Self::StartsLater(seconds) => {
                write!(out, "the time begins at {seconds} s; it is counted from the first row")
            }
            Self::StampsShared(hz) => write!(
                out,
                "many rows share a time; they were spread evenly, and counting rows gives {hz:.2} Hz"
            ),
            Self::Jitter(milliseconds) => write!(
                out,
                "the times waver by up to {milliseconds:.2} ms about an even step; the samples were spread evenly"
            ),
            Self::RateFromText(hz) => write!(out, "the sampling rate, {hz} Hz, is stated in the text"),
            Self::RateUnknown => out.write_str("the file does not say the sampling rate"),
            Self::RateConflict { stated, found } => write!(
                out,
                "the file states {stated} Hz, but its time column shows {found:.2} Hz ({:+.2} %); the time column was used",
                (found / stated - 1.0) * 100.0
            ),
            Self::RateUnlikely(hz) => {
                write!(out, "{hz:.4} samples a second is unlikely for an ECG: check the unit of the time")
            }
            Self::RowsBridged(lines) => {
                write!(out, "single rows are missing and were bridged in a straight line, before {lines}")
            }
            Self::Gap { rows, seconds } => {
                write!(out, "{rows} rows are missing here ({seconds:.3} s); the gap is kept as a gap")
            }
            Self::MoreGaps { gaps, samples } => {
                write!(out, "{gaps} more gaps, together {samples} samples, are kept as gaps")
            }
            Self::TimeRestarts => out.write_str("the time starts again here: a new run begins"),
            Self::LongPause(seconds) => write!(out, "a pause of {seconds:.0} s: a new run begins here"),
            Self::RunSaid => out.write_str("this line says that a new run begins"),
            Self::OwnTimes(count) => {
                write!(out, "{count} time columns stand side by side: each belongs to the columns right of it")
            }
            Self::PartLeftOut(time) => {
                write!(out, "the columns after \"{time}\" hold too little to use and were left out")
            }
            Self::RunsNamed(lines) => write!(out, "the runs are named after the text: {lines}"),
            Self::Runs(count) => write!(out, "the file holds {count} separate runs"),
            Self::ShortRunsLeftOut(rows) => write!(out, "{rows} rows in runs too short to use were left out"),
            Self::BackwardStamps(lines) => {
                write!(out, "times out of order were replaced from their neighbours: {lines}")
            }
            Self::MissingStamps(lines) => write!(out, "missing times were filled in: {lines}"),
            Self::RepeatedRows(lines) => write!(out, "rows that repeat the one before were dropped: {lines}"),
            Self::StampsUnusable => out.write_str("the time column does not run forward and was not used"),
            Self::MissingBridged(1) => out.write_str("one missing value was bridged in a straight line"),
            Self::MissingBridged(count) => write!(out, "{count} missing values were bridged in a straight line"),
            Self::MissingStretch { samples, seconds } => {
                write!(out, "{samples} values in a row are missing ({seconds:.3} s); the stretch is kept as a gap")
            }
        }
    }
}
