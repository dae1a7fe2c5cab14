//! What the rows hold, and on which line each of them stands.

use super::columns::Columns;
use super::labels::Labels;
use super::line_list::LineList;
use super::said::SaidBetween;

/// What the rows hold.
#[derive(Debug, Default)]
pub(super) struct Table {
    /// The time of each row in the file's unit, NaN where it is missing; empty without such a column.
    pub(super) times: Vec<f64>,
    /// The values, one list a signal.
    pub(super) values: Vec<Vec<f32>>,
    /// How many rows there are.
    pub(super) rows: usize,
    /// Whether any time came with its date.
    pub(super) dated: bool,
    /// The marks, one list a column of marks.
    pub(super) labels: Vec<Labels>,
    /// The lines of text among the rows and below them.
    pub(super) said: SaidBetween,
    /// Rows and their lines, wherever a row does not stand on the line after the one before it.
    lines: Vec<(usize, usize)>,
    /// How many rows each line gave, when not one.
    rows_a_line: Option<usize>,
    pub(super) text: LineList,
    pub(super) footer: LineList,
    pub(super) comments: LineList,
    pub(super) ragged: LineList,
    pub(super) unreadable: LineList,
    pub(super) no_time: LineList,
    /// The line that is cut off.
    pub(super) cut: Option<usize>,
    /// The first line with thousands marks.
    pub(super) grouped: Option<usize>,
    /// The first line with brackets in place of a minus.
    pub(super) bracketed: Option<usize>,
}

impl Table {
    /// Without rows, for these columns.
    pub(super) fn new(columns: &Columns) -> Self {
        Self {
            values: vec![Vec::new(); columns.values.len()],
            labels: columns.labels.iter().map(|column| Labels::of(*column)).collect(),
            ..Self::default()
        }
    }

    /// The line on which a row stands.
    pub(super) fn line_of(&self, row: usize) -> usize {
        let row = row / self.rows_a_line.unwrap_or(1);
        let place = self.lines.partition_point(|(first, _)| *first <= row);
        let known = place.checked_sub(1).and_then(|place| self.lines.get(place));
        known.map_or(0, |(first, line)| line + (row - first))
    }

    /// Each row has become several.
    pub(super) fn unroll(&mut self, rows_a_line: usize) {
        self.rows *= rows_a_line;
        self.rows_a_line = Some(rows_a_line);
        let labels = self.labels.iter_mut().flat_map(|labels| &mut labels.marks);
        labels.for_each(|(row, _)| *row *= rows_a_line);
        self.said.unroll(rows_a_line);
    }

    /// Forgets rows that were dropped; their places rise.
    pub(super) fn drop_lines(&mut self, rows: &[usize]) {
        let kept: Vec<usize> =
            (0..self.rows).filter(|row| rows.binary_search(row).is_err()).collect();
        let lines: Vec<usize> = kept.into_iter().map(|row| self.line_of(row)).collect();
        self.labels.iter_mut().for_each(|labels| labels.drop_rows(rows));
        self.said.drop_rows(rows);
        self.lines.clear();
        self.rows_a_line = None;
        self.rows = lines.len();
        for (row, line) in lines.into_iter().enumerate() {
            self.note_line(row, line);
        }
    }

    /// Remembers the line of a row.
    pub(super) fn note_line(&mut self, row: usize, line: usize) {
        if self.lines.last().is_none_or(|(first, known)| known + (row - first) != line) {
            self.lines.push((row, line));
        }
    }

    /// Makes room for the rows that are `left`, in bytes, with lines as long as this one.
    pub(super) fn reserve(&mut self, left: usize, line: usize, has_time: bool) {
        // Later lines may be longer; a tenth too little is made up for by one more growth.
        let rows = left / (line + 2) + 16;
        if has_time {
            self.times.reserve(rows);
        }
        self.values.iter_mut().for_each(|values| values.reserve(rows));
    }

    /// Forgets the rows from this one on.
    pub(super) fn truncate(&mut self, rows: usize) {
        self.rows = rows;
        self.times.truncate(rows);
        self.labels.iter_mut().for_each(|labels| labels.marks.retain(|(row, _)| *row < rows));
        self.values.iter_mut().for_each(|values| values.truncate(rows));
    }
}
