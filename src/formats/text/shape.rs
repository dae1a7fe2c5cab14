//! The shape of the table: what separates columns, what stands before decimals, where rows begin.
//!
//! Every pairing of delimiter and decimal mark is tried on the first lines. A line counts for as much
//! as the share of its cells that are values, so the right pairing wins by reading whole rows where
//! the others read halves. Two traps need a rule: `48213,518` may be two columns or one decimal
//! number, and `0,0497` read as two columns shows whole numbers that begin with 0, which nobody
//! writes. Preambles and footers never win: they are short and made of text.

use super::super::{Choices, DecimalMark, Delimiter};
use super::doubt::{Doubt, doubt, has_one_decimal, parts_thousands};
use super::lines::{Cells, Line, Lines};
use super::number::{Cell, decimals, read, with_unit};
use super::row::{Row, kept, rows_of, usual_width};
use super::unit_words::{Unit, names_time, unit};

/// How many lines are looked at.
const LINES: usize = 1500;

/// What separates and where it begins.
#[derive(Debug)]
pub(super) struct Shape<'a> {
    pub(super) delimiter: Delimiter,
    pub(super) mark: DecimalMark,
    /// The lines looked at, with those above the table.
    pub(super) lines: Vec<Line<'a>>,
    /// The place in `lines` of the first row of numbers.
    pub(super) first_row: usize,
    /// What speaks against this reading, if anything.
    pub(super) doubt: Option<Doubt>,
    /// What the columns hold, judged by the lines looked at.
    pub(super) columns: Vec<ColumnSample>,
}

/// The cells of one column in the lines looked at.
#[derive(Clone, Debug, Default)]
pub(super) struct ColumnSample {
    pub(super) numbers: usize,
    pub(super) moments: usize,
    pub(super) missing: usize,
    pub(super) texts: usize,
    /// Its numbers, in order.
    pub(super) values: Vec<f64>,
    /// The most digits after the decimal mark.
    pub(super) decimals: usize,
    /// The unit that stands in its cells.
    pub(super) unit: Option<Unit>,
}

impl ColumnSample {
    /// Whether nothing stands in it.
    pub(super) const fn is_empty(&self) -> bool {
        self.numbers + self.moments + self.texts == 0
    }
}

/// Finds the shape; `None` when no line holds a number.
pub(super) fn find<'a>(text: &'a [u8], choices: &Choices) -> Option<Shape<'a>> {
    let lines: Vec<Line<'a>> = lines_to_look_at(text);
    let pairings = Delimiter::ALL
        .into_iter()
        .flat_map(|delimiter| [(delimiter, DecimalMark::Point), (delimiter, DecimalMark::Comma)])
        .filter(|(delimiter, mark)| {
            choices.delimiter.is_none_or(|chosen| chosen == *delimiter)
                && choices.decimal_mark.is_none_or(|chosen| chosen == *mark)
        });
    let mut best: Option<(f64, Delimiter, DecimalMark, Vec<Row>)> = None;
    for (delimiter, mark) in pairings {
        let rows = rows_of(&lines, delimiter, mark);
        let score = score(&rows, &lines, delimiter, mark);
        if score > 0.0 && best.as_ref().is_none_or(|(known, ..)| score > *known) {
            best = Some((score, delimiter, mark, rows));
        }
    }
    let (_, delimiter, mut mark, mut rows) = best?;
    let parts = |column| parts_thousands(&kept(&lines, &rows), delimiter, mark, column);
    if choices.decimal_mark.is_none() && (0..usual_width(&rows)).any(parts) {
        mark = mark.other();
        rows = rows_of(&lines, delimiter, mark);
    }
    let first_row = first_row(&rows, &lines)?;
    let named = head(&lines, first_row, delimiter).len() == usual_width(&rows);
    let doubt = doubt(&kept(&lines, &rows), delimiter, named);
    let doubt = doubt.filter(|_| choices.delimiter.is_none());
    let columns = sample(&lines, &rows, first_row, delimiter, mark);
    Some(Shape { delimiter, mark, lines, first_row, doubt, columns })
}

/// The cells of the line with text above the first row; none when there is no such line.
fn head<'a>(lines: &[Line<'a>], first_row: usize, delimiter: Delimiter) -> Vec<&'a [u8]> {
    let above = lines.get(..first_row).unwrap_or_default();
    let line = above.iter().rev().find(|line| !line.is_blank() && !line.is_comment());
    line.map_or_else(Vec::new, |line| Cells::new(line.bytes, delimiter).collect())
}

/// The first lines, or as many after the last of those that hold no digit: preambles may be long.
fn lines_to_look_at(text: &[u8]) -> Vec<Line<'_>> {
    let begins_with_number = |line: &Line<'_>| {
        let sign = |byte: &&u8| !matches!(byte, b'-' | b'+' | b'.' | b'"' | b'[' | b' ' | b'\t');
        line.bytes.iter().find(sign).is_some_and(u8::is_ascii_digit)
    };
    let mut lines = Lines::new(text);
    let mut looked: Vec<Line<'_>> = lines.by_ref().take(LINES).collect();
    // A table that begins here has rows at the end of what was looked at.
    while !looked.iter().rev().take(LINES / 10).any(begins_with_number) {
        let before = looked.len();
        looked.extend(lines.by_ref().take(LINES));
        if looked.len() == before {
            break;
        }
    }
    looked
}

/// `ecg, mV`: two cells, but one name.
fn is_name_and_unit(head: &[&[u8]]) -> bool {
    let [name, last] = head else { return false };
    let (name, last) = (String::from_utf8_lossy(name), String::from_utf8_lossy(last));
    unit(&last).is_some() && unit(&name).is_none() && !names_time(&name)
}

/// How well a pairing reads the lines; ties are parted by small bonuses.
fn score(rows: &[Row], lines: &[Line<'_>], delimiter: Delimiter, mark: DecimalMark) -> f64 {
    let read = rows.iter().filter(|row| row.share() > 0.0).count();
    let usual = usual_width(rows);
    let total: f64 = rows
        .iter()
        .map(|row| {
            row.share() * if row.cells == usual { 1.0 } else { 0.8 }
                - 0.3 * f64::from(u8::from(row.grouped > 0))
        })
        .sum();
    let head = first_row(rows, lines).map_or_else(Vec::new, |first| head(lines, first, delimiter));
    // A head with a name for each cell speaks for them, unless the last is the unit: `ecg, mV`.
    let named = head.len() == usual && !is_name_and_unit(&head);
    let odd = rows.iter().filter(|row| row.odd).count();
    let halves = delimiter == Delimiter::Comma
        && !named
        && (odd * 100 > read || usual == 2 && has_one_decimal(&kept(lines, rows)));
    let total = if halves { total * 0.6 } else { total };
    // A head with as many cells as the rows speaks for the delimiter, one with another number against it.
    let bonus = match head.len() {
        0 => 0.0,
        cells if cells == usual || usual == 1 && mark == DecimalMark::Point => 0.02,
        _ => 0.0,
    } + 0.01 * f64::from(u8::from(usual > 1))
        + 0.004 * f64::from(u8::from(mark == DecimalMark::Point))
        + match delimiter {
            // With one column it makes no difference; then the least surprising.
            Delimiter::Comma if usual == 1 && mark == DecimalMark::Point => 0.003,
            Delimiter::Semicolon if usual == 1 && mark == DecimalMark::Comma => 0.003,
            Delimiter::Tab => 0.002,
            Delimiter::Semicolon | Delimiter::Bar => 0.001,
            Delimiter::Comma | Delimiter::Space => 0.0,
        };
    total * (1.0 + bonus)
}

/// The first row as full of values as rows usually are, after which at least half of the next lines
/// are rows as well. `Points,2000` above a table is no row.
fn first_row(rows: &[Row], lines: &[Line<'_>]) -> Option<usize> {
    let usual = usual_width(rows);
    let mut shares: Vec<f64> =
        rows.iter().map(|row| row.share()).filter(|share| *share > 0.0).collect();
    let middle = shares.len() / 2;
    if shares.is_empty() {
        return None;
    }
    let share = *shares.select_nth_unstable_by(middle, f64::total_cmp).1;
    (0..rows.len()).find(|&at| {
        let next = rows.iter().zip(lines).skip(at + 1).filter(|(_, line)| !line.is_blank()).take(6);
        let (good, all) = next
            .fold((0, 0), |(good, all), (row, _)| (good + usize::from(row.share() > 0.0), all + 1));
        let is_first = |row: &Row| {
            row.share() >= share - 0.01 && (row.cells >= usual || usual > 2 && row.cells > 1)
        };
        rows.get(at).is_some_and(is_first) && good * 2 >= all
    })
}

fn sample(
    lines: &[Line<'_>],
    rows: &[Row],
    first_row: usize,
    delimiter: Delimiter,
    mark: DecimalMark,
) -> Vec<ColumnSample> {
    let mut columns = vec![ColumnSample::default(); usual_width(rows)];
    for (line, row) in lines.iter().zip(rows).skip(first_row) {
        if row.share() == 0.0 {
            continue;
        }
        for (cell, column) in Cells::new(line.bytes, delimiter).zip(&mut columns) {
            match read(cell, mark) {
                Cell::Number(value) | Cell::Grouped(value) | Cell::Bracketed(value) => {
                    column.numbers += 1;
                    if column.numbers == 1 {
                        column.unit = with_unit(cell, mark).map(|(_, unit)| unit);
                    }
                    column.values.push(value);
                    column.decimals = column.decimals.max(decimals(cell));
                }
                Cell::Moment(moment) => {
                    column.moments += 1;
                    column.values.push(moment.seconds);
                    column.decimals = column.decimals.max(decimals(cell));
                }
                Cell::Missing => column.missing += 1,
                Cell::Text => column.texts += 1,
            }
        }
    }
    columns
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(text: &str) -> (Delimiter, DecimalMark, usize, usize) {
        let shape = find(text.as_bytes(), &Choices::default()).unwrap();
        (shape.delimiter, shape.mark, shape.columns.len(), shape.lines[shape.first_row].number)
    }

    #[test]
    fn delimiter_and_decimal_mark_are_found_together() {
        use DecimalMark as D;
        use Delimiter as S;
        for (text, found) in [
            ("t,ecg\n0.000,0.05\n0.004,0.06\n", (S::Comma, D::Point, 2, 2)),
            ("Zeit;EKG\n0,000;0,05\n0,004;-0,06\n", (S::Semicolon, D::Comma, 2, 2)),
            ("t\tecg\n0,000\t0,05\n0,004\t-0,06\n", (S::Tab, D::Comma, 2, 2)),
            ("t|ecg\n0,000|0,05\n0,004|-0,06\n", (S::Bar, D::Comma, 2, 2)),
            ("| t | ecg |\n|---|---|\n| 0.0 | 0.5 |\n| 0.1 | 0.6 |\n", (S::Bar, D::Point, 2, 3)),
            ("ms,adc\n4,0512\n8,0498\n", (S::Comma, D::Point, 2, 2)),
            ("47,5\n-12,3\n8,4\n", (S::Semicolon, D::Comma, 1, 1)),
            ("0.000 0.05\n0.004  -0.06\n", (S::Space, D::Point, 2, 1)),
            ("millis,adc\n48213,518\n48216,521\n", (S::Comma, D::Point, 2, 2)),
            ("ecg\n0,0470\n-0,0391\n0,1201\n", (S::Semicolon, D::Comma, 1, 2)),
            ("0.0470\n-0.0391\n", (S::Comma, D::Point, 1, 1)),
            ("\"0,004\",\"0,05\"\n\"0,008\",\"0,06\"\n", (S::Comma, D::Comma, 2, 1)),
            ("2026-03-02 09:14:05.000\t1\n2026-03-02 09:14:05.004\t2\n", (S::Tab, D::Point, 2, 1)),
            ("996\t0.5\n1,000\t0.6\n1,004\t0.7\n", (S::Tab, D::Point, 2, 1)),
        ] {
            assert_eq!(shape(text), found, "{text}");
        }
    }

    #[test]
    fn a_preamble_of_uneven_lines_is_no_row() {
        let text = "Export v2\nPoints,2000\nStart,2026-03-02,09:14:05\n\nt/s,I/uV\n0.000,47.5\n0.004,42.1\n0.008,44\n";
        assert_eq!(shape(text), (Delimiter::Comma, DecimalMark::Point, 2, 6));
    }
}
