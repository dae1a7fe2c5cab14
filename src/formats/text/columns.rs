//! Which column is the time and which are signals.
//!
//! A column of times of day is the time; else one that is called so; else, without a name that says
//! otherwise, one that rises evenly from row to row. Everything else with numbers in it is read as a
//! signal; what turns out to be a constant, a switch or a counter is left out afterwards.

use super::super::{Choices, TimeColumn, TimeUnit, ValueUnit};
use super::header::Header;
use super::note_words::LeftOut;
use super::shape::ColumnSample;
use super::unit_words::{Unit, names_mark, names_sample_number, names_time};
use std::ops::Range;

/// The most columns that are read as signals: more than any sensor of a classroom has.
const MOST: usize = 64;

/// What is done with a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// Not read.
    Skip,
    /// The time.
    Time,
    /// A signal: its place among those read.
    Value(usize),
    /// Marks: its place among the columns of marks.
    Label(usize),
}

/// The columns of the table.
#[derive(Debug)]
pub(super) struct Columns {
    pub(super) names: Vec<String>,
    pub(super) roles: Vec<Role>,
    pub(super) time: TimeColumn,
    pub(super) time_unit: Option<TimeUnit>,
    /// Whether nothing but its numbers says that it is the time.
    pub(super) time_guessed: bool,
    /// For each signal read: its column.
    pub(super) values: Vec<usize>,
    /// For each signal read: the unit said in the head.
    pub(super) units: Vec<ValueUnit>,
    /// The columns that hold marks.
    pub(super) labels: Vec<usize>,
    /// How many columns at the right are empty.
    pub(super) empty: usize,
    /// Whether there were more than are read.
    pub(super) limited: bool,
}

/// How many columns the table has once empty ones at the right are gone.
pub(super) fn filled_width(samples: &[ColumnSample], header: &Header) -> usize {
    let is_empty = |at: usize| {
        samples.get(at).is_none_or(ColumnSample::is_empty)
            && header.names.get(at).is_none_or(String::is_empty)
            && header.units.get(at).is_none_or(Option::is_none)
    };
    (0..samples.len()).rev().find(|&at| !is_empty(at)).map_or(0, |last| last + 1)
}

/// Gives each column its role.
pub(super) fn assign(samples: &[ColumnSample], header: &Header, choices: &Choices) -> Columns {
    let width = filled_width(samples, header);
    let time = match choices.time_column {
        Some(TimeColumn::At(at)) if at >= width => (TimeColumn::Absent, false),
        Some(chosen) => (chosen, false),
        None => find_time(samples.get(..width).unwrap_or_default(), header),
    };
    within(samples, header, choices, time, 0..width)
}

/// Gives the columns of a part of the table their roles; `time` says where the time is and whether only
/// its numbers say so.
pub(super) fn within(
    samples: &[ColumnSample],
    header: &Header,
    choices: &Choices,
    (time, time_guessed): (TimeColumn, bool),
    part: Range<usize>,
) -> Columns {
    let width = filled_width(samples, header);
    let samples = samples.get(..width).unwrap_or_default();
    let time_at = match time {
        TimeColumn::At(at) => Some(at),
        TimeColumn::Absent => None,
    };
    let mut columns = Columns {
        names: (0..width).map(|at| shown_name(header, at)).collect(),
        roles: vec![Role::Skip; width],
        time,
        time_unit: time_at
            .and_then(|at| choices.time_unit.or_else(|| time_unit(samples.get(at)?, header, at))),
        time_guessed,
        values: Vec::new(),
        units: Vec::new(),
        labels: Vec::new(),
        empty: header.names.len() - width,
        limited: false,
    };
    for (at, sample) in samples.iter().enumerate().filter(|(at, _)| part.contains(at)) {
        let chosen = choices.value_column == Some(at);
        let is_numeric = sample.numbers > 0 && sample.numbers >= sample.texts + sample.moments
            || sample.texts + sample.moments == 0;
        let Some(role) = columns.roles.get_mut(at) else { continue };
        if Some(at) == time_at {
            *role = Role::Time;
        } else if !chosen && is_label(sample, header.names.get(at).map_or("", String::as_str)) {
            *role = Role::Label(columns.labels.len());
            columns.labels.push(at);
        } else if is_numeric || chosen {
            if columns.values.len() >= MOST && !chosen {
                columns.limited = true;
                continue;
            }
            *role = Role::Value(columns.values.len());
            columns.values.push(at);
            columns.units.push(match header.units.get(at) {
                Some(Some(Unit::Value(unit))) => *unit,
                _ => ValueUnit::Unstated,
            });
        }
    }
    columns
}

/// Whether a column may hold marks: it is called so, or holds words and no numbers.
fn is_label(sample: &ColumnSample, name: &str) -> bool {
    let rows = sample.numbers + sample.moments + sample.missing + sample.texts;
    let has_words = sample.texts > 0 && sample.numbers + sample.moments == 0;
    let changes = sample.values.windows(2).filter(|pair| pair.first() != pair.last()).count();
    // A wave may be called anything: marks stay the same from row to row.
    has_words || names_mark(name) && changes * 5 <= rows
}

fn shown_name(header: &Header, at: usize) -> String {
    match header.names.get(at) {
        Some(name) if !name.is_empty() => name.clone(),
        _ => format!("column {}", at + 1),
    }
}

fn find_time(samples: &[ColumnSample], header: &Header) -> (TimeColumn, bool) {
    let find = |is: &dyn Fn(usize, &ColumnSample) -> bool| {
        (0..).zip(samples).find(|(at, sample)| is(*at, sample)).map(|(at, _)| TimeColumn::At(at))
    };
    let name = |at: usize| header.names.get(at).map_or("", String::as_str);
    let has_unit = |at: usize| matches!(header.units.get(at), Some(Some(Unit::Time(_))));
    let is_numeric = |sample: &ColumnSample| sample.numbers > sample.texts + sample.missing;
    if let Some(time) = find(&|_, sample| sample.moments > sample.numbers + sample.texts) {
        return (time, false);
    }
    let says = |at: usize| {
        names_time(name(at)) && !matches!(header.units.get(at), Some(Some(Unit::Value(_))))
    };
    if let Some(time) = find(&|at, sample| {
        sample.numbers > sample.texts && (says(at) || has_unit(at)) && changes(&sample.values)
    }) {
        return (time, false);
    }
    // The name of a sample number is only believed when the numbers do rise; `no 1` may be a lead.
    let numbers = |at: usize, sample: &ColumnSample| {
        is_numeric(sample) && names_sample_number(name(at)) && rises(&sample.values)
    };
    if let Some(time) = find(&numbers) {
        return (time, false);
    }
    let has_value_unit = |at: usize| matches!(header.units.get(at), Some(Some(Unit::Value(_))));
    let several = samples.iter().filter(|sample| is_numeric(sample)).count() > 1;
    let rising = |at: usize, sample: &ColumnSample| {
        is_numeric(sample)
            && !has_value_unit(at)
            && sample.values.len() > 8
            && rises(&sample.values)
    };
    match several.then(|| find(&rising)).flatten() {
        Some(time) => (time, true),
        None => (TimeColumn::Absent, false),
    }
}

fn changes(values: &[f64]) -> bool {
    values.len() < 3 || values.windows(2).any(|pair| pair.first() != pair.last())
        // Many rows may share one stamp; then the column is at least all whole or all large.
        || values.first().is_some_and(|first| first.abs() > 1000.0)
}

/// Whether nearly all steps go up (or stand still), and at least one does go up.
pub(super) fn rises(values: &[f64]) -> bool {
    let (mut up, mut down) = (0, 0);
    for pair in values.windows(2) {
        match pair {
            [a, b] if b > a => up += 1,
            [a, b] if b < a => down += 1,
            _ => {}
        }
    }
    up > 0 && down * 100 <= up && up * 400 >= values.len()
}

fn time_unit(sample: &ColumnSample, header: &Header, at: usize) -> Option<TimeUnit> {
    if sample.moments > sample.numbers {
        return Some(TimeUnit::Clock);
    }
    match header.units.get(at) {
        Some(Some(Unit::Time(TimeUnit::Clock)))
        | Some(Some(Unit::Value(_)))
        | Some(None)
        | None => {}
        Some(Some(Unit::Time(unit))) => return Some(*unit),
    }
    let name = header.names.get(at).map_or("", String::as_str);
    let counts_by_one = sample.values.windows(2).all(|pair| matches!(pair, [a, b] if b - a == 1.0));
    let starts_low = sample.values.first().is_some_and(|first| (0.0..=1.0).contains(first));
    let named = names_sample_number(name) && !names_time(name);
    (named || (header.names.get(at).is_none_or(String::is_empty) && counts_by_one && starts_low))
        .then_some(TimeUnit::SampleNumber)
}

/// Why a column that was read is no signal, if it isn't one.
pub(super) fn left_out(samples: &[f32]) -> Option<LeftOut> {
    let mut values = samples.iter().copied().filter(|value| value.is_finite());
    let first = values.next()?;
    let Some(second) = values.find(|value| *value != first) else { return Some(LeftOut::Constant) };
    if values.all(|value| value == first || value == second) {
        return Some(LeftOut::Switch);
    }
    // A counter: nearly every step is the same step up; the others are where it starts again.
    let finite = || samples.iter().filter(|value| value.is_finite());
    let mut steps: Vec<f32> =
        finite().zip(finite().skip(1)).map(|(a, b)| b - a).take(20_000).collect();
    let middle = steps.len() / 2;
    let (_, step, _) = steps.select_nth_unstable_by(middle, f32::total_cmp);
    let step = *step;
    let same = steps.iter().filter(|other| (**other - step).abs() <= step * 1e-3).count();
    (step > 0.0 && same * 10 >= steps.len() * 9).then_some(LeftOut::Counter)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counters_switches_and_constants_are_no_signals() {
        let counter: Vec<f32> = (0..200).map(|row| (row % 16) as f32).collect();
        let switch: Vec<f32> = (0..200).map(|row| f32::from(u8::from(row > 90))).collect();
        let wave: Vec<f32> = (0..200).map(|row| (row as f32 * 0.3).sin()).collect();
        assert_eq!(left_out(&counter), Some(LeftOut::Counter));
        assert_eq!(left_out(&switch), Some(LeftOut::Switch));
        assert_eq!(left_out(&[0.5; 20]), Some(LeftOut::Constant));
        assert_eq!(left_out(&wave), None);
        assert_eq!(left_out(&[f32::NAN, 1.0]), Some(LeftOut::Constant));
    }
}
