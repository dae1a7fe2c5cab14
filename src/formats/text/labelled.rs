//! Rows whose values stand beside their names: `t:5996,ecg:526`, `t=5996 ecg=526`, `{"t": 5996, "ecg": 526}`.
//!
//! The names come off and become those of the columns. Lines stay where they are, so that notes name the
//! right ones. Only numbers are values here: `Rate: 250 Hz` and `09:14:05` stay as they stand.

use super::super::DecimalMark;
use super::lines::{Line, Lines, unquoted};
use super::number::{is_missing, number};

/// How many lines are looked at, and how many of them at least have to be such rows.
const LOOKED: usize = 60;
const FEWEST: usize = 10;

/// A table whose names came off its rows.
#[derive(Debug, PartialEq)]
pub(super) struct Labelled {
    pub(super) names: Vec<String>,
    /// The rows with tabs between their values.
    pub(super) text: String,
}

/// Takes the names off; `None` when most rows have none.
pub(super) fn unlabelled(text: &[u8]) -> Option<Labelled> {
    let lines: Vec<Line<'_>> =
        Lines::new(text).filter(|line| !line.is_blank()).take(LOOKED).collect();
    let rows: Vec<Vec<(&str, &str)>> = lines.iter().filter_map(|line| pairs(line.bytes)).collect();
    let names = |row: &[(&str, &str)]| row.iter().map(|(name, _)| (*name).to_owned()).collect();
    let first: Vec<String> = names(rows.last()?);
    let same = rows.iter().filter(|row| names(row) == first).count();
    if same < FEWEST || same * 2 < lines.len() {
        return None;
    }
    let mut plain = String::with_capacity(text.len());
    for line in Lines::new(text) {
        match pairs(line.bytes).filter(|row| names(row) == first) {
            Some(row) => {
                let values: Vec<&str> = row.into_iter().map(|(_, value)| value).collect();
                plain += &values.join("\t");
            }
            None => plain += &String::from_utf8_lossy(line.bytes),
        }
        if line.ended {
            plain.push('\n');
        }
    }
    Some(Labelled { names: first, text: plain })
}

/// The names and values of a row; `None` when any part of it is not such a pair.
fn pairs(line: &[u8]) -> Option<Vec<(&str, &str)>> {
    let line = std::str::from_utf8(line).ok()?.trim().trim_end_matches([',', ';']);
    let row = line.strip_prefix('{').and_then(|row| row.strip_suffix('}')).unwrap_or(line);
    let commas = row.contains([',', ';', '\t']);
    let parts = row.split(|sign: char| matches!(sign, ',' | ';' | '\t') || sign == ' ' && !commas);
    parts.map(str::trim).filter(|part| !part.is_empty()).map(pair).collect()
}

fn pair(part: &str) -> Option<(&str, &str)> {
    let (name, value) = part.split_once([':', '='])?;
    let (name, value) = (bare(name)?, bare(value)?);
    let is_value = number(value.as_bytes(), DecimalMark::Point).is_some()
        || is_missing(value.as_bytes()) && !value.is_empty();
    (name.starts_with(char::is_alphabetic) && is_value).then_some((name, value))
}

fn bare(part: &str) -> Option<&str> {
    std::str::from_utf8(unquoted(part.trim().as_bytes())).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_come_off_their_values() {
        for row in ["t:4,ecg:-0.5", "t=4 ecg=-0.5", "{\"t\": 4, \"ecg\": -0.5},", "t: 4; ecg: -0.5"]
        {
            let text = format!("log\n{}", format!("{row}\n").repeat(12));
            let found = unlabelled(text.as_bytes()).unwrap();
            assert_eq!(found.names, ["t", "ecg"], "{row}");
            assert_eq!(found.text, format!("log\n{}", "4\t-0.5\n".repeat(12)), "{row}");
        }
    }

    #[test]
    fn statements_and_clocks_are_no_rows() {
        for row in ["Rate: 250 Hz", "09:14:05,512", "0.004,0.5", "ecg", ""] {
            assert_eq!(unlabelled(format!("{row}\n").repeat(30).as_bytes()), None, "{row}");
        }
    }
}
