//! Each door that bytes come in by, and what has to hold behind it.
//!
//! The fuzz targets push invented bytes through them, `tests/suite/fuzz_corpus.rs` those that are kept.
//! Whatever comes: no panic, and what is opened keeps the promises of `Recording`.

use beatwalk::formats::{Choices, Opening, SourceFile, open};
use beatwalk::homework::{Assignment, HandIn, Homework, Marker, Marks, marks_csv};
use beatwalk::report::SavedReading;

/// What takes bytes from outside.
pub type Door = fn(&[u8]);

/// Every door by the name of its target and of its folder in the corpus.
pub const DOORS: [(&str, Door); 8] = [
    ("archive", archive),
    ("edf", edf),
    ("files", files),
    ("homework", homework),
    ("saved", saved),
    ("text", text),
    ("wav", wav),
    ("wfdb", wfdb),
];

/// Any bytes as gzip or zip, known by their start.
pub fn archive(bytes: &[u8]) {
    drop_files(&[file("ecg.zip", bytes)]);
}

/// Any bytes as EDF or BDF.
pub fn edf(bytes: &[u8]) {
    drop_files(&[file("ecg.edf", bytes)]);
}

/// Several files dropped together. Each begins with a line of `=` and its name.
pub fn files(bytes: &[u8]) {
    let mut dropped: Vec<SourceFile> = Vec::new();
    for line in bytes.split_inclusive(|&byte| byte == b'\n') {
        match (line.strip_prefix(b"="), dropped.last_mut()) {
            (Some(name), _) => dropped.push(file(String::from_utf8_lossy(name).trim(), &[])),
            (None, Some(last)) => last.bytes.extend(line),
            (None, None) => {}
        }
    }
    drop_files(&dropped);
}

/// Any text as each document of homework and as a file to be marked. A sheet adds up, and what was opened is
/// written and opened again to the same.
pub fn homework(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(assignment) = Assignment::from_json(text) {
        let written = assignment.to_json().expect("what was read can be written");
        assert_eq!(Assignment::from_json(&written).as_ref(), Ok(&assignment));
        let _ = assignment.problems();
        let empty = Homework::of(&assignment).hand_in(String::new()).expect("texts can be written");
        mark(assignment, &empty);
    }
    if let Ok(hand_in) = HandIn::from_json(text) {
        let written = hand_in.homework.hand_in(hand_in.homework.handed_in.clone());
        let again = HandIn::from_json(&written.expect("what was read can be written"));
        assert_eq!(again.map(|again| again.homework).as_ref(), Ok(&hand_in.homework));
    }
    let _ = (Homework::from_json(text), Marks::from_json(text));
    mark(Assignment::default(), text);
}

fn mark(assignment: Assignment, text: &str) {
    let marks = Marks::of(&assignment);
    let mut marker = Marker::new(assignment);
    marker.takes_others = true;
    if let Ok(sheet) = marker.mark("fuzz", text, &mut ()).outcome {
        let total = marks.total(&sheet);
        assert!(total.earned >= 0.0 && total.earned <= total.of, "{total:?}");
        let _ = marks_csv(marker.assignment(), &[sheet], &marks);
    }
}

/// Any text as a saved reading: refused, or read, written and read again to the same.
pub fn saved(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(reading) = SavedReading::from_json(text) else { return };
    let written = reading.to_json().expect("what was read can be written");
    assert_eq!(SavedReading::from_json(&written).as_ref(), Ok(&reading));
}

/// Any bytes as rows of numbers.
pub fn text(bytes: &[u8]) {
    drop_files(&[file("ecg.csv", bytes)]);
}

/// Any bytes as WAV.
pub fn wav(bytes: &[u8]) {
    drop_files(&[file("ecg.wav", bytes)]);
}

/// Any bytes as a record: the header up to the first zero byte, then what all of its signal files hold.
pub fn wfdb(bytes: &[u8]) {
    let end = bytes.iter().position(|&byte| byte == 0).unwrap_or(bytes.len());
    let (header, signal) = bytes.split_at(end);
    // The corpus has several records; all of their signal files are this one.
    let signals = ["r.dat", "o16.dat", "1.dat"].map(|name| file(name, signal));
    drop_files(&[vec![file("r.hea", header)], signals.to_vec()].concat());
}

fn file(name: &str, bytes: &[u8]) -> SourceFile {
    SourceFile { name: name.to_owned(), bytes: bytes.to_vec() }
}

fn drop_files(files: &[SourceFile]) {
    let opening = open(files, &Choices::default(), &mut ());
    if matches!(opening, Ok(Opening::NeedsRate(_))) {
        let answered = Choices { rate_hz: Some(250.0), ..Choices::default() };
        hold(&open(files, &answered, &mut ()));
    }
    hold(&opening);
}

/// Holds what came to what readers promise.
fn hold(opening: &Result<Opening, beatwalk::formats::OpenError>) {
    match opening {
        Ok(Opening::Ready(opened)) => {
            assert!(opened.suggested < opened.traces.len());
            assert!(opened.notes.iter().all(|note| !note.to_string().is_empty()));
            for trace in &opened.traces {
                let length = trace.samples.len();
                assert!(trace.samples.iter().all(|value| value.is_finite()));
                assert!(trace.marks.is_sorted_by_key(|mark| mark.at));
                assert!(trace.marks.iter().all(|mark| mark.at.get() < length));
                let mut before = 0;
                for span in trace.holes.iter().map(|hole| hole.span) {
                    assert!(span.start().get() >= before && !span.is_empty());
                    before = span.end().get();
                }
                assert!(before <= length);
            }
        }
        Ok(Opening::NeedsRate(needs)) => assert!(needs.samples > 0),
        Err(error) => {
            assert!(!error.to_string().is_empty() && error.remedy().to_string().ends_with('.'));
        }
    }
}
