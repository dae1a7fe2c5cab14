//! Several runs side by side: each time column belongs to the columns after it, up to the next one.
//!
//! A column is a further time when it is called like one, or like the first, and rises; in a table without
//! names, when it rises evenly from the same number as the first. Then each part of the table is read
//! as a table of its own, so that runs of unequal length and rate keep their own time.

use super::super::{Choices, TimeColumn};
use super::columns::{Columns, Role, assign, rises, within};
use super::header::Header;
use super::shape::ColumnSample;
use super::unit_words::{Unit, names_time};
use std::ops::Range;

/// The parts of a table, at least one.
pub(super) fn parts(
    whole: Columns,
    samples: &[ColumnSample],
    header: &Header,
    choices: &Choices,
) -> Vec<Columns> {
    let TimeColumn::At(chosen) = whole.time else { return vec![whole] };
    // The first time of the table, also when the student chose a later one.
    let found = assign(samples, header, &Choices { time_column: None, ..choices.clone() });
    let first = match found.time {
        TimeColumn::At(at) => at.min(chosen),
        TimeColumn::Absent => chosen,
    };
    let mut ranges = ranges(&found, first, samples, header);
    if ranges.len() < 2 {
        return vec![whole];
    }
    match (choices.time_column, choices.value_column) {
        (Some(TimeColumn::Absent), _) => return vec![whole],
        // Only what stands beside the chosen times was taken at them.
        (Some(TimeColumn::At(time)), None) => ranges.retain(|(at, _)| *at == time),
        // Both as we found them: the student corrects something else.
        (Some(TimeColumn::At(time)), Some(value)) => {
            if !ranges.iter().any(|(at, range)| *at == time && range.contains(&value)) {
                return vec![whole];
            }
        }
        (None, _) => {}
    }
    if ranges.is_empty() {
        return vec![whole];
    }
    ranges
        .into_iter()
        .map(|(time, range)| {
            let is_chosen = choices.time_column.is_none_or(|chosen| chosen == TimeColumn::At(time));
            let choices =
                Choices { time_unit: choices.time_unit.filter(|_| is_chosen), ..choices.clone() };
            let guessed = found.time_guessed && choices.time_column.is_none();
            within(samples, header, &choices, (TimeColumn::At(time), guessed), range)
        })
        .collect()
}

/// The time column of each part, and its columns.
fn ranges(
    whole: &Columns,
    first: usize,
    samples: &[ColumnSample],
    header: &Header,
) -> Vec<(usize, Range<usize>)> {
    let name = |at: usize| header.names.get(at).map_or("", String::as_str);
    let stem =
        |at: usize| name(at).trim_end_matches(|sign: char| !sign.is_alphabetic()).to_lowercase();
    let is_voltage = |at: usize| matches!(header.units.get(at), Some(Some(Unit::Value(_))));
    let is_time = |at: usize| {
        let Some(sample) = samples.get(at) else { return false };
        let unit = matches!(header.units.get(at), Some(Some(Unit::Time(_))));
        let like_the_first = !stem(at).is_empty() && stem(at) == stem(first);
        let is_bare = name(at).is_empty() && name(first).is_empty();
        let moments = sample.moments > sample.numbers + sample.texts;
        // A short list of moments is no run.
        let enough = samples.get(first).is_some_and(|it| sample.numbers * 10 >= it.numbers);
        let numbers =
            sample.numbers > 8 && enough && sample.numbers > sample.texts && rises(&sample.values);
        !is_voltage(at)
            && (moments && (names_time(name(at)) || is_bare || like_the_first)
                || numbers && (names_time(name(at)) || unit || like_the_first)
                || numbers && is_bare && samples.get(first).is_some_and(|it| are_alike(it, sample)))
    };
    let has_values = |range: Range<usize>| {
        whole
            .roles
            .get(range)
            .is_some_and(|roles| roles.iter().any(|role| matches!(role, Role::Value(_))))
    };
    let width = whole.roles.len();
    let mut ranges = Vec::new();
    let (mut time, mut from) = (first, 0);
    for at in (first + 1..width).filter(|at| is_time(*at)) {
        // Two times in a row are one time said twice.
        if has_values(time + 1..at) && has_values(at + 1..width) {
            ranges.push((time, from..at));
            (time, from) = (at, at);
        }
    }
    ranges.push((time, from..width));
    ranges
}

/// Whether two columns of numbers begin alike and rise by even steps.
fn are_alike(first: &ColumnSample, other: &ColumnSample) -> bool {
    let step = |sample: &ColumnSample| match sample.values.as_slice() {
        [a, b, ..] => b - a,
        _ => 0.0,
    };
    let (ours, theirs) = (step(first), step(other));
    let is_even = other.values.windows(2).all(|pair| match pair {
        [a, b] => (b - a - theirs).abs() <= theirs * 0.6,
        _ => true,
    });
    // Row numbers also rise evenly, but by one.
    let is_count = theirs == 1.0 && ours != 1.0;
    is_even && !is_count && theirs > 0.0 && first.values.first() == other.values.first()
}
