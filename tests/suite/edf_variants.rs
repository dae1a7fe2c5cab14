//! EDF files as odd recorders write them: read with a note, or refused with a reason.

use crate::edf_written::{File, Line, try_open};
use beatwalk::formats::{EdfError, EdfNote, NoteKind, OpenError, Opened};
use beatwalk::signal::VoltageUnit;

fn line(label: &str, unit: &str, range: [&str; 4], per_record: usize) -> Line {
    let range = range.map(str::to_owned);
    Line { label: label.to_owned(), unit: unit.to_owned(), range, per_record }
}

const RANGE: [&str; 4] = ["-5", "5", "-1000", "1000"];

/// Two records of one second, ten samples each: 0, 1 … 19 hundredths of a mV.
fn plain() -> File {
    File {
        version: b"0".to_vec(),
        kind: String::new(),
        header_length: None,
        records: "2".to_owned(),
        duration: "1".to_owned(),
        lines: vec![line("ECG I", "mV", RANGE, 10)],
        data: (0..20i16).flat_map(|at| (2 * at).to_le_bytes()).collect(),
    }
}

fn notes(opened: &Opened) -> Vec<EdfNote> {
    let kinds = opened.notes.iter().map(|note| note.kind.clone());
    kinds
        .filter_map(|kind| if let NoteKind::Edf(note) = kind { Some(note) } else { None })
        .collect()
}

/// Opens a file that should hold the samples of [`plain`], under a name that does not help.
fn as_plain(file: &File) -> Vec<EdfNote> {
    let opened = try_open("x", file.bytes()).unwrap();
    let [trace] = opened.traces.as_slice() else { panic!("{:?}", opened.traces.len()) };
    assert_eq!((trace.rate.hz(), trace.samples.len()), (10.0, 20));
    for (at, mv) in trace.samples.iter().enumerate() {
        assert!((mv - at as f32 / 100.0).abs() < 1e-6, "{mv} at {at}");
    }
    notes(&opened)
}

#[test]
fn numbers_are_read_as_odd_writers_have_them() {
    for (records, said) in [
        ("2", None),
        ("2.0", None),
        ("-1", Some(EdfNote::RecordsCounted { records: 2 })),
        ("0", Some(EdfNote::RecordsCounted { records: 2 })),
        ("9", Some(EdfNote::Truncated { stated: 9, whole: 2, bytes: 0 })),
    ] {
        let file = File { records: records.to_owned(), ..plain() };
        assert_eq!(as_plain(&file), Vec::from_iter(said), "{records}");
    }
    for duration in ["1", "1.0", "1,0", "+1", "1e0"] {
        assert_eq!(as_plain(&File { duration: duration.to_owned(), ..plain() }), [], "{duration}");
    }
    for range in [
        ["-5,0", "5,0", "-1000", "1000"],
        ["-5.", "+5", "-1e3", "1e3"],
        ["\u{96}5", "5", "-1000", "1000"],
        // A scale that runs the other way on both sides is the same scale.
        ["5", "-5", "1000", "-1000"],
    ] {
        let file = File { lines: vec![line("ECG I", "mV", range, 10)], ..plain() };
        assert_eq!(as_plain(&file), [], "{range:?}");
    }
    assert_eq!(as_plain(&File { version: b"0\0\0\0\0\0\0\0".to_vec(), ..plain() }), []);
}

#[test]
fn an_upside_down_range_turns_the_trace_over_as_it_says() {
    let lines = vec![line("ECG I", "mV", ["5", "-5", "-1000", "1000"], 10)];
    let opened = try_open("x.edf", File { lines, ..plain() }.bytes()).unwrap();
    assert!((opened.traces[0].samples[19] + 0.19).abs() < 1e-6);
}

#[test]
fn a_header_of_another_length_than_it_says_is_found_out() {
    for said in ["256", "768", "9999"] {
        let file = File { header_length: Some(said.to_owned()), ..plain() };
        let stated = said.parse().unwrap();
        assert_eq!(as_plain(&file), [EdfNote::HeaderLength { expected: 512, stated, taken: 512 }]);
    }
    let mut longer = File { header_length: Some("768".to_owned()), ..plain() };
    longer.data.splice(0..0, [b' '; 256]);
    assert_eq!(
        as_plain(&longer),
        [EdfNote::HeaderLength { expected: 512, stated: 768, taken: 768 }]
    );
}

#[test]
fn units_are_known_by_all_their_spellings() {
    for (unit, factor) in
        [("mV", 1.0), ("MV", 1.0), ("uV", 0.001), ("\u{b5}V", 0.001), ("V", 1000.0), ("mVolt", 1.0)]
    {
        let lines = vec![line("ECG I", unit, RANGE, 10)];
        let opened = try_open("x.edf", File { lines, ..plain() }.bytes()).unwrap();
        let trace = &opened.traces[0];
        assert_eq!(trace.unit, VoltageUnit::Millivolt, "{unit}");
        assert!((trace.samples[19] - 0.19 * factor).abs() < 1e-4, "{unit}");
    }
    let lines = vec![line("ECG I", "", RANGE, 10)];
    let opened = try_open("x.edf", File { lines, ..plain() }.bytes()).unwrap();
    assert_eq!(opened.traces[0].unit, VoltageUnit::Unstated);
    assert_eq!(notes(&opened), [EdfNote::NoUnit { signal: "ECG I".to_owned() }]);
}

fn texts(lists: &str, length: usize) -> Vec<u8> {
    let mut bytes = lists.as_bytes().to_vec();
    bytes.resize(length, 0);
    bytes
}

#[test]
fn notes_are_known_by_all_spellings_and_never_drawn() {
    for label in ["EDF Annotations", "EDF annotations", "EDF ANNOTATIONS", "EDF Annotation"] {
        let mut file = File { kind: "EDF+C".to_owned(), ..plain() };
        file.lines.insert(0, line(label, "", ["-1", "1", "-32768", "32767"], 20));
        let data = file.data.split_off(0);
        for (record, samples) in data.chunks(20).enumerate() {
            file.data.extend(texts(&format!("+{record}\u{14}\u{14}\0+1,5\u{14}stand\u{14}\0"), 40));
            file.data.extend(samples);
        }
        assert_eq!(as_plain(&file), [], "{label}");
        let opened = try_open("x.edf", file.bytes()).unwrap();
        let at: Vec<usize> = opened.traces[0].marks.iter().map(|mark| mark.at.get()).collect();
        assert_eq!(at, [15, 15], "each record says it");
    }
}

#[test]
fn notes_keep_their_place_in_every_signal_of_an_interrupted_recording() {
    let notes_line = line("EDF Annotations", "", ["-1", "1", "-32768", "32767"], 30);
    let lines = vec![line("ECG", "mV", RANGE, 100), notes_line, line("Resp", "L", RANGE, 10)];
    let mut data = Vec::new();
    // The clock shows 100.5 s at the first sample; there are breaks of 2 s and of a day.
    for (begin, onset) in
        [(100.5, "100.75"), (101.5, "102"), (104.5, "105.4"), (86_600.5, "86601.25")]
    {
        data.extend([0; 200]);
        data.extend(texts(&format!("+{begin}\u{14}\u{14}\0+{onset}\u{14}now\u{14}\0"), 60));
        data.extend([0; 20]);
    }
    let file = File { kind: "EDF+D".to_owned(), records: "4".to_owned(), lines, data, ..plain() };
    let opened = try_open("x.edf", file.bytes()).unwrap();
    let found: Vec<(&str, usize, Vec<usize>)> = opened
        .traces
        .iter()
        .map(|trace| {
            let marks = trace.marks.iter().map(|mark| mark.at.get()).collect();
            (trace.name.as_str(), trace.samples.len(), marks)
        })
        .collect();
    let expected = [
        ("ECG", 500, vec![25, 150, 490]),
        ("ECG", 100, vec![75]),
        ("Resp", 50, vec![3, 15, 49]),
        ("Resp", 10, vec![8]),
    ];
    assert_eq!(found, expected);
    let said = notes(&opened);
    assert!(said.contains(&EdfNote::Interrupted { breaks: 1, seconds: 2.0 }), "{said:?}");
    assert!(said.contains(&EdfNote::Parts { parts: 2 }), "{said:?}");

    let unbroken = File { kind: "EDF+C".to_owned(), ..file };
    let opened = try_open("x.edf", unbroken.bytes()).unwrap();
    assert_eq!(opened.traces[0].samples.len(), 400);
    assert!(notes(&opened).contains(&EdfNote::TimesDiffer));
}

#[test]
fn what_cannot_be_read_says_why() {
    let only = line("EDF Annotations", "", ["-1", "1", "-32768", "32767"], 20);
    let file = File {
        kind: "EDF+C".to_owned(),
        lines: vec![only],
        data: texts("+0\u{14}\u{14}\0", 80),
        ..plain()
    };
    let error = try_open("x.edf", file.bytes()).unwrap_err();
    assert_eq!(error.to_string(), "x.edf holds no signal, only annotations");
    for (lines, reason) in [
        (
            line("ECG I", "mV", ["-5", "5", "0", "0"], 10),
            "signal \"ECG I\" has no scale: 0 to 0 steps stand for -5 to 5 mV",
        ),
        (
            line("ECG I", "mV", ["-5", "5", "x", "9"], 10),
            "signal \"ECG I\" has no scale: x to 9 steps stand for -5 to 5 mV",
        ),
    ] {
        let error = try_open("x.edf", File { lines: vec![lines], ..plain() }.bytes()).unwrap_err();
        let OpenError::Edf(EdfError::NoSignals { reasons, .. }) = error else { panic!() };
        let reasons: Vec<String> = reasons.iter().map(ToString::to_string).collect();
        assert_eq!(reasons, [reason]);
    }
    let lines = vec![line("ECG I", "mV", RANGE, 10), line("gone", "mV", RANGE, 0)];
    let said = as_plain(&File { lines, ..plain() });
    assert_eq!(said[0].to_string(), "left out: signal \"gone\" has no samples");
    for (file, reason) in [
        (
            File { records: "many".to_owned(), ..plain() },
            "the number of records is given as \"many\" at byte 236",
        ),
        (
            File { duration: String::new(), ..plain() },
            "the duration of a record is given as \"\" at byte 244",
        ),
        (
            File { version: b"1".to_vec(), ..plain() },
            "it does not begin as an EDF or BDF file does",
        ),
        (
            File { lines: Vec::new(), ..plain() },
            "the number of signals is given as \"0\" at byte 252",
        ),
    ] {
        let error = try_open("x.edf", file.bytes()).unwrap_err();
        assert_eq!(error.to_string(), format!("the header of x.edf can't be read: {reason}"));
    }
}

#[test]
fn a_header_that_promises_too_much_takes_no_memory() {
    let lines = vec![line("ECG I", "mV", RANGE, 99_999_999), line("II", "mV", RANGE, 99_999_999)];
    let file = File { records: "99999999".to_owned(), lines, ..plain() };
    let error = try_open("x.edf", file.bytes()).unwrap_err();
    assert_eq!(error.to_string(), "x.edf ends before its first record is complete");
}
