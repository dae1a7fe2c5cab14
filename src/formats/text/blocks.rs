//! Rows that hold a stretch of one signal each: one time, then several samples in order of time.
//!
//! Such columns have no names of their own or are numbered, and their numbers go on from row to row as
//! they do within a row: the mean squared step over the end of a row is like that inside, while from row
//! to row within a column it is larger. Leads of one heart, side by side, jump back at the end of
//! each row. Where names and numbers do not agree, nothing is unrolled, and that is said.

use super::super::{Choices, TimeColumn};
use super::columns::Columns;
use super::header::Header;
use super::notes::TextNote;
use super::stamps::usual_step;
use super::table::Table;
use super::tell::Told;

/// The fewest samples in a row of a block.
const FEWEST: usize = 4;
/// How many rows are looked at.
const LOOK: usize = 5000;
/// How much larger a squared step may be over the end of a row, and has to be down a column.
const SEAM: f64 = 1.7;
const COLUMN: f64 = 2.0;

/// Makes one signal of the columns when each row is a stretch of it. `line`: where the rows begin.
pub(super) fn unroll(
    table: &mut Table,
    columns: &mut Columns,
    header: &Header,
    choices: &Choices,
    line: usize,
    told: &mut Told,
) {
    let width = columns.values.len();
    let first = columns.values.first().copied().unwrap_or(0);
    let is_row = columns.values.iter().zip(first..).all(|(column, place)| *column == place);
    if width < FEWEST || !is_row {
        return;
    }
    let names = header.names.get(first..first + width).unwrap_or_default();
    let plain = has_no_names(names) || numbered(names).is_some();
    let goes_on = goes_on(&table.values);
    let asked_apart = choices.value_column.is_some_and(|column| column != first);
    if plain && goes_on && !asked_apart {
        let name = numbered(names).filter(|stem| !stem.is_empty());
        if let (Some(to), Some(name)) = (columns.names.get_mut(first), name) {
            *to = name;
        }
        columns.values.truncate(1);
        columns.units.truncate(1);
        table.values = vec![interleaved(&table.values)];
        if columns.time != TimeColumn::Absent {
            spread(&mut table.times, width);
        }
        table.unroll(width);
        told.note(TextNote::BlocksUnrolled(width), Some(line));
    } else if goes_on && !asked_apart {
        told.note(TextNote::ColumnsLikeBlocks(width), Some(line));
    } else if plain {
        told.note(TextNote::ColumnsAreSignals(width), Some(line));
    }
}

/// Whether at most the first of the columns has a name: `values`.
fn has_no_names(names: &[String]) -> bool {
    names.iter().skip(1).all(String::is_empty)
}

/// What numbered columns are called without their number: `v` of `v0`, `v1`, `v2`.
fn numbered(names: &[String]) -> Option<String> {
    let part = |name: &str| -> Option<(String, usize)> {
        let name = name.trim_end_matches([']', ')']);
        let stem = name.trim_end_matches(|sign: char| sign.is_ascii_digit());
        Some((stem.to_owned(), name.get(stem.len()..)?.parse().ok()?))
    };
    let (stem, first) = part(names.first()?)?;
    let follow = names
        .iter()
        .zip(0..)
        .all(|(name, place)| part(name).is_some_and(|it| it == (stem.clone(), first + place)));
    let stem = stem.trim_end_matches(|sign: char| !sign.is_alphanumeric());
    follow.then(|| stem.to_owned())
}

/// Whether the rows read one after the other are one trace.
fn goes_on(values: &[Vec<f32>]) -> bool {
    let rows = values.first().map_or(0, Vec::len).min(LOOK);
    let at = |column: usize, row: usize| -> Option<f64> {
        let value = *values.get(column)?.get(row)?;
        value.is_finite().then_some(f64::from(value))
    };
    let mean = |steps: &mut dyn Iterator<Item = (Option<f64>, Option<f64>)>| {
        let (mut sum, mut count) = (0.0, 0_usize);
        for (a, b) in steps {
            if let (Some(a), Some(b)) = (a, b) {
                sum += (b - a) * (b - a);
                count += 1;
            }
        }
        (count > 0).then(|| sum / count as f64)
    };
    let width = values.len();
    let inside = mean(
        &mut (0..rows).flat_map(|row| (1..width).map(move |it| (at(it - 1, row), at(it, row)))),
    );
    let seam = mean(&mut (1..rows).map(|row| (at(width - 1, row - 1), at(0, row))));
    let down = mean(
        &mut (1..rows).flat_map(|row| (0..width).map(move |it| (at(it, row - 1), at(it, row)))),
    );
    match (inside, seam, down) {
        (Some(inside), Some(seam), Some(down)) => {
            inside > 0.0 && seam <= SEAM * inside && down >= COLUMN * inside && down >= SEAM * seam
        }
        _ => false,
    }
}

fn interleaved(values: &[Vec<f32>]) -> Vec<f32> {
    let rows = values.first().map_or(0, Vec::len);
    let row = |row: usize| values.iter().filter_map(move |column| column.get(row).copied());
    (0..rows).flat_map(row).collect()
}

/// Gives each sample of a row its time: the row's own for the first, even steps for the others.
fn spread(times: &mut Vec<f64>, width: usize) {
    let step = usual_step(times).unwrap_or(0.0) / width as f64;
    *times = times
        .iter()
        .flat_map(|time| (0..width).map(move |place| time + step * place as f64))
        .collect();
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wave(at: f64) -> f32 {
        ((at * 0.11).sin() + 0.4 * (at * 0.37).sin()) as f32
    }

    #[test]
    fn a_block_goes_on_and_leads_do_not() {
        let block: Vec<Vec<f32>> = (0..5)
            .map(|column| (0..300).map(|row| wave(f64::from(row * 5 + column))).collect())
            .collect();
        assert!(goes_on(&block));
        let leads: Vec<Vec<f32>> = (1..6)
            .map(|lead| (0..300).map(|row| wave(f64::from(row * 5)) * lead as f32 * 0.2).collect())
            .collect();
        assert!(!goes_on(&leads));
        assert_eq!(interleaved(&block).get(7), Some(&wave(7.0)));
    }

    #[test]
    fn columns_are_numbered_in_order() {
        let names = |names: &[&str]| -> Option<String> {
            numbered(&names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>())
        };
        assert_eq!(names(&["v0", "v1", "v2"]), Some("v".to_owned()));
        assert_eq!(names(&["sample 9", "sample 10"]), Some("sample".to_owned()));
        assert_eq!(names(&["x[0]", "x[1]"]), Some("x".to_owned()));
        assert_eq!((names(&["I", "II"]), names(&["v1", "v3"])), (None, None));
    }
}
