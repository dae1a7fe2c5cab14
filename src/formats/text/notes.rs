//! What the text reader guessed or repaired, in words.

use super::super::{Delimiter, TimeUnit, ValueUnit};
use super::line_list::LineList;
use super::note_words::{LeftOut, left_out_because, separated_by, time_unit_name, unit_name};
use crate::words::{Phrase, phrase, shown_as_said};

/// What the text reader guessed or repaired.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TextNote {
    /// A byte order mark was taken off.
    MarkStripped,
    /// The text is not UTF-8.
    Encoding(String),
    /// The file is JSON.
    JsonSetOut,
    /// The names of the columns stand beside each value.
    NamesBesideValues,
    /// Something other than a comma separates the columns.
    DelimiterGuessed(Delimiter),
    /// Commas between two columns of whole numbers may as well stand before decimals.
    CommaSeparates,
    /// The decimals follow a comma.
    DecimalComma,
    /// Marks between thousands were read as such.
    ThousandsParted,
    /// Brackets around numbers were read as a minus.
    BracketsForMinus,
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
    /// The first row stands alone, so many seconds before the second.
    FirstRowApart(f64),
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

impl TextNote {
    /// What was guessed or repaired.
    #[allow(clippy::too_many_lines, reason = "one arm for each sentence")]
    pub fn said(&self) -> Phrase {
        match self {
            Self::MarkStripped => phrase!("repairs.text.mark_stripped"),
            Self::Encoding(encoding) => phrase!("repairs.text.encoding", encoding),
            Self::JsonSetOut => phrase!("repairs.text.json_set_out"),
            Self::NamesBesideValues => phrase!("repairs.text.names_beside_values"),
            Self::DelimiterGuessed(delimiter) => {
                let by = separated_by(*delimiter);
                phrase!("repairs.text.delimiter_guessed", by)
            }
            Self::CommaSeparates => phrase!("repairs.text.comma_separates"),
            Self::DecimalComma => phrase!("repairs.text.decimal_comma"),
            Self::ThousandsParted => phrase!("repairs.text.thousands_parted"),
            Self::BracketsForMinus => phrase!("repairs.text.brackets_for_minus"),
            Self::PreambleSkipped(lines) => phrase!("repairs.text.preamble_skipped", lines),
            Self::CommentsSkipped(lines) => phrase!("repairs.text.comments_skipped", lines),
            Self::FooterSkipped(lines) => phrase!("repairs.text.footer_skipped", lines),
            Self::TextSkipped(lines) => phrase!("repairs.text.text_skipped", lines),
            Self::EmptyColumns(1) => phrase!("repairs.text.empty_column"),
            Self::EmptyColumns(count) => phrase!("repairs.text.empty_columns", count),
            Self::ColumnsLimited(read) => phrase!("repairs.text.columns_limited", read),
            Self::RaggedRows(lines) => phrase!("repairs.text.ragged_rows", lines),
            Self::LastLineCut => phrase!("repairs.text.last_line_cut"),
            Self::UnreadableCells(lines) => phrase!("repairs.text.unreadable_cells", lines),
            Self::BlocksUnrolled(width) => phrase!("repairs.text.blocks_unrolled", width),
            Self::ColumnsLikeBlocks(width) => phrase!("repairs.text.columns_like_blocks", width),
            Self::ColumnsAreSignals(width) => phrase!("repairs.text.columns_are_signals", width),
            Self::TimeColumnGuessed(name) => phrase!("repairs.text.time_column_guessed", name),
            Self::ValueColumnGuessed(name) => phrase!("repairs.text.value_column_guessed", name),
            Self::ColumnLeftOut(name, why) => {
                let why = left_out_because(*why);
                phrase!("repairs.text.column_left_out", name, why)
            }
            Self::MarksFrom { column, marks: 1 } => phrase!("repairs.text.marks_from_one", column),
            Self::MarksFrom { column, marks } => phrase!("repairs.text.marks_from", column, marks),
            Self::UnitConverted(unit) => {
                let unit = unit_name(*unit);
                phrase!("repairs.text.unit_converted", unit)
            }
            Self::UnitFromText(unit) => {
                let unit = unit_name(*unit);
                phrase!("repairs.text.unit_from_text", unit)
            }
            Self::UnitUnknown => phrase!("repairs.text.unit_unknown"),
            Self::Uncalibrated => phrase!("repairs.text.uncalibrated"),
            Self::ValuesUnlikely(largest) => {
                let largest = Phrase::number(*largest, 0);
                phrase!("repairs.text.values_unlikely", largest)
            }
            Self::TimeUnitGuessed(unit) => {
                let unit = time_unit_name(*unit);
                phrase!("repairs.text.time_unit_guessed", unit)
            }
            Self::ClockTime => phrase!("repairs.text.clock_time"),
            Self::ClockWrapped => phrase!("repairs.text.clock_wrapped"),
            Self::StartsLater(seconds) => {
                let seconds = Phrase::exact(*seconds);
                phrase!("repairs.text.starts_later", seconds)
            }
            Self::StampsShared(hz) => {
                let hz = Phrase::number(*hz, 2);
                phrase!("repairs.text.stamps_shared", hz)
            }
            Self::Jitter(milliseconds) => {
                let ms = Phrase::number(*milliseconds, 2);
                phrase!("repairs.text.jitter", ms)
            }
            Self::RateFromText(hz) => {
                let hz = Phrase::exact(*hz);
                phrase!("repairs.text.rate_from_text", hz)
            }
            Self::RateUnknown => phrase!("repairs.text.rate_unknown"),
            Self::RateConflict { stated, found } => {
                let percent = Phrase::number((found / stated - 1.0) * 100.0, 2);
                let (stated, found) = (Phrase::exact(*stated), Phrase::number(*found, 2));
                phrase!("repairs.text.rate_conflict", stated, found, percent)
            }
            Self::RateUnlikely(hz) => {
                let hz = Phrase::number(*hz, 4);
                phrase!("repairs.text.rate_unlikely", hz)
            }
            Self::RowsBridged(lines) => phrase!("repairs.text.rows_bridged", lines),
            Self::Gap { rows, seconds } => {
                let seconds = Phrase::number(*seconds, 3);
                phrase!("repairs.text.gap", rows, seconds)
            }
            Self::FirstRowApart(seconds) => {
                let seconds = Phrase::number(*seconds, 3);
                phrase!("repairs.text.first_row_apart", seconds)
            }
            Self::MoreGaps { gaps, samples } => phrase!("repairs.text.more_gaps", gaps, samples),
            Self::TimeRestarts => phrase!("repairs.text.time_restarts"),
            Self::LongPause(seconds) => {
                let seconds = Phrase::number(*seconds, 0);
                phrase!("repairs.text.long_pause", seconds)
            }
            Self::RunSaid => phrase!("repairs.text.run_said"),
            Self::OwnTimes(count) => phrase!("repairs.text.own_times", count),
            Self::PartLeftOut(time) => phrase!("repairs.text.part_left_out", time),
            Self::RunsNamed(lines) => phrase!("repairs.text.runs_named", lines),
            Self::Runs(count) => phrase!("repairs.text.runs", count),
            Self::ShortRunsLeftOut(rows) => phrase!("repairs.text.short_runs_left_out", rows),
            Self::BackwardStamps(lines) => phrase!("repairs.text.backward_stamps", lines),
            Self::MissingStamps(lines) => phrase!("repairs.text.missing_stamps", lines),
            Self::RepeatedRows(lines) => phrase!("repairs.text.repeated_rows", lines),
            Self::StampsUnusable => phrase!("repairs.text.stamps_unusable"),
            Self::MissingBridged(1) => phrase!("repairs.text.missing_bridged_one"),
            Self::MissingBridged(count) => phrase!("repairs.text.missing_bridged", count),
            Self::MissingStretch { samples, seconds } => {
                let seconds = Phrase::number(*seconds, 3);
                phrase!("repairs.text.missing_stretch", samples, seconds)
            }
        }
    }

    /// Whether it says itself on which lines.
    pub(in crate::formats) const fn names_lines(&self) -> bool {
        matches!(
            self,
            Self::PreambleSkipped(_)
                | Self::CommentsSkipped(_)
                | Self::FooterSkipped(_)
                | Self::TextSkipped(_)
                | Self::RaggedRows(_)
                | Self::UnreadableCells(_)
                | Self::RowsBridged(_)
                | Self::RunsNamed(_)
                | Self::BackwardStamps(_)
                | Self::MissingStamps(_)
                | Self::RepeatedRows(_)
        )
    }
}

shown_as_said!(TextNote);
