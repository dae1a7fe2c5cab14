//! Tables for other programs: CSV as in RFC 4180, UTF-8, a point as decimal mark.
//!
//! A text cell that a spreadsheet would run as a formula gets a quote mark in front; numbers stay
//! numbers. What can't be measured is an empty cell. Names of columns are the same in all languages,
//! so that the tables of a class can be laid together.

use super::SavedWork;
use crate::analysis::{Beat, Standing};
use crate::lesson::{Evidence, ResultsTable};
use crate::signal::{Landmark, SampleIndex, SampleRate};

/// Digits after the point of a result: a hundredth of a millisecond.
const RESULT_DECIMALS: usize = 2;
/// Digits after the point of a moment: a microsecond, the step of the fastest rate.
const MOMENT_DECIMALS: usize = 6;

/// The results, one row a quantity, values in the row's `unit`; `own` is the student's value,
/// `computed` that of the analysis for the same beat. An `expanded_uncertainty` has k = 2. `beat_origin`
/// says who put that beat where it is, `beats_corrected` how many of all beats were corrected by hand.
pub fn results_csv(work: &SavedWork, file: &str, results: &ResultsTable) -> String {
    let head = [
        "student",
        "file",
        "quantity",
        "unit",
        "own",
        "own_expanded_uncertainty",
        "computed",
        "computed_expanded_uncertainty",
        "all_beats_median",
        "all_beats_expanded_uncertainty",
        "all_beats_sd",
        "all_beats_n",
        "beat_origin",
        "beats_corrected",
    ];
    let rows = results.rows.iter().map(|row| {
        let all = row.all_beats;
        vec![
            harmless(&work.student),
            harmless(file),
            row.quantity.key().to_owned(),
            row.quantity.unit().to_owned(),
            result(row.student.map(|own| own.value)),
            result(row.student.map(|own| own.expanded_uncertainty)),
            result(row.computed.map(|found| found.value)),
            result(row.computed.map(|found| found.expanded_uncertainty)),
            result(all.map(|all| all.value)),
            result(all.map(|all| all.expanded_uncertainty)),
            result(all.map(|all| all.spread)),
            all.map(|all| all.n.to_string()).unwrap_or_default(),
            results.beat.map(|origin| origin.key().to_owned()).unwrap_or_default(),
            results.corrected.all().to_string(),
        ]
    });
    table(head.map(str::to_owned).into(), rows)
}

/// The points of every beat, in seconds from the first sample: one row a beat, counted from 1.
/// `origin` says who put it there, `standing` whether averages count it, and if not why.
pub fn landmarks_csv(file: &str, evidence: Evidence<'_>) -> String {
    let columns = Landmark::ALL.iter().map(|landmark| format!("{}_s", landmark.key()));
    let head = ["file", "beat", "origin", "standing"];
    let head = head.into_iter().map(str::to_owned).chain(columns).collect();
    let rows = evidence.reading.beats.iter().enumerate().map(|(place, beat)| {
        let rate = evidence.recording.rate;
        let points = Landmark::ALL.iter().map(|&landmark| moment(point(beat, landmark), rate));
        let (origin, standing) = (beat.origin.key().to_owned(), standing(beat).to_owned());
        let first = [harmless(file), (place + 1).to_string(), origin, standing];
        first.into_iter().chain(points).collect()
    });
    table(head, rows)
}

/// Where a complex only goes down it has no R, but the beat still has its deepest point.
fn point(beat: &Beat, landmark: Landmark) -> Option<SampleIndex> {
    match landmark {
        Landmark::R => Some(beat.r),
        other => beat.landmarks.at(other),
    }
}

const fn standing(beat: &Beat) -> &'static str {
    match beat.standing {
        Standing::Counts => "counts",
        Standing::SetAside(why) => why.key(),
    }
}

fn result(value: Option<f64>) -> String {
    number(value, RESULT_DECIMALS)
}

pub(crate) fn number(value: Option<f64>, decimals: usize) -> String {
    value.map(|value| format!("{value:.decimals$}")).unwrap_or_default()
}

fn moment(at: Option<SampleIndex>, rate: SampleRate) -> String {
    number(at.map(|at| rate.time_of(at).seconds()), MOMENT_DECIMALS)
}

/// A text cell that no spreadsheet takes for a formula.
pub(crate) fn harmless(text: &str) -> String {
    match text.chars().next() {
        Some('=' | '+' | '-' | '@' | '\t' | '\r') => format!("'{text}"),
        _ => text.to_owned(),
    }
}

#[expect(clippy::expect_used, reason = "a Vec takes every byte, and all cells are UTF-8")]
pub(crate) fn table(head: Vec<String>, rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    for row in std::iter::once(head).chain(rows) {
        writer.write_record(row).expect("rows are as long as the head");
    }
    String::from_utf8(writer.into_inner().expect("a Vec takes every byte")).expect("UTF-8")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_made_harmless_and_other_text_is_left_alone() {
        for formula in ["=HYPERLINK(\"x\")", "+1", "-1", "@a", "\t=1", "\r=1"] {
            assert_eq!(harmless(formula), format!("'{formula}"));
        }
        for text in ["", "Ana", "7b-3", "a=b"] {
            assert_eq!(harmless(text), text);
        }
        assert_eq!(result(Some(-0.12)), "-0.12");
    }

    #[test]
    fn awkward_cells_are_read_back_as_written() {
        let cells = ["a,b", "say \"hi\"", "two\r\nlines", " edge ", "", "Zoë"].map(str::to_owned);
        let text = table(cells.to_vec(), std::iter::empty());
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        let read = reader.records().next().unwrap().unwrap();
        assert_eq!(read.iter().collect::<Vec<_>>(), cells);
    }
}
