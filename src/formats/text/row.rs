//! How a line reads under one pairing of delimiter and decimal mark.

use super::super::{DecimalMark, Delimiter};
use super::doubt::is_half;
use super::lines::{Cells, Line};
use super::number::{Cell, read};

/// How much of one line is looked at, in bytes.
const WIDEST: usize = 16 * 1024;

/// How a line reads under one pairing.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Row {
    pub(super) cells: usize,
    values: usize,
    texts: usize,
    pub(super) grouped: usize,
    pub(super) odd: bool,
}

impl Row {
    fn of(line: &Line<'_>, delimiter: Delimiter, mark: DecimalMark) -> Self {
        let mut row = Self::default();
        if line.is_comment() {
            return row;
        }
        let mut before: &[u8] = &[];
        for cell in Cells::new(
            line.bytes.get(..line.bytes.len().min(WIDEST)).unwrap_or_default(),
            delimiter,
        ) {
            row.cells += 1;
            match read(cell, mark) {
                Cell::Number(_) => {
                    row.values += 1;
                    row.odd |= row.cells > 1 && is_half(before, cell);
                }
                Cell::Grouped(_) => {
                    row.values += 1;
                    row.grouped += 1;
                }
                Cell::Bracketed(_) | Cell::Moment(_) => row.values += 1,
                Cell::Missing => {}
                Cell::Text => row.texts += 1,
            }
            before = cell;
        }
        row
    }

    /// The share of cells that are values; 0 when the line is no row.
    pub(super) fn share(self) -> f64 {
        let written = self.values + self.texts;
        let share = self.values as f64 / written.max(1) as f64;
        if share >= 0.5 { share } else { 0.0 }
    }
}

/// How each line reads.
pub(super) fn rows_of(lines: &[Line<'_>], delimiter: Delimiter, mark: DecimalMark) -> Vec<Row> {
    lines.iter().map(|line| Row::of(line, delimiter, mark)).collect()
}

/// The lines that are rows.
pub(super) fn kept<'l, 'a>(lines: &'l [Line<'a>], rows: &[Row]) -> Vec<&'l Line<'a>> {
    lines.iter().zip(rows).filter(|(_, row)| row.share() > 0.0).map(|(line, _)| line).collect()
}

/// How many cells rows have.
pub(super) fn usual_width(rows: &[Row]) -> usize {
    let mut widths: Vec<usize> =
        rows.iter().filter(|row| row.share() > 0.0).map(|row| row.cells).collect();
    widths.sort_unstable();
    let runs = widths.chunk_by(|a, b| a == b);
    runs.max_by_key(|run| run.len()).and_then(|run| run.first().copied()).unwrap_or(0)
}
