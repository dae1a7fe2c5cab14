//! The head of the table: what the columns are called and in which units they are.
//!
//! The names stand right above the first row, or in the last remark above it when that has as many
//! cells as a row. A row of units may stand below or above the names.

use super::super::{Delimiter, TimeColumn};
use super::lines::{Cells, Line, shown};
use super::number::is_missing;
use super::shape::{ColumnSample, Shape};
use super::unit_words::{Unit, name_and_unit, names_time, unit};

/// Names and units of the columns; the name is empty where there is none.
#[derive(Debug, Default)]
pub(super) struct Header {
    pub(super) names: Vec<String>,
    pub(super) units: Vec<Option<Unit>>,
    /// What stands in the row above the names, when there is one: runs side by side have their names there.
    pub(super) above: Vec<String>,
    /// The place in the looked-at lines of the topmost line that belongs to it.
    pub(super) top: usize,
}

impl Header {
    /// Takes these names, with the units in them, in place of what stands above the table.
    pub(super) fn rename(&mut self, names: &[String]) {
        let read = names.iter().map(|name| name_and_unit(name));
        (self.names, self.units) = read.unzip();
    }

    /// What the column of the time is called.
    pub(super) fn name(&self, time: TimeColumn) -> String {
        match time {
            TimeColumn::At(at) => {
                let name = self.names.get(at).filter(|name| !name.is_empty());
                name.cloned().unwrap_or_else(|| format!("column {}", at + 1))
            }
            TimeColumn::Absent => String::new(),
        }
    }
}

/// Reads the head of a table with `width` columns.
pub(super) fn read(shape: &Shape<'_>, width: usize) -> Header {
    let above = shape.lines.get(..shape.first_row).unwrap_or_default();
    let mut rows = candidate_rows(above, shape, width);
    let mut header = Header {
        names: vec![String::new(); width],
        units: vec![None; width],
        above: Vec::new(),
        top: shape.first_row,
    };
    let mut taken = |row: Option<(usize, Vec<String>)>| {
        row.map(|(at, cells)| {
            header.top = header.top.min(at);
            cells
        })
    };
    let unit_row = taken(rows.next_if(|(_, cells)| is_unit_row(cells)));
    let mut name_row = taken(rows.next_if(|_| true));
    if let Some(cells) = name_row.as_mut().filter(|cells| lacks_a_name(cells, shape)) {
        cells.insert(0, String::new());
    }
    let unit_row = match unit_row {
        Some(row) => Some(row),
        None => taken(rows.next_if(|(_, cells)| is_unit_row(cells))),
    };
    let cell = |row: &Option<Vec<String>>, at: usize| -> String {
        row.as_ref().and_then(|row| row.get(at)).cloned().unwrap_or_default()
    };
    for (at, (name, found)) in header.names.iter_mut().zip(&mut header.units).enumerate() {
        // A lone row of units (`ms`, `adc`) is all the name there is.
        let (stem, own) =
            name_and_unit(&cell(if name_row.is_some() { &name_row } else { &unit_row }, at));
        *name = stem;
        *found = unit(&cell(&unit_row, at)).or(own);
    }
    header.above = rows.next().map(|(_, cells)| cells).unwrap_or_default();
    header
}

/// Whether the names begin one column too far to the left: row numbers came without a name.
fn lacks_a_name(cells: &[String], shape: &Shape<'_>) -> bool {
    let [numbers, next, ..] = shape.columns.as_slice() else { return false };
    let counts = numbers.values.len() > 2
        && numbers.values.windows(2).all(|pair| matches!(pair, [a, b] if b - a == 1.0))
        && numbers.values.first().is_some_and(|first| (0.0..=1.0).contains(first));
    let first_is_time = cells.first().is_some_and(|name| names_time(&name_and_unit(name).0));
    counts
        && cells.len() + 1 == filled(&shape.columns)
        && (!first_is_time || next.values.is_sorted() && next.values.first() != next.values.last())
}

/// How many columns there are up to the last that holds anything.
fn filled(columns: &[ColumnSample]) -> usize {
    columns.iter().rposition(|column| !column.is_empty()).map_or(0, |last| last + 1)
}

/// The rows that may belong to the head, from the first row of numbers upwards.
fn candidate_rows<'a>(
    above: &'a [Line<'a>],
    shape: &'a Shape<'_>,
    width: usize,
) -> std::iter::Peekable<impl Iterator<Item = (usize, Vec<String>)> + 'a> {
    let mut blanks = 0;
    let rows = above.iter().enumerate().rev().map_while(move |(at, line)| {
        if line.is_blank() {
            blanks += 1;
            return (blanks < 3).then_some(None);
        }
        let mut cells = cells_of(line, shape, width);
        if cells.iter().all(|cell| is_missing(cell.as_bytes())) {
            // A rule of dashes under the names.
            return Some(None);
        }
        if let Some(key) = cells.first_mut().filter(|cell| is_key(cell)) {
            // `Titles=` before the names of the other columns; any other key is no head.
            let lower = key.to_lowercase();
            if width < 2
                || !["title", "name", "label", "channel"].iter().any(|word| lower.contains(word))
            {
                return Some(None);
            }
            key.clear();
        }
        let written = cells.iter().filter(|cell| !cell.is_empty()).count();
        let fits = written > 0
            && written <= width
            && cells.len() + 1 >= filled(&shape.columns)
            && written * 2 >= width;
        // Across an empty line only what speaks like a head is one; a remark needs every cell.
        let speaks = cells.first().is_some_and(|name| {
            let (stem, found) = name_and_unit(name);
            names_time(&stem) || found.is_some()
        });
        let fits = fits
            && (blanks == 0 || speaks)
            && (!line.is_comment() || width > 1 && written == width && speaks);
        (fits || line.is_comment()).then(|| fits.then_some((at, cells)))
    });
    rows.flatten().peekable()
}

fn cells_of(line: &Line<'_>, shape: &Shape<'_>, width: usize) -> Vec<String> {
    let mut bytes = line.bytes.trim_ascii_start();
    if line.is_comment() {
        bytes = bytes.trim_ascii_start();
        let marks =
            bytes.iter().take_while(|byte| matches!(byte, b'#' | b'%' | b'/' | b' ')).count();
        bytes = bytes.get(marks..).unwrap_or_default();
    } else if shape.delimiter != Delimiter::Space {
        bytes = line.bytes;
    }
    let cells: Vec<String> = Cells::new(bytes, shape.delimiter).map(shown).collect();
    match shape.delimiter {
        Delimiter::Space if cells.len() > width => names_of_several_words(bytes, cells, width),
        _ => cells,
    }
}

/// Names between spaces that hold spaces: parted where there are two, or joined with their brackets.
fn names_of_several_words(line: &[u8], cells: Vec<String>, width: usize) -> Vec<String> {
    let text = String::from_utf8_lossy(line).replace('\t', "  ");
    let parted: Vec<String> = text
        .split("  ")
        .map(str::trim)
        .filter(|name| !name.is_empty())
        .map(str::to_owned)
        .collect();
    if parted.len() == width {
        return parted;
    }
    let mut joined: Vec<String> = Vec::new();
    for cell in &cells {
        match joined.last_mut().filter(|_| cell.starts_with(['(', '[', '{', '/'])) {
            Some(name) => *name = format!("{name} {cell}"),
            None => joined.push(cell.clone()),
        }
    }
    if joined.len() == width { joined } else { cells }
}

/// `Interval=`, `Sample interval: 4 ms`.
fn is_key(cell: &str) -> bool {
    cell.split_once([':', '=']).is_some_and(|(key, value)| {
        let value = value.trim();
        !key.is_empty()
            && (value.is_empty() || value.starts_with(|sign: char| sign.is_ascii_digit()))
    })
}

/// Whether a row holds units: at least half of its cells known ones, the others as short or in brackets.
fn is_unit_row(cells: &[String]) -> bool {
    let written = || cells.iter().filter(|cell| !cell.is_empty());
    let in_brackets = |cell: &String| cell.starts_with(['(', '[']) && cell.ends_with([')', ']']);
    let known = written().filter(|cell| unit(cell).is_some()).count();
    let rest = || written().filter(|cell| unit(cell).is_none());
    written().count() > 0
        && (known == written().count()
            || known * 2 > written().count()
                && rest().all(|cell| in_brackets(cell) || is_short(cell))
            || written().all(in_brackets))
}

/// Whether a word is as short as the sign of a unit, `degC`, `%`, `bpm`.
fn is_short(word: &str) -> bool {
    word.chars().count() <= 4 && !word.contains([' ', '_'])
}

#[cfg(test)]
mod tests {
    use super::super::super::{Choices, TimeUnit, ValueUnit};
    use super::*;

    fn header(text: &str) -> (Vec<String>, Vec<Option<Unit>>) {
        let shape = super::super::shape::find(text.as_bytes(), &Choices::default()).unwrap();
        let header = read(&shape, shape.columns.len());
        (header.names, header.units)
    }

    #[test]
    fn names_and_units_stand_in_one_row_or_two() {
        let units =
            vec![Some(Unit::Time(TimeUnit::Second)), Some(Unit::Value(ValueUnit::Millivolt))];
        for text in [
            "time (s),ecg (mV)\n0.0,1.5\n0.1,2.5\n",
            "time,ecg\ns,mV\n0.0,1.5\n0.1,2.5\n",
            "s,mV\ntime,ecg\n0.0,1.5\n0.1,2.5\n",
            "# time [s],ecg [mV]\n0.0,1.5\n0.1,2.5\n",
        ] {
            assert_eq!(
                header(text),
                (vec!["time".to_owned(), "ecg".to_owned()], units.clone()),
                "{text}"
            );
        }
    }

    #[test]
    fn a_table_without_a_head_has_no_names() {
        assert_eq!(header("# just a remark\n0.0,1.5\n0.1,2.5\n").0, ["", ""]);
    }
}
