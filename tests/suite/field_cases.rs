//! Text as it comes from sensors, loggers and spreadsheets: each file has to read as it was meant.
//!
//! One row a file: rate, samples, unit, and the notes that have to be there, no more and no fewer.
//! `tests/data/field-cases` are invented signals whose makers know the answers, `tests/data/csv` hold one
//! recording in six shapes; their READMEs say where they come from.

use beatwalk::formats::{Choices, NoteKind, Opened, Opening, SourceFile, open};
use beatwalk::signal::{HoleCause, VoltageUnit};
use std::path::Path;

use VoltageUnit::{Counts, Millivolt, Unstated};

/// File, rate in Hz, samples of each trace, unit, notes.
type Case = (&'static str, f64, &'static [usize], VoltageUnit, &'static [&'static str]);

const CASES: [Case; 32] = [
    (
        "field-cases/o01-semicolon-comma.csv",
        200.0,
        &[1600],
        Millivolt,
        &["DelimiterGuessed", "DecimalComma", "EmptyColumns"],
    ),
    (
        "field-cases/o02-tab-comma.txt",
        250.0,
        &[2000],
        Millivolt,
        &["DelimiterGuessed", "DecimalComma"],
    ),
    (
        "field-cases/o03-bom-comments.csv",
        250.0,
        &[2000],
        Millivolt,
        &["MarkStripped", "CommentsSkipped"],
    ),
    (
        "field-cases/o04-utf16le-bom.txt",
        250.0,
        &[1500],
        Millivolt,
        &["MarkStripped", "Encoding", "DelimiterGuessed"],
    ),
    (
        "field-cases/o05-preamble-footer.csv",
        250.0,
        &[2000],
        Millivolt,
        &["PreambleSkipped", "FooterSkipped", "UnitConverted"],
    ),
    (
        "field-cases/o06-missing-cells.csv",
        250.0,
        &[2500],
        Millivolt,
        &["MissingStretch", "MissingBridged"],
    ),
    (
        "field-cases/o07-rate-in-comment.csv",
        360.0,
        &[3600],
        Millivolt,
        &["CommentsSkipped", "RateFromText", "UnitFromText"],
    ),
    (
        "field-cases/o09-ms-unlabelled.csv",
        250.0,
        &[2000],
        Unstated,
        &["TimeUnitGuessed", "UnitUnknown"],
    ),
    (
        "field-cases/o10-clock-midnight.csv",
        250.0,
        &[2000],
        Millivolt,
        &["ClockTime", "ClockWrapped"],
    ),
    (
        "field-cases/o11-adc-counts.csv",
        1000.0 / 3.0,
        &[3000],
        Counts,
        &["StartsLater", "Uncalibrated"],
    ),
    (
        "field-cases/o12-whole-second-stamps.csv",
        200.0,
        &[1797],
        Millivolt,
        &["ClockTime", "StampsShared"],
    ),
    (
        "field-cases/o13-time-restarts.csv",
        250.0,
        &[1500, 1250],
        Millivolt,
        &["TimeRestarts", "Runs"],
    ),
    ("field-cases/o14-dropped-block.csv", 250.0, &[2000], Millivolt, &["Gap"]),
    (
        "field-cases/o15-nominal-vs-true-rate.csv",
        499.31,
        &[2996],
        Millivolt,
        &["CommentsSkipped", "RateConflict"],
    ),
    ("field-cases/o21-inverted.csv", 250.0, &[2500], Millivolt, &[]),
    ("field-cases/o22-tall-t.csv", 250.0, &[2500], Millivolt, &[]),
    ("field-cases/o23-flat-start.csv", 250.0, &[2500], Millivolt, &[]),
    ("field-cases/o24-noisy-start.csv", 250.0, &[2500], Millivolt, &[]),
    ("field-cases/o25-100hz.csv", 100.0, &[2000], Millivolt, &[]),
    ("field-cases/o26-hum60.csv", 250.0, &[2500], Millivolt, &[]),
    ("field-cases/o27-clipped.csv", 250.0, &[2500], Counts, &["Uncalibrated"]),
    ("field-cases/o28-three-beats.csv", 250.0, &[550], Millivolt, &[]),
    (
        "field-cases/o29-recovery-186.csv",
        125.0,
        &[7500],
        Millivolt,
        &["CommentsSkipped", "RateFromText", "UnitFromText", "UnitConverted"],
    ),
    (
        "field-cases/o40-ragged-rows.csv",
        250.0,
        &[1999],
        Millivolt,
        &["RaggedRows", "LastLineCut", "MissingBridged"],
    ),
    ("csv/v1_comma_seconds_mV.csv", 500.0, &[5000], Millivolt, &[]),
    (
        "csv/v2_semicolon_decimalcomma_bom_crlf.csv",
        500.0,
        &[5000],
        Millivolt,
        &["MarkStripped", "DelimiterGuessed", "DecimalComma"],
    ),
    (
        "csv/v3_preamble_microvolt_onecolumn.csv",
        500.0,
        &[5000],
        Millivolt,
        &["PreambleSkipped", "RateFromText", "UnitFromText", "UnitConverted"],
    ),
    ("csv/v4_tab_ms_counts.txt", 500.0, &[5000], Counts, &["DelimiterGuessed", "Uncalibrated"]),
    (
        "csv/v5_units_row_two_leads_quoted_gaps.csv",
        500.0,
        &[5000, 5000],
        Millivolt,
        &["ValueColumnGuessed", "MissingBridged"],
    ),
    (
        "csv/v6_latin1_microvolt_jitter.csv",
        500.0,
        &[5000],
        Millivolt,
        &["Encoding", "DelimiterGuessed", "Jitter", "UnitConverted"],
    ),
    (
        "csv/biosppy_ecg.txt",
        1000.0,
        &[15_000],
        Counts,
        &["CommentsSkipped", "RateFromText", "UnitFromText", "Uncalibrated"],
    ),
    (
        "field-cases/o08-one-column-no-rate.csv",
        0.0,
        &[2500],
        Unstated,
        &["UnitUnknown", "RateUnknown"],
    ),
];

pub(crate) fn file(name: &str) -> SourceFile {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(name);
    SourceFile { name: name.to_owned(), bytes: std::fs::read(path).unwrap() }
}

pub(crate) fn opened(name: &str, choices: &Choices) -> Opened {
    match open(&[file(name)], choices, &mut ()) {
        Ok(Opening::Ready(opened)) => opened,
        other => panic!("{name}: {other:?}"),
    }
}

/// The name of each kind of note, without what it says.
fn kinds<'a>(notes: impl IntoIterator<Item = &'a beatwalk::formats::Note>) -> Vec<String> {
    let kind = |note: &beatwalk::formats::Note| match &note.kind {
        NoteKind::Text(note) => {
            let text = format!("{note:?}");
            text.split(|sign: char| !sign.is_alphanumeric()).next().unwrap_or_default().to_owned()
        }
        other => panic!("{other:?} from a text reader"),
    };
    let mut kinds: Vec<String> = notes.into_iter().map(kind).collect();
    kinds.sort();
    kinds
}

#[test]
fn every_file_reads_as_it_was_meant() {
    let mut wrong = Vec::new();
    for (name, hz, samples, unit, notes) in CASES {
        let (rates, found, units, said) = match open(&[file(name)], &Choices::default(), &mut ()) {
            Ok(Opening::Ready(opened)) => (
                opened.traces.iter().map(|trace| trace.rate.hz()).collect(),
                opened.traces.iter().map(|trace| trace.recorded_samples()).collect(),
                opened.traces.iter().map(|trace| trace.unit).collect(),
                opened.notes,
            ),
            Ok(Opening::NeedsRate(asked)) => {
                (vec![0.0], vec![asked.samples], vec![Unstated], asked.notes)
            }
            Err(error) => panic!("{name}: {error}"),
        };
        let mut wanted: Vec<String> = notes.iter().map(|note| (*note).to_owned()).collect();
        wanted.sort();
        let rates_agree = rates.iter().all(|rate: &f64| {
            (rate - hz).abs() <= hz * 2e-4 * f64::from(u8::from(hz == 499.31)) + 1e-9
        });
        if !rates_agree
            || found != samples
            || units.iter().any(|found| *found != unit)
            || kinds(&said) != wanted
        {
            let said: Vec<String> =
                said.iter().map(|note| format!("{note} {:?}", note.place)).collect();
            wrong.push(format!(
                "{name}: {rates:?} Hz, {found:?} samples, {units:?}\n  {}",
                said.join("\n  ")
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn six_shapes_of_one_recording_hold_the_same_values() {
    let reference = opened("csv/v1_comma_seconds_mV.csv", &Choices::default()).traces.remove(0);
    // The scale, the offset and half a step of rounding of each shape, in mV.
    for (name, scale, offset, tolerance) in [
        ("csv/v2_semicolon_decimalcomma_bom_crlf.csv", 1.0, 0.0, 1e-6),
        ("csv/v3_preamble_microvolt_onecolumn.csv", 1.0, 0.0, 1e-6),
        ("csv/v4_tab_ms_counts.txt", 200.0, 512.0, 0.0026),
        ("csv/v6_latin1_microvolt_jitter.csv", 1.0, 0.0, 0.00051),
    ] {
        let trace = opened(name, &Choices::default()).traces.remove(0);
        for (at, (value, truth)) in trace.samples.iter().zip(reference.samples.iter()).enumerate() {
            let value = (value - offset) / scale;
            assert!(
                (value - truth).abs() <= tolerance,
                "{name}, sample {at}: {value} is not {truth}"
            );
        }
    }
}

#[test]
fn missing_values_are_where_the_file_lacks_them() {
    let trace = opened("field-cases/o06-missing-cells.csv", &Choices::default()).traces.remove(0);
    let holes: Vec<_> = trace.holes.iter().map(|hole| (hole.span.range(), hole.cause)).collect();
    assert_eq!(holes, [(1126..1226, HoleCause::NoValue)]);
    assert!(trace.samples.iter().all(|value| value.is_finite()));

    let trace = opened("field-cases/o14-dropped-block.csv", &Choices::default()).traces.remove(0);
    let holes: Vec<_> = trace.holes.iter().map(|hole| (hole.span.range(), hole.cause)).collect();
    assert_eq!((holes, trace.samples.len()), (vec![(1000..1375, HoleCause::NoRows)], 2375));
}

#[test]
fn notes_name_the_line_counted_from_the_top() {
    for (name, kind, line) in [
        ("field-cases/o05-preamble-footer.csv", "FooterSkipped", 2012),
        ("field-cases/o07-rate-in-comment.csv", "RateFromText", 1),
        ("field-cases/o13-time-restarts.csv", "TimeRestarts", 1502),
        ("field-cases/o14-dropped-block.csv", "Gap", 1002),
        ("field-cases/o40-ragged-rows.csv", "RaggedRows", 702),
        ("field-cases/o40-ragged-rows.csv", "LastLineCut", 2001),
        ("field-cases/o06-missing-cells.csv", "MissingStretch", 1128),
        ("field-cases/o10-clock-midnight.csv", "ClockWrapped", 1002),
    ] {
        let notes = opened(name, &Choices::default()).notes;
        let note = notes.iter().find(|note| kinds([*note]) == [kind]);
        let found = note.and_then(|note| note.place).map(|place| place.line);
        assert_eq!(found, Some(line), "{name}: {kind}");
    }
    let ragged = opened("field-cases/o40-ragged-rows.csv", &Choices::default()).notes;
    assert!(ragged.iter().any(|note| note.to_string().contains("lines 702 and 1202")));
}
