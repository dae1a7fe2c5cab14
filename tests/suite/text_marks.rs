//! Marks that a sensor writes beside its signal: words on a row, a button's column, in any run.

use beatwalk::formats::{Choices, Note, Opened, Opening, SourceFile, open};
use std::fmt::Write;

fn opened(text: &str) -> Opened {
    let file = SourceFile { name: "marks.csv".to_owned(), bytes: text.as_bytes().to_vec() };
    match open(&[file], &Choices::default(), &mut ()).unwrap() {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(_) => panic!("the rate is in the file"),
    }
}

/// The marks of each trace, as sample and words.
fn marks(text: &str) -> Vec<Vec<(usize, String)>> {
    let of = |trace: &beatwalk::signal::Recording| {
        trace.marks.iter().map(|mark| (mark.at.get(), mark.text.clone())).collect()
    };
    opened(text).traces.iter().map(of).collect()
}

/// 1000 rows at 250 Hz: time, a wave, and what a column of marks says on each row.
fn rows(head: &str, delimiter: char, mark: impl Fn(usize) -> String) -> String {
    let mut text = format!("{head}\n");
    for row in 0..1000_usize {
        let time = row as f64 / 250.0;
        let wave = (row as f64 / 9.0).sin() + 0.3 * (row as f64 / 4.0).cos();
        writeln!(text, "{time:.3}{delimiter}{wave:.4}{delimiter}{}", mark(row)).unwrap();
    }
    text
}

fn owned(list: &[(usize, &str)]) -> Vec<(usize, String)> {
    list.iter().map(|(row, text)| (*row, (*text).to_owned())).collect()
}

#[test]
fn columns_of_marks_become_marks() {
    let words = |row: usize| match row {
        300 => "tap",
        700 | 701 => "start of exercise",
        _ => "",
    };
    let pulse = |on: &'static str, off: &'static str| {
        move |row: usize| if (400..420).contains(&row) || row == 900 { on } else { off }.to_owned()
    };
    let both = [(300, "tap"), (700, "start of exercise")];
    let named = |name: &'static str| [(400, name), (900, name)];
    for (text, right) in [
        (rows("t (s),ecg (mV),note", ',', |row| words(row).to_owned()), &both[..]),
        // No name says what the column is; its few words do.
        (rows("t (s);ecg (mV);extra", ';', |row| words(row).to_owned()), &both[..]),
        (rows("t (s),ecg (mV),note", ',', |row| format!("\"{}\"", words(row))), &both[..]),
        (rows("t (s)\tecg (mV)\tmarker", '\t', pulse("1", "0")), &named("marker")),
        (rows("t (s),ecg (mV),button", ',', pulse("1.0", "0.0")), &named("button")),
        (rows("t (s),ecg (mV),event", ',', pulse("1", "")), &named("event")),
        // Two values only, whatever it is called: something was switched.
        (rows("t (s),ecg (mV),D7", ',', pulse("5", "0")), &named("D7")),
        (rows("t (s),ecg (mV),D7", ',', pulse("0", "5")), &named("D7")),
        (rows("t (s),ecg (mV),button", ',', pulse("0", "1")), &named("button")),
        (rows("t (s),ecg (mV),button", ',', pulse("True", "False")), &named("button")),
        // Words on every row name the phases of an experiment.
        (
            rows("t (s),ecg (mV),phase", ',', |row| {
                if row < 400 { "rest" } else { "work" }.to_owned()
            }),
            &[(0, "rest"), (400, "work")],
        ),
    ] {
        let head = text.lines().next().unwrap().to_owned();
        assert_eq!(marks(&text), [owned(right)], "{head}");
        let opened = opened(&text);
        let said: Vec<String> = opened.notes.iter().map(Note::to_string).collect();
        assert!(said.iter().any(|note| note.contains("holds 2 notes")), "{head}: {said:?}");
        assert!(!said.iter().any(|note| note.contains("fewer or more cells")), "{head}: {said:?}");
    }
}

#[test]
fn a_mark_stays_at_its_moment_when_rows_are_missing_and_time_starts_again() {
    let text =
        rows("t (s),ecg (mV),note", ',', |row| if row == 800 { "tap" } else { "" }.to_owned());
    // Rows 200 to 299 are lost: the grid is widened, and the mark keeps its time.
    let lossy: Vec<&str> = text
        .lines()
        .enumerate()
        .filter(|(line, _)| !(201..301).contains(line))
        .map(|it| it.1)
        .collect();
    assert_eq!(marks(&lossy.join("\n")), [owned(&[(800, "tap")])]);
    // The same again behind it: two runs, a mark in each.
    let again = format!("{text}{}", text.split_once('\n').unwrap().1);
    assert_eq!(marks(&again), [owned(&[(800, "tap")]), owned(&[(800, "tap")])]);
}

#[test]
fn a_busy_column_is_no_column_of_marks() {
    let text = rows("t (s),ecg (mV),event rate", ',', |row| format!("{}", (row * 7919) % 101));
    assert_eq!(opened(&text).traces.len(), 2);
    let flicker = rows("t (s),ecg (mV),D7", ',', |row| format!("{}", row / 2 % 2));
    assert_eq!(marks(&flicker), [owned(&[])]);
}
