//! Beats, rate and findings of recordings that went wrong in the ways that happen in a class.
//!
//! `tests/data/field-cases` are invented signals whose makers know each R; `truth.json` there holds
//! them. On clean stretches every beat is found, none extra, within 12 ms, and the mean rate is right
//! within 0.3 beats a minute.

use super::accuracy::data;
use beatwalk::analysis::{FindingKind, Polarity, Reading, Severity, Standing, read};
use beatwalk::formats::{Choices, Opening, SourceFile, open};
use beatwalk::lesson::FindingWords;
use beatwalk::signal::{Recording, Seconds};
use beatwalk::words::Language;
use serde_json::Value;

/// File, findings that have to be there in their order.
const CASES: [(&str, &[FindingKind]); 9] = [
    ("o21-inverted.csv", &[FindingKind::Inverted]),
    ("o22-tall-t.csv", &[]),
    ("o23-flat-start.csv", &[FindingKind::Flat]),
    ("o24-noisy-start.csv", &[FindingKind::Noisy]),
    ("o25-100hz.csv", &[FindingKind::LowRate]),
    ("o26-hum60.csv", &[FindingKind::MainsHum(60.0)]),
    ("o27-clipped.csv", &[FindingKind::Stuck, FindingKind::Clipped]),
    ("o28-three-beats.csv", &[FindingKind::TooShort]),
    ("o29-recovery-186.csv", &[FindingKind::BaselineWander]),
];

fn recordings(file: &str) -> Vec<Recording> {
    let bytes = std::fs::read(data(&format!("field-cases/{file}"))).unwrap();
    let files = [SourceFile { name: file.to_owned(), bytes }];
    match open(&files, &Choices::default(), &mut ()) {
        Ok(Opening::Ready(opened)) => opened.traces,
        other => panic!("{file}: {other:?}"),
    }
}

fn truth(id: &str) -> Value {
    let all: Value =
        serde_json::from_slice(&std::fs::read(data("field-cases/truth.json")).unwrap()).unwrap();
    all["cases"].as_array().unwrap().iter().find(|case| case["id"] == id).unwrap().clone()
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn kinds(reading: &Reading) -> Vec<FindingKind> {
    reading.findings.iter().map(|finding| finding.kind).collect()
}

/// 60 over the mean of the RR intervals that count.
fn mean_rate(recording: &Recording, reading: &Reading) -> f64 {
    let unusable = |from: usize, to: usize| {
        let grave = reading.findings.iter().filter(|f| f.severity == Severity::Unusable);
        grave
            .flat_map(|finding| &finding.spans)
            .any(|span| span.start().get() < to && from < span.end().get())
    };
    let rr: Vec<f64> = reading
        .beats
        .windows(2)
        .filter(|pair| pair.iter().all(|beat| beat.standing == Standing::Counts))
        .filter(|pair| !unusable(pair[0].r.get(), pair[1].r.get()))
        .filter(|pair| !recording.is_broken_between(pair[0].r, pair[1].r))
        .map(|pair| pair[1].r.minus(pair[0].r) as f64 / recording.rate.hz())
        .collect();
    60.0 * rr.len() as f64 / rr.iter().sum::<f64>()
}

/// Every R found within 12 ms (a sample and a half at low rates), none extra.
fn assert_beats(name: &str, recording: &Recording, reading: &Reading, truth: &[f64]) {
    let tolerance = f64::max(0.012, 1.5 / recording.rate.hz());
    let found: Vec<f64> =
        reading.beats.iter().map(|beat| recording.rate.time_of(beat.r).seconds()).collect();
    assert_eq!(found.len(), truth.len(), "{name}: found {found:?}");
    for (found, truth) in found.iter().zip(truth) {
        assert!((found - truth).abs() <= tolerance, "{name}: {found} for {truth}");
    }
}

#[test]
fn every_case_has_its_beats_its_rate_and_its_findings() {
    for (file, findings) in CASES {
        let recording = &recordings(file)[0];
        let reading = read(recording, &mut ());
        let truth = truth(&file[..3]);
        assert_beats(file, recording, &reading, &numbers(&truth["r_times_s"]));
        assert_eq!(kinds(&reading), findings, "{file}");
        let (rate, right) =
            (mean_rate(recording, &reading), truth["mean_hr_bpm"].as_f64().unwrap());
        assert!((rate - right).abs() < 0.3, "{file}: {rate} for {right}");
        let counted = reading.intervals.rr_ms.map_or(0, |rr| rr.n) as u64;
        assert_eq!(counted, truth["n_rr"].as_u64().unwrap(), "{file}: intervals that count");
        for finding in &reading.findings {
            let words = FindingWords::of(finding, recording.rate, Language::English);
            let sentence = words.sentences();
            assert!(sentence.ends_with('.') && sentence.len() > 60, "{sentence}");
        }
    }
}

#[test]
fn holes_and_runs_keep_their_beats_apart() {
    for (file, id) in [("o06-missing-cells.csv", "o06"), ("o14-dropped-block.csv", "o14")] {
        let recording = &recordings(file)[0];
        let reading = read(recording, &mut ());
        let truth = truth(id);
        // A beat that a hole swallowed is not made up.
        let in_hole = |at: &f64| recording.hole_at(recording.rate.nearest(Seconds::new(*at)));
        let mut beats = numbers(&truth["r_times_s"]);
        beats.retain(|at| in_hole(at).is_none());
        assert_beats(file, recording, &reading, &beats);
        assert!(reading.beats.iter().all(|beat| recording.hole_at(beat.r).is_none()));
        let counted = reading.intervals.rr_ms.map_or(0, |rr| rr.n) as u64;
        assert_eq!(counted, truth["n_rr"].as_u64().unwrap(), "{file}");
        let rate = mean_rate(recording, &reading);
        assert!((rate - truth["mean_hr_bpm"].as_f64().unwrap()).abs() < 0.3, "{file}: {rate}");
    }
}

#[test]
fn noise_is_bounded_to_where_it_is() {
    let recording = &recordings("o24-noisy-start.csv")[0];
    let reading = read(recording, &mut ());
    let spans = &reading.findings[0].spans;
    let [span] = spans.as_slice() else { panic!("one stretch, not {spans:?}") };
    let end = recording.rate.time_of(span.end()).seconds();
    assert!(span.start().get() == 0 && (2.5..=3.5).contains(&end), "{end}");
    assert_eq!(reading.findings[0].severity, Severity::Unusable);
}

#[test]
fn an_inverted_trace_is_not_turned_in_silence() {
    let recording = &recordings("o21-inverted.csv")[0];
    let reading = read(recording, &mut ());
    assert_eq!(reading.polarity, Polarity::LooksInverted);
    let line = recording.samples.iter().sum::<f32>() / recording.samples.len() as f32;
    assert!(reading.beats.iter().all(|beat| recording.samples[beat.r.get()] < line));
    let upright = recordings("o22-tall-t.csv").swap_remove(0);
    assert_eq!(read(&upright, &mut ()).polarity, Polarity::Upright);
}

#[test]
fn cut_waves_are_named_one_by_one() {
    let recording = &recordings("o27-clipped.csv")[0];
    let reading = read(recording, &mut ());
    let cut = reading.findings.iter().find(|f| f.kind == FindingKind::Clipped).unwrap();
    let stuck = reading.findings.iter().find(|f| f.kind == FindingKind::Stuck).unwrap();
    assert_eq!(cut.spans.len(), 10);
    assert_eq!(stuck.spans.iter().map(|span| span.len()).collect::<Vec<_>>(), [300]);
    let start = recording.rate.nearest(Seconds::new(6.0));
    assert_eq!(stuck.spans[0].start(), start);
}
