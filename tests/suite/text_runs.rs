//! Runs side by side in one file, each with times of its own.

use beatwalk::analysis::read;
use beatwalk::formats::{Choices, Opened, Opening, SourceFile, TimeColumn, open};
use std::fmt::Write;

fn opened(text: &str, choices: &Choices) -> Opened {
    let file = SourceFile { name: "runs.csv".to_owned(), bytes: text.as_bytes().to_vec() };
    match open(&[file], choices, &mut ()).unwrap() {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(_) => panic!("the rate is in the file"),
    }
}

/// A beat every `rr` seconds.
fn heart(t: f64, rr: f64) -> f64 {
    let bell = |middle: f64, width: f64| (-((t % rr - rr / 2.0 - middle) / width).powi(2)).exp();
    bell(0.0, 0.012) + 0.15 * bell(-0.15, 0.03) + 0.3 * bell(0.2, 0.05)
}

/// 3000 rows at 250 Hz and 75 a minute beside 2000 rows at 200 Hz and 120 a minute.
fn side_by_side(head: &str, delimiter: char) -> String {
    let mut text = format!("{head}\n");
    for row in 0..3000_u32 {
        let (t, u) = (f64::from(row) / 250.0, f64::from(row) / 200.0);
        write!(text, "{t:.3}{delimiter}{:.4}{delimiter}", heart(t, 0.8)).unwrap();
        let second = row < 2000;
        let cells = if second {
            format!("{u:.3}{delimiter}{:.4}", heart(u, 0.5))
        } else {
            delimiter.to_string()
        };
        writeln!(text, "{cells}").unwrap();
    }
    text
}

#[test]
fn each_run_is_read_at_its_own_times() {
    for (head, delimiter, names) in [
        (
            "Run 1: Time (s),Run 1: ECG (mV),Run 2: Time (s),Run 2: ECG (mV)",
            ',',
            ["Run 1: ECG", "Run 2: ECG"],
        ),
        ("t1 (s);rest (mV);t2 (s);after exercise (mV)", ';', ["rest", "after exercise"]),
        ("time (s)\tecg (mV)\ttime (s)\tecg (mV)", '\t', ["ecg, run 1", "ecg, run 2"]),
    ] {
        let opened = opened(&side_by_side(head, delimiter), &Choices::default());
        let found: Vec<(&str, f64, usize)> = opened
            .traces
            .iter()
            .map(|trace| (trace.name.as_str(), trace.rate.hz(), trace.samples.len()))
            .collect();
        assert_eq!(found, [(names[0], 250.0, 3000), (names[1], 200.0, 2000)], "{head}");
        for (trace, right) in opened.traces.iter().zip([75.0, 120.0]) {
            let rate = read(trace, &mut ()).intervals.rate_bpm.unwrap().value;
            assert!((rate - right).abs() < 0.3, "{head}: {rate} for {right}");
        }
        let said = opened.notes.iter().any(|note| note.to_string().contains("2 time columns"));
        assert!(said, "{head}: {:?}", opened.notes);
    }
}

#[test]
fn a_chosen_time_column_brings_only_what_stands_beside_it() {
    let text = side_by_side("t1 (s);rest (mV);t2 (s);after exercise (mV)", ';');
    let choices = Choices { time_column: Some(TimeColumn::At(2)), ..Choices::default() };
    let opened = opened(&text, &choices);
    let found: Vec<(&str, f64)> =
        opened.traces.iter().map(|trace| (trace.name.as_str(), trace.rate.hz())).collect();
    assert_eq!(found, [("after exercise", 200.0)]);
}

#[test]
fn two_clocks_of_the_same_rows_and_a_list_of_moments_are_no_runs() {
    let mut text = "time (s),time (ms),ecg (mV),event time (s)\n".to_owned();
    for row in 0..2000_u32 {
        let t = f64::from(row) / 250.0;
        let event = ["1.5", "3.2"].get(row as usize).copied().unwrap_or("");
        writeln!(text, "{t:.3},{},{:.4},{event}", row * 4, heart(t, 0.8)).unwrap();
    }
    let opened = opened(&text, &Choices::default());
    let ecg = opened.traces.iter().find(|trace| trace.name == "ecg").unwrap();
    assert_eq!((ecg.rate.hz(), ecg.samples.len()), (250.0, 2000));
}
