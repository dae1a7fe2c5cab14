//! A text cut into lines, and a line into cells, in place.
//!
//! A row never runs over the end of a line here. The `csv` crate follows the letter of RFC 4180, where
//! a quoted cell may hold line ends: one lost quote in a sensor's log would then swallow the rest
//! of the file. It also can't split at runs of spaces, and counts no lines that end in a bare CR.
//! So lines end at LF, CRLF or CR, and a quote that is never closed is an ordinary character.

use super::super::Delimiter;

/// One line, without its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Line<'a> {
    /// Counted from 1 at the top of the file.
    pub(super) number: usize,
    /// What stands in it, as UTF-8.
    pub(super) bytes: &'a [u8],
    /// Whether a line end follows; only the last line may lack it.
    pub(super) ended: bool,
}

impl Line<'_> {
    /// Whether there is nothing but white space in it.
    pub(super) fn is_blank(&self) -> bool {
        self.bytes.iter().all(u8::is_ascii_whitespace)
    }

    /// Whether it is a remark: `#`, `%` or `//` comes first.
    pub(super) fn is_comment(&self) -> bool {
        let text = self.bytes.trim_ascii_start();
        matches!(text.first(), Some(b'#' | b'%')) || text.starts_with(b"//")
    }
}

/// The lines of a text, in order.
#[derive(Clone, Debug)]
pub(super) struct Lines<'a> {
    rest: &'a [u8],
    number: usize,
}

impl<'a> Lines<'a> {
    pub(super) const fn new(text: &'a [u8]) -> Self {
        Self { rest: text, number: 0 }
    }

    /// How many bytes are left.
    pub(super) const fn left(&self) -> usize {
        self.rest.len()
    }
}

impl<'a> Iterator for Lines<'a> {
    type Item = Line<'a>;

    fn next(&mut self) -> Option<Line<'a>> {
        if self.rest.is_empty() {
            return None;
        }
        self.number += 1;
        let end = memchr::memchr2(b'\n', b'\r', self.rest);
        let (bytes, tail) = self.rest.split_at_checked(end.unwrap_or(self.rest.len()))?;
        let skipped = if tail.starts_with(b"\r\n") { 2 } else { 1 };
        self.rest = tail.get(skipped..).unwrap_or_default();
        Some(Line { number: self.number, bytes, ended: end.is_some() })
    }
}

/// The cells of a line, each without white space and quotes around it.
#[derive(Clone, Debug)]
pub(super) struct Cells<'a> {
    rest: Option<&'a [u8]>,
    delimiter: Delimiter,
}

impl<'a> Cells<'a> {
    pub(super) fn new(line: &'a [u8], delimiter: Delimiter) -> Self {
        // A table drawn with bars has one at both ends of each row as well.
        let drawn = match delimiter {
            Delimiter::Bar => line.trim_ascii().strip_prefix(b"|"),
            _ => None,
        };
        let inside = drawn.and_then(|row| row.strip_suffix(b"|"));
        Self { rest: Some(inside.unwrap_or(line)), delimiter }
    }
}

impl<'a> Iterator for Cells<'a> {
    type Item = &'a [u8];

    #[inline]
    fn next(&mut self) -> Option<&'a [u8]> {
        let rest = self.rest?;
        let separator = match self.delimiter {
            Delimiter::Comma => b',',
            Delimiter::Semicolon => b';',
            Delimiter::Tab => b'\t',
            Delimiter::Bar => b'|',
            Delimiter::Space => return self.next_word(rest),
        };
        let from = quoted_part(rest);
        let after = rest.get(from..).unwrap_or_default();
        let (cell, rest) = match after.iter().position(|&byte| byte == separator) {
            Some(ahead) => (rest.get(..from + ahead), rest.get(from + ahead + 1..)),
            None => (Some(rest), None),
        };
        self.rest = rest;
        Some(unquoted(cell.unwrap_or_default().trim_ascii()))
    }
}

impl<'a> Cells<'a> {
    /// The next cell where any number of spaces and tabs part two.
    fn next_word(&mut self, rest: &'a [u8]) -> Option<&'a [u8]> {
        let rest = rest.trim_ascii_start();
        let from = quoted_part(rest);
        let after = rest.get(from..).unwrap_or_default();
        let end = after.iter().position(|byte| matches!(byte, b' ' | b'\t'));
        let (cell, rest) = rest.split_at_checked(end.map_or(rest.len(), |ahead| from + ahead))?;
        self.rest = Some(rest).filter(|rest| !rest.is_empty());
        (!cell.is_empty()).then(|| unquoted(cell))
    }
}

/// How many bytes a quoted cell at the start takes, both quotes included; 0 when it isn't quoted.
#[inline]
fn quoted_part(rest: &[u8]) -> usize {
    if !matches!(rest.first(), Some(b'"' | b' ')) {
        return 0;
    }
    let blanks = rest.iter().take_while(|byte| **byte == b' ').count();
    if rest.get(blanks) != Some(&b'"') {
        return 0;
    }
    let mut at = blanks + 1;
    while let Some(ahead) = memchr::memchr(b'"', rest.get(at..).unwrap_or_default()) {
        at += ahead + 1;
        if rest.get(at) != Some(&b'"') {
            return at;
        }
        at += 1;
    }
    0
}

pub(super) fn unquoted(cell: &[u8]) -> &[u8] {
    match cell {
        [b'"', inside @ .., b'"'] | [b'\'', inside @ .., b'\''] => inside.trim_ascii(),
        _ => cell,
    }
}

/// A cell as it is shown.
pub(super) fn shown(cell: &[u8]) -> String {
    String::from_utf8_lossy(cell).replace("\"\"", "\"")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(line: &str, delimiter: Delimiter) -> Vec<String> {
        Cells::new(line.as_bytes(), delimiter).map(shown).collect()
    }

    #[test]
    fn every_kind_of_line_end_counts_once() {
        let lines: Vec<_> = Lines::new(b"a\r\nb\rc\n\nd").collect();
        let texts: Vec<_> = lines.iter().map(|line| line.bytes).collect();
        assert_eq!(texts, [b"a".as_slice(), b"b", b"c", b"", b"d"]);
        assert_eq!(lines.last().map(|line| (line.number, line.ended)), Some((5, false)));
    }

    #[test]
    fn a_delimiter_inside_quotes_belongs_to_the_cell() {
        assert_eq!(cells(r#""0,004", "0,05""#, Delimiter::Comma), ["0,004", "0,05"]);
        assert_eq!(cells(r#""say ""hi""",1"#, Delimiter::Comma), [r#"say "hi""#, "1"]);
    }

    #[test]
    fn a_quote_that_is_never_closed_costs_nothing_else() {
        assert_eq!(cells(r#""loose,1"#, Delimiter::Comma), ["\"loose", "1"]);
    }

    #[test]
    fn runs_of_spaces_are_one_delimiter_and_empty_cells_stand() {
        assert_eq!(cells("  0.1   0.2 \t 3 ", Delimiter::Space), ["0.1", "0.2", "3"]);
        assert_eq!(cells("| 0.1 || 2 |", Delimiter::Bar), ["0.1", "", "2"]);
        assert_eq!(cells("0.1|2|", Delimiter::Bar), ["0.1", "2", ""]);
        assert_eq!(cells("0,1;;2;", Delimiter::Semicolon), ["0,1", "", "2", ""]);
    }
}
