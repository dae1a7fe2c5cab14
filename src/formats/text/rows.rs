//! The one pass over the rows: times and values, and what went wrong on which line.
//!
//! A row is kept when its time and at least one place for a value are there; a value that is missing
//! or unreadable becomes NaN. A line whose first wanted cell is text is no row: it is skipped, and is
//! part of the footer when no row follows. A short row at the very end, without a line end, is a
//! line that was cut off.

use super::super::{DecimalMark, Delimiter, TimeColumn};
use super::columns::{Columns, Role};
use super::lines::{Cells, Line, Lines, unquoted};
use super::number::{Cell, decimals, number, read};
use super::table::Table;
use crate::signal::Progress;

/// How often progress is told.
const TOLD: usize = 40;

/// How rows are to be read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading {
    pub(super) delimiter: Delimiter,
    pub(super) mark: DecimalMark,
    pub(super) first_line: usize,
}

/// What came of one line.
enum Outcome {
    Row { short: bool, long: bool },
    Nothing,
    Text,
}

/// Reads all rows of a text.
pub(super) fn read_all(
    text: &[u8],
    reading: Reading,
    columns: &Columns,
    progress: &mut dyn Progress,
) -> Table {
    let mut table = Table::new(columns);
    let has_time = columns.time != TimeColumn::Absent;
    let mut lines = Lines::new(text);
    let (step, mut told) = (text.len() / TOLD + 1, text.len());
    let mut pending: Vec<usize> = Vec::new();
    let mut short_at_end: Vec<usize> = Vec::new();
    let mut row: Vec<f32> = vec![f32::NAN; columns.values.len()];
    let mut last = None;
    while let Some(line) = lines.next() {
        if lines.left() + step < told {
            told = lines.left();
            progress.at(1.0 - told as f64 / text.len() as f64);
        }
        if line.number < reading.first_line || line.bytes.is_empty() {
            continue;
        }
        if line.is_comment() {
            table.comments.add(line.number);
            table.said.take(table.rows, line.number, line.bytes);
            continue;
        }
        if table.rows == 1 {
            table.reserve(lines.left(), line.bytes.len(), has_time);
        }
        row.fill(f32::NAN);
        let mut time = f64::NAN;
        match read_row(&line, reading, columns, &mut table, &mut row, &mut time) {
            Outcome::Nothing => {}
            Outcome::Text => {
                pending.push(line.number);
                table.said.take(table.rows, line.number, line.bytes);
            }
            Outcome::Row { short, .. } if short && !line.ended => table.cut = Some(line.number),
            Outcome::Row { short, long } => {
                table.text.extend(pending.drain(..));
                table.note_line(table.rows, line.number);
                if has_time {
                    table.times.push(time);
                    if time.is_nan() {
                        table.no_time.add(line.number);
                    }
                }
                for (values, value) in table.values.iter_mut().zip(&row) {
                    values.push(*value);
                }
                table.rows += 1;
                if short {
                    short_at_end.push(line.number);
                } else if !short_at_end.is_empty() {
                    table.ragged.extend(short_at_end.drain(..));
                }
                if long {
                    table.ragged.add(line.number);
                }
                last = Some(line);
            }
        }
    }
    // Short rows that no whole row follows are a footer, such as a count of points.
    let kept = table.rows - short_at_end.len();
    if let Some(line) = last
        && short_at_end.is_empty()
        && !line.ended
        && ends_early(text, &line, reading.delimiter)
    {
        table.cut = Some(line.number);
        table.truncate(kept - 1);
    } else {
        table.truncate(kept);
    }
    let mut footer: Vec<usize> = short_at_end.into_iter().chain(pending).collect();
    footer.sort_unstable();
    table.footer.extend(footer);
    table
}

fn read_row(
    line: &Line<'_>,
    reading: Reading,
    columns: &Columns,
    table: &mut Table,
    row: &mut [f32],
    time: &mut f64,
) -> Outcome {
    let (mut cells, mut found, mut blank, mut signs, mut strange) = (0, 0, 0, 0, false);
    let mut long = false;
    let mut labels = Vec::new();
    for cell in Cells::new(line.bytes, reading.delimiter) {
        let role = columns.roles.get(cells);
        cells += 1;
        let is_time = role == Some(&Role::Time);
        match role {
            None => {
                long |= !cell.is_empty();
                continue;
            }
            Some(Role::Skip) => continue,
            Some(Role::Label(place)) => {
                labels.push((*place, unquoted(cell)));
                continue;
            }
            Some(Role::Time | Role::Value(_)) => {}
        }
        let value = match number(cell, reading.mark) {
            Some(value) => value,
            None if cell.is_empty() => {
                blank += 1;
                continue;
            }
            None => match read(cell, reading.mark) {
                Cell::Number(value) => value,
                Cell::Grouped(value) => {
                    table.grouped.get_or_insert(line.number);
                    value
                }
                Cell::Bracketed(value) => {
                    table.bracketed.get_or_insert(line.number);
                    value
                }
                Cell::Moment(moment) if is_time => {
                    table.dated |= moment.dated;
                    moment.seconds
                }
                Cell::Missing => {
                    signs += 1;
                    continue;
                }
                Cell::Moment(_) | Cell::Text => {
                    if is_time || found + blank + signs == 0 {
                        return Outcome::Text;
                    }
                    strange = true;
                    continue;
                }
            },
        };
        found += 1;
        match role {
            Some(Role::Value(place)) => {
                let value = value as f32;
                if let Some(to) = row.get_mut(*place).filter(|_| value.is_finite()) {
                    *to = value;
                }
            }
            _ => *time = value,
        }
    }
    if found == 0 && (signs == 0 || columns.time != TimeColumn::Absent) {
        return if blank + signs > 0 || line.is_blank() { Outcome::Nothing } else { Outcome::Text };
    }
    if strange {
        table.unreadable.add(line.number);
    }
    let at = table.rows;
    for (place, cell) in labels {
        if let Some(labels) = table.labels.get_mut(place) {
            labels.take(at, cell);
        }
    }
    // Marks stand on few rows: those without one may end before their column.
    let needed = |role: &Role| matches!(role, Role::Time | Role::Value(_));
    let needed = columns.roles.iter().rposition(needed).map_or(0, |last| last + 1);
    Outcome::Row { short: cells < needed, long }
}

/// Whether the last line's last cell has fewer decimals than every row just before it.
fn ends_early(text: &[u8], last: &Line<'_>, delimiter: Delimiter) -> bool {
    let of = |line: &[u8]| Cells::new(line, delimiter).last().map_or(0, decimals);
    let before = text.len().saturating_sub(last.bytes.len());
    let from = before.saturating_sub(40 * (last.bytes.len() + 8));
    let tail = text.get(from..before).unwrap_or_default();
    let mut known: Vec<usize> = Lines::new(tail)
        .skip(1)
        .filter(|line| !line.is_blank() && !line.is_comment())
        .map(|line| of(line.bytes))
        .collect();
    known.sort_unstable();
    known.dedup();
    matches!(known.as_slice(), [usual] if of(last.bytes) < *usual)
}
