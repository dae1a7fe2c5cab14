//! What stands in a column for marks: words on few rows, or a switch that goes on at a moment.
//!
//! A cell marks its row when it says something else than the cell before it: an empty cell, a 0 or a
//! sign for a missing value says nothing. A number alone is the signal of a button: the mark then has
//! the name of the column.

use super::number::is_missing;

/// The marks of one column, while rows are read and after.
#[derive(Debug, Default)]
pub(super) struct Labels {
    /// The column.
    pub(super) column: usize,
    /// The row and the words of each mark, in order.
    pub(super) marks: Vec<(usize, String)>,
    before: Vec<u8>,
}

/// The longest words of a mark, in bytes: the rest is cut.
const LONGEST: usize = 200;
/// A column that changes more often than on one row of this many is no column of marks.
const SELDOM: usize = 10;

impl Labels {
    /// For a column.
    pub(super) fn of(column: usize) -> Self {
        Self { column, ..Self::default() }
    }

    /// Takes the cell of a row.
    pub(super) fn take(&mut self, row: usize, cell: &[u8]) {
        let says = !is_missing(cell) && !is_zero(cell);
        if says && self.before != cell {
            let words = String::from_utf8_lossy(cell.get(..LONGEST).unwrap_or(cell)).into_owned();
            self.marks.push((row, words));
        }
        self.before.clear();
        self.before.extend_from_slice(if says { cell } else { b"" });
    }

    /// The moments at which a signal of two values leaves the one it usually has; none when it does so
    /// too often for a button.
    pub(super) fn of_switch(column: usize, values: &[f32]) -> Option<Self> {
        let known = || values.iter().copied().filter(|value| value.is_finite());
        let first = known().next()?;
        let others = known().filter(|value| *value != first).count();
        let rest = if others * 2 > known().count() {
            known().find(|value| *value != first)?
        } else {
            first
        };
        let mut labels = Self::of(column);
        let mut on = false;
        for (row, value) in values.iter().enumerate().filter(|(_, value)| value.is_finite()) {
            if *value != rest && !on {
                labels.marks.push((row, String::new()));
            }
            on = *value != rest;
        }
        (labels.marks.len() * SELDOM <= values.len()).then_some(labels)
    }

    /// Follows rows that were dropped; their places rise.
    pub(super) fn drop_rows(&mut self, dropped: &[usize]) {
        for (row, _) in &mut self.marks {
            *row -= dropped.partition_point(|other| *other < *row).min(*row);
        }
    }
}

fn is_zero(cell: &[u8]) -> bool {
    cell.iter().all(|byte| matches!(byte, b'0' | b'.' | b',' | b'-' | b'+' | b' '))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_marks_where_it_begins() {
        let mut labels = Labels::of(2);
        for (row, cell) in ["", "tap", "tap", "0", "--", "1", "1", "tap"].iter().enumerate() {
            labels.take(row, cell.as_bytes());
        }
        let words: Vec<_> =
            labels.marks.iter().map(|(row, words)| (*row, words.as_str())).collect();
        assert_eq!(words, [(1, "tap"), (5, "1"), (7, "tap")]);
        labels.drop_rows(&[0, 3]);
        assert_eq!(labels.marks.iter().map(|mark| mark.0).collect::<Vec<_>>(), [0, 3, 5]);
    }

    #[test]
    fn a_switch_marks_where_it_leaves_its_rest() {
        let at = |values: &[f32]| {
            Labels::of_switch(0, values)
                .map(|labels| labels.marks.iter().map(|mark| mark.0).collect::<Vec<_>>())
        };
        let mut button = vec![0.0; 60];
        button[20..24].fill(5.0);
        button[50] = 5.0;
        assert_eq!(at(&button), Some(vec![20, 50]));
        let inverted: Vec<f32> = button.iter().map(|value| 5.0 - value).collect();
        assert_eq!(at(&inverted), Some(vec![20, 50]));
        let busy: Vec<f32> = (0..60).map(|row| f32::from(u8::from(row % 4 < 2))).collect();
        assert_eq!(at(&busy), None);
    }
}
