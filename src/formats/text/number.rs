//! One cell: a number, a moment, a sign that a value is missing, or text.
//!
//! A point or a comma may stand before the decimals. The other of the two, an apostrophe or a space
//! may part the thousands, but only where it can't be anything else: the first group has one to
//! three digits and no leading zero, each other exactly three. So `1,234.5` is a number and `0,004`
//! with a decimal point is not. Brackets around a number are the minus of accounts, `(0.25)`. Infinite and unrepresentable values count as missing.

use super::super::DecimalMark;
use super::clock::{Moment, moment};
use super::unit_words::{Unit, unit};

/// What a cell holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Cell {
    /// A finite number.
    Number(f64),
    /// A finite number with its thousands parted.
    Grouped(f64),
    /// A number below 0, in brackets in place of a minus.
    Bracketed(f64),
    /// A time of day, or a date and time.
    Moment(Moment),
    /// Nothing, or a sign that there is no value.
    Missing,
    /// Anything else.
    Text,
}

/// Signs for a value that is not there, in lower case.
const MISSING: [&str; 16] = [
    "nan",
    "-nan",
    "na",
    "n/a",
    "#n/a",
    "null",
    "none",
    "nil",
    "missing",
    "inf",
    "-inf",
    "+inf",
    "infinity",
    "-infinity",
    "leads off",
    "lead off",
];

/// Reads a cell.
pub(super) fn read(cell: &[u8], mark: DecimalMark) -> Cell {
    if let Some(value) = number(cell, mark) {
        return Cell::Number(value);
    }
    if is_missing(cell) {
        return Cell::Missing;
    }
    if let Some(value) = bracketed(cell, mark) {
        return Cell::Bracketed(value);
    }
    if let Some(moment) = moment(cell) {
        return Cell::Moment(moment);
    }
    if let Some(value) = grouped(cell, mark) {
        return Cell::Grouped(value);
    }
    with_unit(cell, mark).map_or(Cell::Text, |(value, _)| Cell::Number(value))
}

/// `(0.25)` is -0.25.
fn bracketed(cell: &[u8], mark: DecimalMark) -> Option<f64> {
    let inside = cell.strip_prefix(b"(")?.strip_suffix(b")")?.trim_ascii();
    let has_sign = !inside.first()?.is_ascii_digit();
    number(inside, mark).or_else(|| grouped(inside, mark)).filter(|_| !has_sign).map(|value| -value)
}

/// A number with its unit in the same cell, `0.25 mV`.
pub(super) fn with_unit(cell: &[u8], mark: DecimalMark) -> Option<(f64, Unit)> {
    let text = std::str::from_utf8(cell).ok()?;
    let (digits, word) = text.split_at(text.rfind(|sign: char| sign.is_ascii_digit())? + 1);
    if word.is_empty() || word.len() > 16 {
        return None;
    }
    Some((number(digits.as_bytes(), mark)?, unit(word)?))
}

/// A number without thousands marks.
#[inline]
pub(super) fn number(cell: &[u8], mark: DecimalMark) -> Option<f64> {
    let value = match mark {
        DecimalMark::Point => parsed(cell)?,
        DecimalMark::Comma => {
            let mut ascii = [0_u8; 40];
            let place = ascii.get_mut(..cell.len())?;
            for (to, &from) in place.iter_mut().zip(cell) {
                *to = match from {
                    b',' => b'.',
                    b'.' => return None,
                    other => other,
                };
            }
            parsed(place)?
        }
    };
    value.is_finite().then_some(value)
}

fn parsed(cell: &[u8]) -> Option<f64> {
    std::str::from_utf8(cell).ok()?.parse().ok()
}

/// Whether a cell says that there is no value.
pub(super) fn is_missing(cell: &[u8]) -> bool {
    // A digit rules it out, and nearly every cell has one.
    if cell.len() > 20 || cell.iter().any(u8::is_ascii_digit) {
        return false;
    }
    let Ok(text) = std::str::from_utf8(cell) else { return false };
    MISSING.iter().any(|word| text.eq_ignore_ascii_case(word))
        || text.chars().all(|sign| sign.is_ascii_punctuation() || "–—…".contains(sign))
        || (text.starts_with('#') && text.ends_with(['!', '?']))
}

/// A number with marks between its thousands, or with a typographic minus.
fn grouped(cell: &[u8], mark: DecimalMark) -> Option<f64> {
    let text = std::str::from_utf8(cell).ok()?;
    if text.len() > 40 || !text.contains(|sign: char| sign.is_ascii_digit()) {
        return None;
    }
    let text = text.replace('\u{2212}', "-");
    let (decimal, other) = match mark {
        DecimalMark::Point => ('.', ','),
        DecimalMark::Comma => (',', '.'),
    };
    let (whole, decimals) = text.split_once(decimal).unwrap_or((text.as_str(), ""));
    let digits = whole.trim_start_matches(['-', '+']);
    let separator = digits.chars().find(|sign| !sign.is_ascii_digit());
    if let Some(separator) = separator {
        if separator != other && !"'\u{2019} \u{a0}\u{202f}\u{2009}".contains(separator) {
            return None;
        }
        let mut groups = digits.split(separator);
        let first = groups.next()?;
        if !(1..=3).contains(&first.len())
            || first.starts_with('0')
            || !groups.all(|group| group.len() == 3)
        {
            return None;
        }
    }
    let mut plain: String = whole.chars().filter(|sign| Some(*sign) != separator).collect();
    plain.push('.');
    plain.push_str(decimals);
    if !plain.starts_with(|sign: char| sign == '-' || sign == '+' || sign.is_ascii_digit()) {
        return None;
    }
    number(plain.as_bytes(), DecimalMark::Point)
}

/// How many digits follow the decimal mark.
pub(super) fn decimals(cell: &[u8]) -> usize {
    let end = cell.iter().rposition(u8::is_ascii_digit).map_or(0, |last| last + 1);
    let cell = cell.get(..end).unwrap_or_default();
    let digits = cell.iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
    let before = cell.len().checked_sub(digits + 1).and_then(|place| cell.get(place));
    if matches!(before, Some(b'.' | b',')) { digits } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_decimal_mark_is_one_of_two() {
        assert_eq!(read(b"-0,25", DecimalMark::Comma), Cell::Number(-0.25));
        assert_eq!(read(b"+1.5e-3", DecimalMark::Point), Cell::Number(0.0015));
        assert_eq!(read(b"0,25", DecimalMark::Point), Cell::Text);
        assert_eq!(read(b"0.25", DecimalMark::Comma), Cell::Text);
    }

    #[test]
    fn thousands_are_parted_only_where_nothing_else_fits() {
        assert_eq!(read(b"1,234.5", DecimalMark::Point), Cell::Grouped(1234.5));
        assert_eq!(read("-1\u{a0}234,5".as_bytes(), DecimalMark::Comma), Cell::Grouped(-1234.5));
        assert_eq!(read(b"1'234'567", DecimalMark::Point), Cell::Grouped(1_234_567.0));
        assert_eq!(read(b"(0,25)", DecimalMark::Comma), Cell::Bracketed(-0.25));
        assert_eq!(read(b"(1,234.5)", DecimalMark::Point), Cell::Bracketed(-1234.5));
        assert_eq!(read(b"(-0.25)", DecimalMark::Point), Cell::Text);
        assert_eq!(read(b"12,34", DecimalMark::Point), Cell::Text);
        assert_eq!(read(b"0,234", DecimalMark::Point), Cell::Text);
    }

    #[test]
    fn a_unit_may_stand_in_the_cell() {
        assert_eq!(read(b"-0,25 mV", DecimalMark::Comma), Cell::Number(-0.25));
        assert_eq!(read(b"4ms", DecimalMark::Point), Cell::Number(4.0));
        assert_eq!(read(b"4 beats", DecimalMark::Point), Cell::Text);
    }

    #[test]
    fn missing_values_have_many_names() {
        for name in
            ["", "--", "NaN", "n/a", "!", "#VALUE!", "inf", "NULL", "—", "leads off", "1e999"]
        {
            let cell = read(name.as_bytes(), DecimalMark::Point);
            assert!(
                cell == Cell::Missing || name == "1e999" && cell == Cell::Text,
                "{name}: {cell:?}"
            );
        }
    }
}
