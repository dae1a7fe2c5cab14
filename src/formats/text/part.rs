//! One part of the table with its own time: its rows read, timed and sorted into signals.

use super::super::{Choices, Place, TimeColumn};
use super::columns::Columns;
use super::fault::TextError;
use super::header::Header;
use super::metadata::Stated;
use super::shape::Shape;
use super::table::Table;
use super::tell::Told;
use super::timing::{self, Timing};
use super::traces::{self, Signal};
use super::{blocks, layout, rows, runs};
use crate::signal::Progress;

/// The fewest rows in which anything can be seen.
const FEWEST_ROWS: usize = 10;

/// What is read, and what is known of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Source<'a> {
    pub(super) text: &'a [u8],
    pub(super) shape: &'a Shape<'a>,
    pub(super) header: &'a Header,
    pub(super) choices: &'a Choices,
}

/// A part that was read.
#[derive(Debug)]
pub(super) struct Part {
    pub(super) columns: Columns,
    pub(super) table: Table,
    pub(super) timing: Timing,
    signals: Vec<Signal>,
}

/// Why a part can't be read.
#[derive(Clone, Copy, Debug)]
pub(super) enum Unusable {
    TooFewRows(usize),
    NoValues(Option<usize>),
}

impl Unusable {
    /// The same as an error of the file, whose rows begin on a line.
    pub(super) fn error(self, line: usize, file: String) -> TextError {
        match self {
            Self::TooFewRows(rows) => TextError::TooFewRows { rows, line, file },
            Self::NoValues(column) => {
                let column = column.map(|column| column + 1);
                TextError::NoValues { place: Place { line, column }, file }
            }
        }
    }
}

/// Reads a part.
pub(super) fn read(
    source: &Source<'_>,
    mut columns: Columns,
    stated: &mut Stated,
    told: &mut Told,
    progress: &mut dyn Progress,
) -> Result<Part, Unusable> {
    let Source { text, shape, header, choices } = *source;
    let first_line = shape.lines.get(shape.first_row).map_or(1, |line| line.number);
    let reading = rows::Reading { delimiter: shape.delimiter, mark: shape.mark, first_line };
    let mut table = rows::read_all(text, reading, &columns, progress);
    table.said.tell_below(table.rows, stated);
    layout::tell_shape(shape, &columns, header.top, &mut table, told);
    let decimals = match columns.time {
        TimeColumn::At(at) => shape.columns.get(at).map_or(0, |sample| sample.decimals),
        TimeColumn::Absent => 0,
    };
    if table.rows > 0 && table.rows < FEWEST_ROWS {
        return Err(Unusable::TooFewRows(table.rows));
    }
    blocks::unroll(&mut table, &mut columns, header, choices, first_line, told);
    let mut timing = timing::find(&mut table, &columns, decimals, stated, choices, told);
    runs::settle(&mut timing, shape, header.top, &table, &columns, told);
    let signals = traces::signals(&mut table, &columns, choices.value_column, told);
    traces::tell_marks(&mut table, &columns, told);
    if signals.is_empty() {
        return Err(Unusable::NoValues(columns.values.first().copied()));
    }
    columns.time_unit = timing.unit;
    Ok(Part { columns, table, timing, signals })
}

/// All signals, and for each the place of its part.
pub(super) fn signals(parts: &mut [Part]) -> (Vec<Signal>, Vec<usize>) {
    let all = parts.iter_mut().enumerate().flat_map(|(place, part)| {
        std::mem::take(&mut part.signals).into_iter().map(move |signal| (signal, place))
    });
    all.unzip()
}

/// Names runs side by side after the row above the names, or by number where their signals share a name.
pub(super) fn name_side_by_side(parts: &mut [Part], header: &Header) {
    let names = |part: &Part| -> Vec<String> {
        part.signals.iter().map(|signal| signal.name.clone()).collect()
    };
    let all: Vec<Vec<String>> = parts.iter().map(names).collect();
    let are_same = (0..)
        .zip(&all)
        .any(|(at, names)| all.iter().skip(at + 1).flatten().any(|name| names.contains(name)));
    let mut from = 0;
    for (number, part) in parts.iter_mut().enumerate() {
        let last = part.signals.last().map_or(from, |signal| signal.column + 1);
        let above = header.above.get(from..last).unwrap_or_default();
        let name = above.iter().find(|name| !name.is_empty()).cloned();
        let name = name.or_else(|| are_same.then(|| format!("run {}", number + 1)));
        from = last;
        let Some(name) = name else { continue };
        let several = part.timing.names.len() > 1;
        for (place, own) in part.timing.names.iter_mut().enumerate() {
            *own = Some(match own.take() {
                Some(own) => format!("{name}, {own}"),
                None if several => format!("{name}, run {}", place + 1),
                None => name.clone(),
            });
        }
    }
}
