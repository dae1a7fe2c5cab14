//! What speaks against the reading that won: marks that stand in two roles, so that halves of numbers would
//! open as samples.
//!
//! Such a table is refused with its line: any choice between two readings would be a guess at the numbers
//! themselves. Only marks between thousands are settled here, where whole numbers grow past 999.

use super::super::{DecimalMark, Delimiter};
use super::fault::TextError;
use super::lines::{Cells, Line};
use super::number::{Cell, number, read};

/// A mark that stands in two roles, and the first line that shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Doubt {
    /// Commas between columns and before decimals.
    CommaForBoth(usize),
    /// Commas between columns and between thousands.
    CommaInThousands(usize),
    /// A point before the decimals of one column, a comma before those of another.
    BothMarks(usize),
}

impl Doubt {
    /// The same as an error of the file.
    pub(super) fn error(self, file: String) -> TextError {
        match self {
            Self::CommaForBoth(line) => TextError::CommaForBoth { line, file },
            Self::CommaInThousands(line) => TextError::CommaInThousands { line, file },
            Self::BothMarks(line) => TextError::BothMarks { line, file },
        }
    }
}

/// What is doubtful about rows read with this delimiter. `named`: the head has as many names as
/// the rows have cells.
pub(super) fn doubt(rows: &[&Line<'_>], delimiter: Delimiter, named: bool) -> Option<Doubt> {
    if delimiter == Delimiter::Comma {
        if let Some(line) = comma_in_thousands(rows) {
            return Some(Doubt::CommaInThousands(line));
        }
        if let Some(line) = comma_for_both(rows).filter(|_| !named) {
            return Some(Doubt::CommaForBoth(line));
        }
    }
    let mut mixed = rows.iter().filter(|line| has_both_marks(line, delimiter));
    let first = mixed.next()?.number;
    (mixed.count() >= 2.max(rows.len() / 20)).then_some(Doubt::BothMarks(first))
}

/// Three cells and more without any point, where many look like the decimals of the cell before, or like
/// the decimals of one number and the whole of the next with a sign between.
fn comma_for_both(rows: &[&Line<'_>]) -> Option<usize> {
    if rows.iter().any(|line| line.bytes.contains(&b'.')) {
        return None;
    }
    let is_half = |line: &&&Line<'_>| {
        let cells: Vec<&[u8]> = Cells::new(line.bytes, Delimiter::Comma).collect();
        let halves = |pair: &[&[u8]]| matches!(pair, [whole, half] if is_half(whole, half));
        cells.len() > 2 && (cells.windows(2).any(halves) || cells.iter().any(|cell| joins(cell)))
    };
    (rows.iter().filter(is_half).count() * 20 > rows.len())
        .then(|| rows.first().map(|line| line.number))
        .flatten()
}

/// Whether a cell is a whole number that begins with 0, after one that does not: more likely its decimals.
pub(super) fn is_half(before: &[u8], cell: &[u8]) -> bool {
    let digits = before.iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
    let whole = before.get(before.len() - digits..).unwrap_or_default();
    cell.len() > 1
        && cell.first() == Some(&b'0')
        && cell.iter().all(u8::is_ascii_digit)
        && (whole == b"0" || whole.first().is_some_and(|byte| *byte != b'0'))
}

/// `004|-0`: digits, a sign that no number or word has, digits.
fn joins(cell: &[u8]) -> bool {
    let digits = |byte: &u8| byte.is_ascii_digit();
    let Some(from) = cell.iter().position(|byte| !digits(byte)).filter(|from| *from > 0) else {
        return false;
    };
    let Some(to) = cell.iter().rposition(|byte| !digits(byte)) else { return false };
    let between = cell.get(from..=to).unwrap_or_default();
    let strange = |byte: &u8| byte.is_ascii_punctuation() && !b"-+.".contains(byte);
    to + 1 < cell.len()
        && !between.iter().any(u8::is_ascii_alphanumeric)
        && between.iter().any(strange)
}

/// A row that has one cell more than the one before, where that counted to 999: `996,0.5` and `1,000,0.6`.
fn comma_in_thousands(rows: &[&Line<'_>]) -> Option<usize> {
    let first = |line: &Line<'_>| {
        number(Cells::new(line.bytes, Delimiter::Comma).next()?, DecimalMark::Point)
    };
    let grows = |pair: &[&Line<'_>]| {
        let [before, after] = pair else { return false };
        let mut cells = Cells::new(after.bytes, Delimiter::Comma);
        let begins = cells.next() == Some(b"1")
            && cells.next().is_some_and(|cell| {
                cell.len() == 3 && cell.starts_with(b"0") && cell.iter().all(u8::is_ascii_digit)
            });
        begins
            && first(before).is_some_and(|value| (900.0..1000.0).contains(&value))
            && cells.count() + 1 == Cells::new(before.bytes, Delimiter::Comma).count()
    };
    rows.windows(2).find(|pair| grows(pair)).and_then(|pair| pair.last()).map(|line| line.number)
}

/// Whether one cell can only have a decimal point and another only a decimal comma.
fn has_both_marks(line: &Line<'_>, delimiter: Delimiter) -> bool {
    let only = |mark: DecimalMark, other: DecimalMark| {
        Cells::new(line.bytes, delimiter)
            .any(|cell| number(cell, mark).is_some() && read(cell, other) == Cell::Text)
    };
    only(DecimalMark::Point, DecimalMark::Comma) && only(DecimalMark::Comma, DecimalMark::Point)
}

/// Whether the mark stands between thousands: in one column, whole numbers up to 999 have none, and all
/// from 1000 on have it before their last three digits.
pub(super) fn parts_thousands(
    rows: &[&Line<'_>],
    delimiter: Delimiter,
    mark: DecimalMark,
    column: usize,
) -> bool {
    let (sign, other) = match mark {
        DecimalMark::Point => (b'.', DecimalMark::Comma),
        DecimalMark::Comma => (b',', DecimalMark::Point),
    };
    let (mut plain, mut parted) = (0, 0);
    for line in rows {
        let Some(cell) = Cells::new(line.bytes, delimiter).nth(column) else { continue };
        let Some(value) = number(cell, mark) else { continue };
        if cell.contains(&sign) {
            if !matches!(read(cell, other), Cell::Grouped(_)) {
                return false;
            }
            parted += 1;
        } else if value.abs() >= 1000.0 {
            return false;
        } else {
            plain += usize::from(value.abs() >= 100.0);
        }
    }
    plain >= 3 && parted >= 3
}

/// Whether every row is a whole number, some below 0, and a single digit: one decimal after a comma.
pub(super) fn has_one_decimal(rows: &[&Line<'_>]) -> bool {
    let is_one = |line: &&Line<'_>| {
        Cells::new(line.bytes, Delimiter::Comma)
            .nth(1)
            .is_some_and(|cell| matches!(cell, [digit] if digit.is_ascii_digit()))
    };
    rows.iter().all(is_one)
        && rows.iter().any(|line| line.bytes.trim_ascii_start().starts_with(b"-"))
}

#[cfg(test)]
mod tests {
    use super::super::lines::Lines;
    use super::*;

    fn found(text: &str, delimiter: Delimiter) -> Option<Doubt> {
        let lines: Vec<Line<'_>> = Lines::new(text.as_bytes()).collect();
        doubt(&lines.iter().collect::<Vec<_>>(), delimiter, false)
    }

    #[test]
    fn halves_of_numbers_are_noticed() {
        let comma = Delimiter::Comma;
        let both = Some(Doubt::CommaForBoth(1));
        for text in [
            "0,000,0,0449\n0,005,0,0606\n",
            "0,0,0449\n4,0,0606\n",
            "0,000|-0,106\n0,004|-0,104\n",
            "0,000/0,106\n0,004/0,104\n",
        ] {
            assert_eq!(found(text, comma), both, "{text}");
        }
        assert_eq!(found("996,0.5\n1,000,0.6\n", comma), Some(Doubt::CommaInThousands(2)));
        let mixed = "0.004;0,5\n0.008;0,6\n0.012;0,7\n";
        assert_eq!(found(mixed, Delimiter::Semicolon), Some(Doubt::BothMarks(1)));
    }

    #[test]
    fn whole_numbers_padded_with_zeros_are_no_halves() {
        for text in
            ["0001,0512,0498\n0002,0513,0497\n", "4,512,498\n8,513,497\n", "2026-03-02,4,512\n"]
        {
            assert_eq!(found(text, Delimiter::Comma), None, "{text}");
        }
    }

    #[test]
    fn a_mark_between_thousands_shows_where_numbers_grow() {
        let parts = |text: &str| {
            let lines: Vec<Line<'_>> = Lines::new(text.as_bytes()).collect();
            let rows: Vec<&Line<'_>> = lines.iter().collect();
            parts_thousands(&rows, Delimiter::Semicolon, DecimalMark::Point, 0)
        };
        assert!(parts("988\n992\n996\n1.000\n1.004\n1.008\n"));
        assert!(!parts("988\n992\n996\n1.5\n1.004\n1.008\n1.012\n"));
        assert!(!parts("0.988\n0.992\n0.996\n1.000\n1.004\n1.008\n"));
    }
}
