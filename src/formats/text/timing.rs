//! When each row was taken: runs on an even grid, each with its rate, from the time column or from words.
//!
//! The time column over its whole span comes before a stated rate; a disagreement of more than
//! 0.05 % is said. Pauses longer than [`LONGEST_GAP`] split the recording. Without a time column the
//! stated rate counts, and without that there is none: it is never assumed.

use super::super::bridge::longest;
use super::super::{Choices, TimeUnit};
use super::columns::Columns;
use super::grid::{self, Grid, Run};
use super::line_list::LineList;
use super::metadata::Stated;
use super::notes::TextNote;
use super::repeated::drop_repeated_rows;
use super::stamps;
use super::table::Table;
use super::tell::Told;
use crate::signal::SampleRate;

/// Pauses longer than this, in seconds, split a recording. Ours: a class would not wait longer.
const LONGEST_GAP: f64 = 30.0;
/// The least that is kept as a run of its own, in rows and in seconds.
const SHORTEST_RUN: (usize, f64) = (10, 0.5);
/// Dates as days: 1954 to 2119 counted from 1900, as spreadsheets do. Common practice.
const DATES: std::ops::Range<f64> = 20_000.0..80_000.0;
/// How many gaps are listed one by one.
const LISTED: usize = 10;

/// The runs of a file.
#[derive(Debug)]
pub(super) struct Timing {
    /// Rows and gaps of each run; at least one run.
    pub(super) runs: Vec<Run>,
    /// The rate of each run, in Hz; `None` when it has to be asked for.
    pub(super) rates: Option<Vec<f64>>,
    pub(super) unit: Option<TimeUnit>,
    /// Whether the student chose the rate.
    pub(super) is_chosen: bool,
    /// What each run is called; none at first.
    pub(super) names: Vec<Option<String>>,
}

/// Finds the runs and their rates. `decimals`: the most digits after the mark in the time column.
pub(super) fn find(
    table: &mut Table,
    columns: &Columns,
    decimals: usize,
    stated: &Stated,
    choices: &Choices,
    told: &mut Told,
) -> Timing {
    let times = std::mem::take(&mut table.times);
    if !times.is_empty() {
        let resolution = 10.0_f64.powi(-(decimals.min(12) as i32));
        if let Some(timing) = from_stamps(times, resolution, table, columns, stated, choices, told)
        {
            return timing;
        }
        told.note(TextNote::StampsUnusable, None);
    }
    let run = Run { rows: 0..table.rows, gaps: Vec::new(), period: 1.0 };
    let rate = choices.rate_hz.or_else(|| rate_from_text(stated, told));
    Timing {
        runs: vec![run],
        rates: rate.map(|hz| vec![hz]),
        unit: columns.time_unit,
        is_chosen: choices.rate_hz.is_some(),
        names: Vec::new(),
    }
}

fn rate_from_text(stated: &Stated, told: &mut Told) -> Option<f64> {
    let (hz, line) = stated.rate_hz?;
    told.note(TextNote::RateFromText(hz), Some(line));
    Some(hz)
}

fn from_stamps(
    mut times: Vec<f64>,
    resolution: f64,
    table: &mut Table,
    columns: &Columns,
    stated: &Stated,
    choices: &Choices,
    told: &mut Told,
) -> Option<Timing> {
    drop_repeated_rows(&mut times, table, told);
    let clock = columns.time_unit == Some(TimeUnit::Clock);
    let missing = std::mem::take(&mut table.no_time);
    let stamps = stamps::order(times, clock && !table.dated)?;
    let grid = grid::find(&stamps, resolution)?;
    let first = stamps.times.first().copied()?;
    let unit = match columns.time_unit {
        Some(unit) => unit,
        None => {
            let unit = likely_unit(first, grid.period, stated.rate_hz.map(|(hz, _)| hz))?;
            told.note(TextNote::TimeUnitGuessed(unit), None);
            unit
        }
    };
    let lines = |rows: &[usize]| {
        let mut list = LineList::default();
        list.extend(rows.iter().map(|row| table.line_of(*row)));
        list
    };
    let is_date = unit == TimeUnit::Day && DATES.contains(&first);
    if clock || is_date {
        told.note(TextNote::ClockTime, None);
    }
    if let Some(row) = stamps.wrapped {
        told.note(TextNote::ClockWrapped, Some(table.line_of(row)));
    }
    told.list(TextNote::MissingStamps, missing);
    told.list(TextNote::BackwardStamps, lines(&stamps.backward));
    for run in grid.runs.iter().skip(1) {
        told.note(TextNote::TimeRestarts, Some(table.line_of(run.rows.start)));
    }
    let seconds = unit_seconds(unit);
    let counts_from_zero =
        !matches!(unit, TimeUnit::Clock | TimeUnit::SampleNumber | TimeUnit::Day);
    if counts_from_zero && first.abs() > 1.5 * grid.period {
        told.note(TextNote::StartsLater(first * seconds), None);
    }
    if let Some(jitter) = grid.jitter.filter(|_| unit != TimeUnit::SampleNumber) {
        told.note(TextNote::Jitter(jitter * seconds * 1000.0), None);
    }
    let rate = rate(&grid, unit, stated, choices, told);
    let period_seconds = rate.map_or(0.0, |hz| 1.0 / hz);
    let runs = split(&grid, period_seconds, table, told);
    let own = |hz: f64, run: &Run| {
        if run.period == grid.period {
            hz
        } else {
            snapped(hz * grid.period / run.period, grid.uncertainty)
        }
    };
    let rates = rate.map(|hz| runs.iter().map(|run| own(hz, run)).collect());
    let is_chosen = choices.rate_hz.is_some();
    Some(Timing { runs, rates, unit: Some(unit), is_chosen, names: Vec::new() })
}

/// The rate over all runs, in Hz.
fn rate(
    grid: &Grid,
    unit: TimeUnit,
    stated: &Stated,
    choices: &Choices,
    told: &mut Told,
) -> Option<f64> {
    if unit == TimeUnit::SampleNumber {
        let hz = choices.rate_hz.or_else(|| rate_from_text(stated, told))?;
        return Some(hz / grid.period);
    }
    let found = snapped(1.0 / (grid.period * unit_seconds(unit)), grid.uncertainty);
    if grid.shared {
        told.note(TextNote::StampsShared(found), None);
    }
    let mut hz = found;
    if let Some((stated, line)) = stated.rate_hz {
        let off = (found / stated - 1.0).abs();
        if off <= grid.uncertainty.min(0.0005) {
            hz = stated;
        } else if off > 0.0005_f64.max(grid.uncertainty) {
            told.note(TextNote::RateConflict { stated, found }, Some(line));
        }
    }
    if !(30.0..=20_000.0).contains(&hz) && choices.rate_hz.is_none() {
        told.note(TextNote::RateUnlikely(hz), None);
    }
    Some(choices.rate_hz.unwrap_or(hz))
}

/// The whole number of Hz that is meant, when the stamps can't tell the difference.
fn snapped(hz: f64, uncertainty: f64) -> f64 {
    let whole = hz.round();
    if (hz - whole).abs() <= hz * uncertainty.clamp(1e-6, 1e-3) { whole } else { hz }
}

/// Splits runs at long pauses, leaves out what is too short, and tells of gaps.
fn split(grid: &Grid, period_seconds: f64, table: &Table, told: &mut Told) -> Vec<Run> {
    // So that a few rows with absurd stamps can't ask for more memory than the file itself.
    let mut budget = 4 * table.rows + 10_000;
    let mut runs = Vec::new();
    let mut gaps = Vec::new();
    let mut short = LineList::default();
    let bridged = SampleRate::new(1.0 / period_seconds).map_or(0, longest);
    for run in &grid.runs {
        let mut current = Run { gaps: Vec::new(), ..run.clone() };
        for gap in &run.gaps {
            let seconds = gap.rows as f64 * period_seconds;
            if gap.before == 1 && gap.rows > bridged {
                // One row alone tells nothing, and its time may have lost its first digits.
                told.note(TextNote::FirstRowApart(seconds), Some(table.line_of(0)));
                current.rows.start = gap.before;
            } else if seconds > LONGEST_GAP || gap.rows > budget {
                told.note(TextNote::LongPause(seconds), Some(table.line_of(gap.before)));
                current.rows.end = gap.before;
                runs.push(current);
                current =
                    Run { rows: gap.before..run.rows.end, gaps: Vec::new(), period: run.period };
            } else {
                budget -= gap.rows;
                current.gaps.push(*gap);
                if gap.rows <= bridged {
                    short.add(table.line_of(gap.before));
                } else {
                    gaps.push(*gap);
                }
            }
        }
        runs.push(current);
    }
    told.list(TextNote::RowsBridged, short);
    for gap in gaps.iter().take(LISTED) {
        let seconds = gap.rows as f64 * period_seconds;
        told.note(TextNote::Gap { rows: gap.rows, seconds }, Some(table.line_of(gap.before)));
    }
    if gaps.len() > LISTED {
        let samples = gaps.iter().skip(LISTED).map(|gap| gap.rows).sum();
        told.note(TextNote::MoreGaps { gaps: gaps.len() - LISTED, samples }, None);
    }
    let is_long = |run: &Run| {
        run.rows.len() >= SHORTEST_RUN.0 && run.rows.len() as f64 * period_seconds >= SHORTEST_RUN.1
    };
    let longest = runs.iter().map(|run| run.rows.len()).max().unwrap_or(0);
    let keeps = |run: &Run| is_long(run) || run.rows.len() == longest;
    let dropped: usize = runs.iter().filter(|run| !keeps(run)).map(|run| run.rows.len()).sum();
    if dropped > 0 {
        told.note(TextNote::ShortRunsLeftOut(dropped), None);
    }
    runs.retain(keeps);
    runs
}

/// The unit that makes the period one of an ECG: the stated rate, else 20 Hz to 10 kHz. The ranges
/// do not overlap, since a heart beats a thousand times slower in the next unit. Days are only likely
/// where they count from a calendar's zero to now, as the dates of spreadsheets do.
fn likely_unit(first: f64, period: f64, stated: Option<f64>) -> Option<TimeUnit> {
    let units = [
        TimeUnit::Second,
        TimeUnit::Millisecond,
        TimeUnit::Microsecond,
        TimeUnit::Nanosecond,
        TimeUnit::Day,
    ];
    let units = || units.iter().filter(|unit| **unit != TimeUnit::Day || DATES.contains(&first));
    let hz = |unit: TimeUnit| 1.0 / (period * unit_seconds(unit));
    let near =
        |unit: &&TimeUnit| stated.is_some_and(|stated| (hz(**unit) / stated - 1.0).abs() < 0.05);
    let likely = |unit: &&TimeUnit| (19.9..=10_050.0).contains(&hz(**unit));
    units().find(near).or_else(|| units().find(likely)).copied()
}

const fn unit_seconds(unit: TimeUnit) -> f64 {
    match unit {
        TimeUnit::Second | TimeUnit::Clock | TimeUnit::SampleNumber => 1.0,
        TimeUnit::Millisecond => 1e-3,
        TimeUnit::Microsecond => 1e-6,
        TimeUnit::Nanosecond => 1e-9,
        TimeUnit::Minute => 60.0,
        TimeUnit::Hour => 3600.0,
        TimeUnit::Day => 86_400.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_unit_follows_from_a_plausible_rate() {
        assert_eq!(likely_unit(0.0, 0.004, None), Some(TimeUnit::Second));
        assert_eq!(likely_unit(0.0, 4.0, None), Some(TimeUnit::Millisecond));
        assert_eq!(likely_unit(0.0, 4000.0, None), Some(TimeUnit::Microsecond));
        assert_eq!(likely_unit(0.0, 0.1, Some(10.0)), Some(TimeUnit::Second));
        assert_eq!(likely_unit(0.0, 4e6, None), Some(TimeUnit::Nanosecond));
        assert_eq!(likely_unit(46_083.4, 4.63e-8, None), Some(TimeUnit::Day));
        assert_eq!(likely_unit(0.0, 4.63e-8, None), None);
        assert_eq!(likely_unit(0.0, 1e10, None), None);
    }

    #[test]
    fn a_rate_becomes_whole_only_within_what_the_stamps_can_tell() {
        assert_eq!(snapped(249.999_99, 1e-6), 250.0);
        assert_eq!(snapped(499.31, 1e-5), 499.31);
        assert_eq!(snapped(333.333_333, 1e-6), 333.333_333);
    }
}
