//! What is said between the rows: a line of text may begin a run, name it and state its rate.
//!
//! Where the time goes on, only words such as `Run 2` begin a run; where there is no time, the names of
//! the columns said once more do so as well. Where the time starts again, a run begins anyway, and
//! what was said there is its name.

use super::metadata::Stated;
use super::unit_words::{name_and_unit, names_time};

/// How many lines are kept, and how much of each in bytes.
const KEPT: usize = 1000;
const LONGEST: usize = 200;
/// How long a name may be, in characters.
const NAME: usize = 60;

/// The first words of a line that begins a run, in lower case.
const RUN: [&str; 25] = [
    "run",
    "trial",
    "recording",
    "series",
    "session",
    "dataset",
    "data",
    "segment",
    "test",
    "take",
    "measurement",
    "condition",
    "experiment",
    "lauf",
    "messung",
    "versuch",
    "aufnahme",
    "serie",
    "ensayo",
    "prueba",
    "medición",
    "registro",
    "essai",
    "série",
    "mesure",
];

/// A line of text among the rows.
#[derive(Clone, Debug, PartialEq)]
struct Said {
    /// The row that comes next.
    row: usize,
    line: usize,
    text: String,
}

/// The lines of text among the rows, in order.
#[derive(Debug, Default)]
pub(super) struct SaidBetween {
    lines: Vec<Said>,
}

/// A run that begins.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Start {
    pub(super) row: usize,
    pub(super) line: usize,
    /// What it is called.
    pub(super) name: Option<String>,
    /// The rate stated there, in Hz.
    pub(super) rate_hz: Option<f64>,
    /// Whether the words alone say that a run begins.
    pub(super) is_said: bool,
    /// Whether the names of the columns were said once more.
    pub(super) has_head: bool,
}

impl SaidBetween {
    /// Takes in a line that stands before a row.
    pub(super) fn take(&mut self, row: usize, line: usize, bytes: &[u8]) {
        if self.lines.len() < KEPT {
            let bytes = bytes.get(..bytes.len().min(LONGEST)).unwrap_or_default();
            let text = String::from_utf8_lossy(bytes).trim().to_owned();
            self.lines.push(Said { row, line, text });
        }
    }

    /// Each row has become several.
    pub(super) fn unroll(&mut self, rows_a_line: usize) {
        self.lines.iter_mut().for_each(|said| said.row *= rows_a_line);
    }

    /// Follows rows that were dropped; their places rise.
    pub(super) fn drop_rows(&mut self, dropped: &[usize]) {
        for said in &mut self.lines {
            said.row -= dropped.partition_point(|other| *other < said.row).min(said.row);
        }
    }

    /// Takes in the rate and the unit that stand below the last row.
    pub(super) fn tell_below(&self, rows: usize, stated: &mut Stated) {
        for said in self.lines.iter().filter(|said| said.row >= rows) {
            stated.read(&said.text, said.line, false);
        }
    }

    /// What is said at each place. `heads`: the lines that hold the names of the columns.
    pub(super) fn starts(&self, heads: &[String]) -> Vec<Start> {
        let start = |group: &[Said]| {
            let mut start = Start::default();
            let mut stated = Stated::default();
            for said in group {
                (start.row, start.line) = (said.row, said.line);
                let is_said = says_run(&said.text);
                if heads.contains(&said.text) {
                    start.has_head = true;
                    continue;
                }
                stated.read(&said.text, said.line, false);
                let name = name(&said.text);
                if name.is_some() && (is_said && !start.is_said || start.name.is_none()) {
                    start.name = name;
                }
                start.is_said |= is_said;
            }
            start.rate_hz = stated.rate_hz.map(|(hz, _)| hz);
            start
        };
        self.lines.chunk_by(|a, b| a.row == b.row).map(start).collect()
    }
}

/// The line without the marks of a remark, quotes and rules around it.
fn bare(text: &str) -> &str {
    text.trim_matches(|sign: char| "#%;/\"'*=-_<>[](){},|\t ".contains(sign))
}

/// Whether a line says that a run begins: `Run 2: after exercise`, `Trial B`, `--- new run ---`.
pub(super) fn says_run(text: &str) -> bool {
    let mut words =
        bare(text).split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty());
    let is_run = |word: &str| RUN.contains(&word.to_lowercase().as_str());
    let Some(first) = words.next() else { return false };
    let Some(second) = words.next() else { return false };
    let counts = second.len() <= 2 || second.starts_with(|sign: char| sign.is_ascii_digit());
    is_run(first) && counts || ["new", "next"].contains(&first) && is_run(second)
}

/// What a line calls a run; nothing when it states a number or the names of columns, or has no word.
pub(super) fn name(text: &str) -> Option<String> {
    let text = bare(text);
    let first = text.split([',', ';', '\t']).next().unwrap_or_default();
    let (stem, unit) = name_and_unit(first);
    let states = text.split_once([':', '=']).is_some_and(|(_, value)| {
        value.trim_start().starts_with(|sign: char| sign.is_ascii_digit())
    });
    let has_word = text.chars().filter(|sign| sign.is_alphabetic()).count() > 1;
    let is_name = has_word && !names_time(&stem) && unit.is_none() && (says_run(text) || !states);
    is_name.then(|| text.chars().take(NAME).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_is_begun_in_words() {
        for text in ["Run 2: after exercise", "# Trial B", "--- new run ---", "Lauf 3"] {
            assert!(says_run(text) && name(text).is_some(), "{text}");
        }
        for text in ["stand up", "Rate: 250 Hz", "running fast", "data follow", ""] {
            assert!(!says_run(text), "{text}");
        }
        assert_eq!(name("# after ten squats"), Some("after ten squats".to_owned()));
        assert_eq!(
            (name("Rate: 250 Hz"), name("time (s),ecg (mV)"), name("-----")),
            (None, None, None)
        );
    }

    #[test]
    fn a_start_has_its_name_and_its_rate() {
        let mut said = SaidBetween::default();
        for (line, text) in ["Run 2: cold", "Rate: 500 Hz", "ECG (mV)"].iter().enumerate() {
            said.take(800, 803 + line, text.as_bytes());
        }
        let starts = said.starts(&["ECG (mV)".to_owned()]);
        let start = starts.first().unwrap();
        assert_eq!((start.row, start.rate_hz, start.is_said), (800, Some(500.0), true));
        assert_eq!(start.name.as_deref(), Some("Run 2: cold"));
    }
}
