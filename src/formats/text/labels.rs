//! What stands in a column for marks: words on few rows, a switch that goes on at a moment, a phase.
//!
//! A mark stands where a cell says something else than the cell before it. An empty cell, a 0 or a sign
//! for a missing value says nothing. A switch has two values, numbers or such as `True` and `False`: it
//! marks where it leaves the one it usually has, and the mark then has the name of the column.

use super::number::is_missing;

/// The marks of one column, while rows are read and after.
#[derive(Debug, Default)]
pub(super) struct Labels {
    /// The column.
    pub(super) column: usize,
    /// The row and the words of each mark, in order; until [`Self::settle`] of each change.
    pub(super) marks: Vec<(usize, String)>,
    before: Option<Vec<u8>>,
    is_busy: bool,
    /// Whether its marks are final.
    pub(super) is_settled: bool,
}

/// The longest words of a mark, in bytes: the rest is cut.
const LONGEST: usize = 200;
/// A column that changes more often than on one row of this many is no column of marks.
const SELDOM: usize = 10;
/// After so many changes a column is watched for that.
const WATCHED: usize = 1000;
/// What stands for the two sides of a switch, in lower case.
const SIDES: [&str; 10] =
    ["true", "false", "on", "off", "yes", "no", "high", "low", "open", "closed"];

impl Labels {
    /// For a column.
    pub(super) fn of(column: usize) -> Self {
        Self { column, ..Self::default() }
    }

    /// Takes the cell of a row.
    pub(super) fn take(&mut self, row: usize, cell: &[u8]) {
        let cell = if is_missing(cell) || is_zero(cell) { b"" } else { cell };
        if self.is_busy || self.before.as_deref() == Some(cell) {
            return;
        }
        let words = String::from_utf8_lossy(cell.get(..LONGEST).unwrap_or(cell)).into_owned();
        self.marks.push((row, words));
        self.before = Some(cell.to_vec());
        if self.marks.len() > WATCHED && self.marks.len() * SELDOM > row {
            self.is_busy = true;
            self.marks = Vec::new();
        }
    }

    /// Keeps of all changes those that are marks, once `rows` rows are read. `false` when the column
    /// changes too often, or never.
    pub(super) fn settle(&mut self, rows: usize) -> bool {
        let speaks = self.marks.iter().any(|(_, words)| !words.is_empty());
        if !speaks {
            self.marks.clear();
            return !self.is_busy;
        }
        if self.marks.len() == 1 || self.marks.len() > 20.max(rows / SELDOM) {
            self.marks.clear();
            return false;
        }
        let usual = self.usual(rows);
        let is_number = |words: &str| {
            words.is_empty()
                || words.replace(',', ".").parse::<f64>().is_ok()
                || SIDES.iter().any(|side| words.eq_ignore_ascii_case(side))
        };
        let mut values: Vec<&str> = self.marks.iter().map(|(_, words)| words.as_str()).collect();
        values.sort_unstable();
        values.dedup();
        if values.len() == 2 && values.iter().all(|words| is_number(words)) {
            self.marks.retain(|(_, words)| *words != usual);
            self.marks.iter_mut().for_each(|(_, words)| words.clear());
        } else {
            self.marks.retain(|(_, words)| !words.is_empty());
        }
        true
    }

    /// What the column says on most rows.
    fn usual(&self, rows: usize) -> String {
        let ends = self.marks.iter().skip(1).map(|(row, _)| *row).chain([rows]);
        let mut spans: Vec<(&str, usize)> = self
            .marks
            .iter()
            .zip(ends)
            .map(|((row, words), end)| (words.as_str(), end.saturating_sub(*row)))
            .collect();
        spans.sort_unstable();
        spans
            .chunk_by(|a, b| a.0 == b.0)
            .max_by_key(|same| same.iter().map(|(_, rows)| rows).sum::<usize>())
            .and_then(|same| same.first())
            .map(|(words, _)| (*words).to_owned())
            .unwrap_or_default()
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
        let mut labels = Self { is_settled: true, ..Self::of(column) };
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

    fn settled(cells: &[&str]) -> Option<Vec<(usize, String)>> {
        let mut labels = Labels::of(2);
        for (row, cell) in cells.iter().enumerate() {
            labels.take(row, cell.as_bytes());
        }
        labels.settle(cells.len()).then_some(labels.marks)
    }

    #[test]
    fn a_word_marks_where_it_begins() {
        let marks = settled(&["", "tap", "tap", "0", "--", "1", "1", "tap"]).unwrap();
        let words: Vec<_> = marks.iter().map(|(row, words)| (*row, words.as_str())).collect();
        assert_eq!(words, [(1, "tap"), (5, "1"), (7, "tap")]);
        let mut labels = Labels { marks, ..Labels::of(2) };
        labels.drop_rows(&[0, 3]);
        assert_eq!(labels.marks.iter().map(|mark| mark.0).collect::<Vec<_>>(), [0, 3, 5]);
    }

    #[test]
    fn a_phase_marks_each_beginning_and_a_constant_nothing() {
        let marks = settled(&["rest", "rest", "work", "work", "work"]).unwrap();
        assert_eq!(marks, [(0, "rest".to_owned()), (2, "work".to_owned())]);
        assert_eq!(settled(&["2.3.2026"; 30]), None);
        let busy: Vec<String> = (0..5000).map(|row| format!("word {row}")).collect();
        assert_eq!(settled(&busy.iter().map(String::as_str).collect::<Vec<_>>()), None);
    }

    #[test]
    fn a_switch_in_words_marks_where_it_leaves_its_rest() {
        let at = |cells: &[&str]| -> Vec<usize> {
            settled(cells).unwrap().into_iter().map(|mark| mark.0).collect()
        };
        assert_eq!(at(&["False", "False", "True", "False", "False", "True", "False"]), [2, 5]);
        assert_eq!(at(&["1", "1", "0", "0", "1", "1", "1"]), [2]);
        assert_eq!(at(&["0", "0", "5.0", "5.0", "0", "0", "0"]), [2]);
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
