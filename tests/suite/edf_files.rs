//! EDF and BDF files read as another reader has them, and broken ones say what is broken.
//!
//! `expected-edf.json` was made with the public Python package `pyedflib`; see `tests/data/README.md`.

use beatwalk::formats::{
    Choices, EdfError, EdfNote, Format, NoteKind, OpenError, Opened, Opening, SignalFault,
    SourceFile, open,
};
use beatwalk::signal::{HoleCause, Recording, VoltageUnit};
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;

fn bytes(path: &str) -> Vec<u8> {
    std::fs::read(format!("{}/tests/data/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

fn try_open(name: &str, bytes: Vec<u8>) -> Result<Opened, OpenError> {
    let files = [SourceFile { name: name.to_owned(), bytes }];
    match open(&files, &Choices::default(), &mut ())? {
        Opening::Ready(opened) => Ok(opened),
        Opening::NeedsRate(_) => panic!("EDF always has a rate"),
    }
}

fn opened(path: &str) -> Opened {
    try_open(path.rsplit('/').next().unwrap(), bytes(path)).unwrap()
}

fn notes(opened: &Opened) -> Vec<EdfNote> {
    let kinds = opened.notes.iter().map(|note| note.kind.clone());
    kinds
        .filter_map(|kind| if let NoteKind::Edf(note) = kind { Some(note) } else { None })
        .collect()
}

fn height(trace: &Recording) -> f32 {
    let high = trace.samples.iter().copied().fold(f32::MIN, f32::max);
    high - trace.samples.iter().copied().fold(f32::MAX, f32::min)
}

#[test]
fn every_file_has_the_samples_and_texts_another_reader_finds() {
    let table: BTreeMap<String, Value> =
        serde_json::from_slice(&bytes("expected-edf.json")).unwrap();
    assert_eq!(table.len(), 5);
    for (name, expected) in &table {
        let opened = opened(name);
        let is_bdf = name.ends_with(".bdf");
        assert_eq!(opened.format, if is_bdf { Format::Bdf } else { Format::Edf });
        let signals = expected["signals"].as_array().unwrap();
        assert_eq!(opened.traces.len(), signals.len(), "{name}");
        for (trace, signal) in opened.traces.iter().zip(signals) {
            assert_eq!(trace.name, signal["label"].as_str().unwrap(), "{name}");
            assert_eq!(trace.rate.hz(), signal["fs_hz"].as_f64().unwrap(), "{name}");
            assert_eq!(Some(trace.samples.len() as u64), signal["n_samples"].as_u64(), "{name}");
            assert_eq!(trace.unit, VoltageUnit::Millivolt, "{name}");
            assert!(trace.holes.is_empty(), "{name}");
            let scale = if signal["units"] == "uV" { 0.001 } else { 1.0 };
            for (found, right) in
                trace.samples.iter().zip(signal["first5_physical"].as_array().unwrap())
            {
                let right = right.as_f64().unwrap() * scale;
                assert!((f64::from(*found) - right).abs() < 1e-6, "{name}: {found} for {right}");
            }
            let count = expected["n_annotations"].as_u64().unwrap() as usize;
            assert_eq!(trace.marks.len(), count, "{name}");
            for (mark, right) in
                trace.marks.iter().zip(expected["first5_annotations"].as_array().unwrap())
            {
                assert_eq!(mark.text, right[1].as_str().unwrap(), "{name}");
                let away = trace.rate.time_of(mark.at).seconds() - right[0].as_f64().unwrap();
                assert!(away.abs() <= 0.51 / trace.rate.hz(), "{name}: {away} s");
            }
        }
        let said = notes(&opened);
        assert!(
            said.iter().all(|note| matches!(note, EdfNote::Converted { .. })),
            "{name}: {said:?}"
        );
    }
}

#[test]
fn a_file_cut_off_keeps_its_whole_records() {
    let opened = opened("field-cases/o17-truncated.edf");
    let trace = &opened.traces[opened.suggested];
    assert_eq!((trace.rate.hz(), trace.samples.len()), (200.0, 1600));
    assert_eq!(notes(&opened), [EdfNote::Truncated { stated: 10, whole: 8, bytes: 270 }]);
}

#[test]
fn a_file_never_closed_is_as_long_as_it_is() {
    let opened = opened("field-cases/o18-records-minus-one.edf");
    let trace = &opened.traces[opened.suggested];
    assert_eq!((trace.rate.hz(), trace.samples.len()), (250.0, 2000));
    assert_eq!(trace.unit, VoltageUnit::Millivolt);
    assert!((0.8..2.0).contains(&height(trace)), "{} mV", height(trace));
    assert_eq!(notes(&opened)[0], EdfNote::RecordsCounted { records: 8 });
}

#[test]
fn the_ecg_is_chosen_and_each_signal_keeps_its_scale() {
    let opened = opened("field-cases/o19-mixed-units.edf");
    assert_eq!((opened.traces.len(), opened.suggested), (2, 1));
    let [muscle, ecg] = opened.traces.as_slice() else { panic!() };
    assert_eq!((muscle.unit, ecg.unit), (VoltageUnit::Millivolt, VoltageUnit::Millivolt));
    assert!((0.8..2.0).contains(&height(ecg)), "{} mV", height(ecg));
    assert_eq!(ecg.samples.len(), 2000);
}

#[test]
fn each_signal_keeps_its_rate_and_annotations_are_no_trace() {
    let opened = opened("field-cases/o20-multirate-plus.edf");
    let rates: Vec<f64> = opened.traces.iter().map(|trace| trace.rate.hz()).collect();
    assert_eq!((rates.as_slice(), opened.suggested), (&[25.0, 250.0][..], 1));
    let ecg = &opened.traces[1];
    let [mark] = ecg.marks.as_slice() else { panic!("{:?}", ecg.marks) };
    assert_eq!((ecg.rate.time_of(mark.at).seconds(), mark.text.as_str()), (3.2, "stand up"));
}

/// A file of one ECG signal with 100 samples in each record of 1 s, and annotations if wanted.
fn made(kind: &str, range: [&str; 4], records: i32, data: &[u8]) -> Vec<u8> {
    let is_plus = kind.starts_with("EDF+");
    let count = if is_plus { 2 } else { 1 };
    let field = |text: &str, length: usize| format!("{text:<length$}");
    let both = |one: &str, other: &str, length: usize| {
        field(one, length) + &if is_plus { field(other, length) } else { String::new() }
    };
    let [low, high, lowest, highest] = range;
    let header = [
        field("0", 8) + &field("X X X X", 80) + &field("invented", 80) + "02.03.2609.15.00",
        field(&(256 * (count + 1)).to_string(), 8) + &field(kind, 44),
        field(&records.to_string(), 8) + &field("1", 8) + &field(&count.to_string(), 4),
        both("ECG I", "EDF Annotations", 16) + &both("", "", 80) + &both("mV", "", 8),
        both(low, "-1", 8) + &both(high, "1", 8) + &both(lowest, "-32768", 8),
        both(highest, "32767", 8) + &both("", "", 80) + &both("100", "20", 8) + &both("", "", 32),
    ];
    let mut file = header.concat().into_bytes();
    file.extend(data);
    file
}

const RANGE: [&str; 4] = ["-5", "5", "-1000", "1000"];

/// Records that begin at these seconds, every sample 1 mV.
fn records_at(onsets: &[&str]) -> Vec<u8> {
    let record = |onset: &&str| {
        let mut bytes = 200i16.to_le_bytes().repeat(100);
        bytes.extend(
            format!("+{onset}\u{14}\u{14}\0{:<40}", "").replace(' ', "\0").bytes().take(40),
        );
        bytes
    };
    onsets.iter().flat_map(record).collect()
}

#[test]
fn a_break_is_a_hole_and_a_long_one_begins_a_new_trace() {
    let file = made("EDF+D", RANGE, 3, &records_at(&["0", "1", "3.5"]));
    let opened = try_open("x.edf", file).unwrap();
    let [trace] = opened.traces.as_slice() else { panic!("{:?}", opened.traces.len()) };
    let holes: Vec<_> = trace.holes.iter().map(|hole| (hole.span.range(), hole.cause)).collect();
    assert_eq!(holes, [(200..350, HoleCause::NoRows)]);
    assert_eq!((trace.samples.len(), trace.recorded_samples()), (450, 300));
    assert!(trace.samples.iter().all(|&mv| (mv - 1.0).abs() < 1e-6));
    assert_eq!(notes(&opened), [EdfNote::Interrupted { breaks: 1, seconds: 1.5 }]);

    let file = made("EDF+D", RANGE, 3, &records_at(&["0", "1", "1e9"]));
    let opened = try_open("x.edf", file).unwrap();
    let lengths: Vec<usize> = opened.traces.iter().map(|trace| trace.samples.len()).collect();
    assert_eq!(lengths, [200, 100]);
    assert_eq!(notes(&opened), [EdfNote::Parts { parts: 2 }]);

    let file = made("EDF+C", RANGE, 3, &records_at(&["0", "1", "3.5"]));
    assert_eq!(try_open("x.edf", file).unwrap().traces[0].samples.len(), 300);
}

#[test]
fn a_signal_without_a_scale_is_refused() {
    for range in [["-5", "5", "0", "0"], ["1", "1", "-1000", "1000"], ["-5", "x", "-9", "9"]] {
        let error = try_open("x.edf", made("", range, 1, &[0; 200])).unwrap_err();
        let OpenError::Edf(EdfError::NoSignals { reasons, .. }) = error else {
            panic!("{error:?}")
        };
        assert!(reasons[0].to_string().starts_with("signal \"ECG I\" has no scale"), "{reasons:?}");
    }
    let fault = SignalFault::NoRate { signal: "x".to_owned(), samples: 9, seconds: 0.0 };
    assert_eq!(fault.to_string(), "signal \"x\" has no possible sampling rate: 9 samples in 0 s");
}

#[test]
fn what_is_not_edf_says_so() {
    for bytes in [
        b"time,mV\n0,1\n".to_vec(),
        vec![0; 300],
        bytes("field-cases/o17-truncated.edf")[..300].to_vec(),
    ] {
        let error = try_open("x.edf", bytes).unwrap_err();
        assert!(matches!(error, OpenError::Edf(EdfError::Header { .. })), "{error}");
    }
    let header_only = made("", RANGE, 5, &[]);
    let error = try_open("x.edf", header_only).unwrap_err();
    assert_eq!(error.to_string(), "x.edf ends before its first record is complete");
}

proptest! {
    /// Any bytes over a good file: an answer comes, and it keeps the promises of a recording.
    #[test]
    fn any_damage_gives_an_answer(
        which in 0usize..5,
        damage in vec((0usize..1500, any::<u8>()), 0..20),
        digits in vec((192usize..1024, "[0-9.e+-]{1,4}"), 0..3),
        length in 0usize..6000,
    ) {
        let mut file = match which {
            0 => bytes("field-cases/o17-truncated.edf"),
            1 => bytes("field-cases/o18-records-minus-one.edf"),
            2 => bytes("field-cases/o20-multirate-plus.edf"),
            3 => bytes("edf/test_generator_datarec_generator_2.bdf"),
            _ => made("EDF+D", RANGE, 3, &records_at(&["0", "1", "3.5"])),
        };
        file.truncate(length.max(200));
        for (at, byte) in damage.into_iter().chain(
            digits.iter().flat_map(|(at, text)| text.bytes().enumerate().map(move |(n, byte)| (at + n, byte))),
        ) {
            if let Some(place) = file.get_mut(at) {
                *place = byte;
            }
        }
        let size = file.len();
        if let Ok(opened) = try_open("x.edf", file) {
            let samples: usize = opened.traces.iter().map(|trace| trace.samples.len()).sum();
            prop_assert!(samples <= size, "{} samples from {} bytes", samples, size);
            prop_assert!(opened.suggested < opened.traces.len());
            for trace in &opened.traces {
                prop_assert!(trace.samples.iter().all(|value| value.is_finite()));
                prop_assert!(trace.marks.iter().all(|mark| mark.at.get() < trace.samples.len()));
                prop_assert!(trace.holes.iter().all(|hole| hole.span.end().get() <= trace.samples.len()));
            }
        }
    }
}
