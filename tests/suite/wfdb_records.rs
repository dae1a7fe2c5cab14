//! Every open WFDB record in `tests/data` reads as another reader has it.
//!
//! `expected-wfdb.json` was made with the public Python package `wfdb`; see `tests/data/README.md`.

use beatwalk::formats::{
    Choices, Format, NoteKind, OpenError, Opened, Opening, SourceFile, WfdbError, WfdbFault,
    WfdbNote, open,
};
use beatwalk::signal::{HoleCause, MarkKind, Recording, VoltageUnit};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn data(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(path)
}

fn file(path: &str) -> SourceFile {
    let path = data(path);
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    SourceFile { name, bytes: std::fs::read(&path).unwrap() }
}

fn made(name: &str, bytes: impl Into<Vec<u8>>) -> SourceFile {
    SourceFile { name: name.to_owned(), bytes: bytes.into() }
}

fn opened(files: &[SourceFile]) -> Opened {
    match open(files, &Choices::default(), &mut ()).unwrap() {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(_) => panic!("a header always has a rate"),
    }
}

fn refused(files: &[SourceFile]) -> WfdbError {
    match open(files, &Choices::default(), &mut ()) {
        Err(OpenError::Wfdb(error)) => error,
        other => panic!("{other:?}"),
    }
}

fn notes(opened: &Opened) -> Vec<WfdbNote> {
    let kinds = opened.notes.iter().map(|note| note.kind.clone());
    kinds
        .filter_map(|kind| if let NoteKind::Wfdb(note) = kind { Some(note) } else { None })
        .collect()
}

/// The steps of the converter, worked back from the millivolts.
fn steps(trace: &Recording, lead: &Value) -> Vec<i64> {
    let gain = lead["gain_adc_per_unit"].as_f64().unwrap();
    let baseline = lead["baseline_adc"].as_f64().unwrap();
    trace.samples.iter().map(|&mv| (f64::from(mv) * gain + baseline).round() as i64).collect()
}

fn whole_numbers(list: &Value) -> Vec<i64> {
    list.as_array().unwrap().iter().map(|number| number.as_i64().unwrap()).collect()
}

/// All files of a record that the table knows, as a student would drop them.
fn record(name: &str, expected: &Value) -> Vec<SourceFile> {
    let mut files = vec![file(&format!("{name}.hea")), file(&format!("{name}.dat"))];
    if data(&format!("{name}.xyz")).exists() {
        files.push(file(&format!("{name}.xyz")));
    }
    for ending in expected["annotations"].as_object().unwrap().keys() {
        files.push(file(&format!("{name}.{ending}")));
    }
    files
}

#[test]
fn every_record_has_the_samples_another_reader_finds() {
    let table: BTreeMap<String, Value> =
        serde_json::from_slice(&file("expected-wfdb.json").bytes).unwrap();
    assert_eq!(table.len(), 165);
    for (name, expected) in &table {
        let opened = opened(&record(name, expected));
        assert_eq!(opened.format, Format::Wfdb);
        assert_eq!(notes(&opened), [], "{name}: first values and checksums agree");
        let leads = expected["leads"].as_array().unwrap();
        assert_eq!(opened.traces.len(), leads.len(), "{name}");
        for (trace, lead) in opened.traces.iter().zip(leads) {
            assert_eq!(trace.name, lead["name"].as_str().unwrap(), "{name}");
            assert_eq!(trace.rate.hz(), expected["fs_hz"].as_f64().unwrap(), "{name}");
            assert_eq!(trace.unit, VoltageUnit::Millivolt, "{name}");
            let count = expected["n_samples"].as_u64().unwrap() as usize;
            assert_eq!((trace.samples.len(), trace.recorded_samples()), (count, count), "{name}");
            assert!(trace.holes.is_empty(), "{name}");
            let steps = steps(trace, lead);
            assert_eq!(steps[..5], whole_numbers(&lead["first5_adc"]), "{name}");
            assert_eq!(steps.last().copied(), lead["last_adc"].as_i64(), "{name}");
            assert_eq!(steps.iter().sum::<i64>(), lead["sum_adc"].as_i64().unwrap(), "{name}");
            for (found, right) in
                trace.samples.iter().zip(lead["first5_physical"].as_array().unwrap())
            {
                let right = right.as_f64().unwrap();
                assert!((f64::from(*found) - right).abs() < 1e-6, "{name}: {found} for {right}");
            }
        }
    }
}

#[test]
fn every_annotation_file_has_the_marks_another_reader_finds() {
    let table: BTreeMap<String, Value> =
        serde_json::from_slice(&file("expected-wfdb.json").bytes).unwrap();
    let mut compared = 0;
    for (name, expected) in &table {
        for (ending, expected) in expected["annotations"].as_object().unwrap() {
            let mut files = vec![file(&format!("{name}.hea")), file(&format!("{name}.dat"))];
            files.push(file(&format!("{name}.{ending}")));
            let opened = opened(&files);
            let its_own = opened.traces.iter().find(|trace| trace.name == *ending);
            let marks = &its_own.unwrap_or(&opened.traces[0]).marks;
            let at: Vec<i64> = marks.iter().map(|mark| mark.at.get() as i64).collect();
            let symbols: Vec<&str> = marks
                .iter()
                .map(|mark| match mark.kind {
                    MarkKind::Beat(_) => "",
                    MarkKind::Note => mark.text.split(' ').next().unwrap(),
                })
                .collect();
            let beats = marks.iter().filter(|mark| matches!(mark.kind, MarkKind::Beat(_)));
            assert_eq!(Some(beats.count() as u64), expected["beats"].as_u64(), "{name}.{ending}");
            assert_eq!(Some(at.len() as u64), expected["count"].as_u64(), "{name}.{ending}");
            let first = whole_numbers(&expected["first5_samples"]);
            assert_eq!(at[..first.len()], first, "{name}.{ending}");
            assert_eq!(at.last().copied(), expected["last_sample"].as_i64(), "{name}.{ending}");
            for (symbol, right) in expected["symbol_counts"].as_object().unwrap() {
                let found = marks.iter().zip(&symbols).filter(|(mark, text)| match mark.kind {
                    MarkKind::Beat(code) => code.0.to_string() == *symbol,
                    MarkKind::Note => *text == symbol,
                });
                assert_eq!(Some(found.count() as u64), right.as_u64(), "{name}.{ending}: {symbol}");
            }
            compared += 1;
        }
    }
    assert_eq!(compared, 10 + 100 + 11 + 11 + 1);
}

#[test]
fn an_odd_number_of_packed_samples_is_read_to_the_last() {
    let opened = opened(&[file("field-cases/o16.hea"), file("field-cases/o16.dat")]);
    let trace = &opened.traces[opened.suggested];
    assert_eq!((trace.name.as_str(), trace.samples.len()), ("lead I", 2501));
    assert_eq!(trace.rate.hz(), 250.0);
    // mV = (step + 20) / 200; lowest, highest, first and last step as the file was made.
    let steps: Vec<i64> =
        trace.samples.iter().map(|&mv| (f64::from(mv) * 200.0).round() as i64 - 20).collect();
    assert_eq!((steps.iter().min(), steps.iter().max()), (Some(&-82), Some(&205)));
    assert_eq!((steps.first(), steps.last()), (Some(&-4), Some(&10)));
    assert_eq!(notes(&opened), []);
}

#[test]
fn lead_one_is_suggested() {
    for (files, name) in [
        ([file("ludb/1.dat"), file("ludb/1.hea")].to_vec(), "i"),
        ([file("ecgid/ecgid_a.hea"), file("ecgid/ecgid_a.dat")].to_vec(), "ECG I"),
        ([file("mitdb/100.hea"), file("mitdb/100.dat")].to_vec(), "MLII"),
    ] {
        let opened = opened(&files);
        assert_eq!(opened.traces[opened.suggested].name, name);
    }
}

#[test]
fn a_file_without_its_partner_names_the_one_to_drop() {
    let error = refused(&[file("field-cases/o16.hea")]);
    assert_eq!(error.to_string(), "the header o16.hea holds no samples: they are in o16.dat");
    assert_eq!(error.remedy().to_string(), "Drop o16.dat together with o16.hea.");
    for (alone, header) in [("field-cases/o16.dat", "o16.hea"), ("mitdb/100.atr", "100.hea")] {
        let error = refused(&[file(alone)]);
        assert_eq!(
            error.remedy().to_string(),
            format!("Drop {header} together with {}.", file(alone).name)
        );
    }
}

#[test]
fn one_signal_file_of_two_is_better_than_none() {
    let opened = opened(&[file("ptbdb/s0010_re.hea"), file("ptbdb/s0010_re.dat")]);
    assert_eq!(opened.traces.len(), 12);
    let signals = ["vx", "vy", "vz"].map(str::to_owned).to_vec();
    let missing = WfdbNote::SignalFileMissing { file: "s0010_re.xyz".to_owned(), signals };
    assert_eq!(notes(&opened), [missing]);
}

#[test]
fn a_signal_file_cut_short_gives_its_whole_samples() {
    let mut cut = file("field-cases/o16.dat");
    cut.bytes.truncate(1000);
    let opened = opened(&[file("field-cases/o16.hea"), cut]);
    assert_eq!(opened.traces[0].samples.len(), 666);
    let file = "o16.dat".to_owned();
    assert_eq!(notes(&opened), [WfdbNote::Truncated { file, missing: 1835, stated: 2501 }]);
    let nothing = refused(&[self::file("field-cases/o16.hea"), made("o16.dat", [])]);
    assert_eq!(nothing, WfdbError::NoSamples { file: "o16.dat".to_owned() });
}

#[test]
fn a_changed_file_is_noticed() {
    let mut changed = file("field-cases/o16.dat");
    changed.bytes[0] ^= 1;
    let opened = opened(&[file("field-cases/o16.hea"), changed]);
    let signal = || "lead I".to_owned();
    let first = WfdbNote::FirstValueDiffers { signal: signal(), stated: -4, found: -3 };
    assert_eq!(notes(&opened), [first, WfdbNote::ChecksumDiffers { signal: signal() }]);
}

#[test]
fn missing_values_are_bridged_or_become_a_hole() {
    let mut words = [100i16; 40];
    words[3] = i16::MIN;
    words[20..30].fill(i16::MIN);
    let bytes: Vec<u8> = words.iter().flat_map(|word| word.to_le_bytes()).collect();
    let opened = opened(&[made("r.hea", "r 1 250 40\nr.dat 16 100/mV\n"), made("r.dat", bytes)]);
    let trace = &opened.traces[0];
    assert!(trace.samples.iter().all(|&mv| mv == 1.0));
    let holes: Vec<_> = trace.holes.iter().map(|hole| (hole.span.range(), hole.cause)).collect();
    assert_eq!(holes, [(20..30, HoleCause::NoValue)]);
    let signal = || "line 2".to_owned();
    let said = [
        WfdbNote::Bridged { signal: signal(), samples: 1 },
        WfdbNote::Holes { signal: signal(), holes: 1, samples: 10 },
    ];
    assert_eq!(notes(&opened), said);
}

#[test]
fn each_signal_has_its_own_unit_and_rate() {
    let header = "r 4\nr.dat 80 1000/uV 0 0 100 300 0 I\nr.dat 80x2 0 0 0 10 90 0 second\n\
                  r.dat 80 10/l 0 0 10 30 0 breath\nr.dat 80:1 1/V 0 0 1 3 0 late\n";
    let frame = [228, 138, 148, 138, 129];
    let opened = opened(&[made("r.hea", header), made("r.dat", frame.repeat(3))]);
    let [first, second, breath, late] = opened.traces.as_slice() else { panic!() };
    assert!((first.samples[0] - 0.0001).abs() < 1e-9, "100 steps of 1000 to a microvolt");
    assert_eq!((first.rate.hz(), second.rate.hz()), (250.0, 500.0));
    assert_eq!(second.samples[..2], [0.05, 0.1], "200 steps to one mV where no gain is given");
    assert_eq!((breath.unit, breath.samples[0]), (VoltageUnit::Unstated, 1.0));
    assert_eq!((late.samples.len(), late.samples[0]), (2, 1000.0));
    let signal = |name: &str| name.to_owned();
    let said = [
        WfdbNote::RateAssumed,
        WfdbNote::Converted { signal: signal("I"), unit: "uV".to_owned() },
        WfdbNote::GainAssumed { signal: signal("second"), unit: "mV".to_owned() },
        WfdbNote::NoVoltage { signal: signal("breath"), unit: "l".to_owned() },
        WfdbNote::Converted { signal: signal("late"), unit: "V".to_owned() },
        WfdbNote::Skewed { signal: signal("late"), frames: 1 },
    ];
    assert_eq!(notes(&opened), said);
    assert_eq!(opened.suggested, 0);
}

#[test]
fn a_file_that_only_shares_the_name_leaves_no_marks() {
    let files = ["ecgid/ecgid_a.hea", "ecgid/ecgid_a.dat", "ecgid/ecgid_a.csv"].map(file);
    let opened = opened(&files);
    assert!(opened.traces[0].marks.is_empty());
    assert_eq!(notes(&opened), [WfdbNote::MarksUnread { file: "ecgid_a.csv".to_owned() }]);
}

#[test]
fn a_header_that_makes_no_sense_says_where() {
    let error = refused(&[made("r.hea", "r 1 250\nr.dat 516 200\n"), made("r.dat", [0, 0])]);
    let WfdbError::Header { place, fault, .. } = &error else { panic!("{error:?}") };
    assert_eq!(place.line, 2);
    assert_eq!(*fault, WfdbFault::StorageFormat { found: "516".to_owned() });
    assert!(error.to_string().starts_with("line 2 of the header r.hea can't be read: "));
}

#[test]
fn a_file_fetched_twice_is_known() {
    let (header, signal) = (file("field-cases/o16.hea"), file("field-cases/o16.dat"));
    let whole = opened(&[header.clone(), signal.clone()]);
    let copies = [made("o16 (2).hea", header.bytes), made("O16 (1).DAT", signal.bytes.clone())];
    assert_eq!(opened(&copies).traces, whole.traces);
    // The one that is called so to the letter comes first.
    let files = [copies[0].clone(), made("o16 (1).dat", [0; 9]), made("o16.dat", signal.bytes)];
    assert_eq!(opened(&files).traces, whole.traces);
}

#[test]
fn signals_without_values_are_left_out() {
    let header = "r 2 250 4\n~ 0 200/mV 12 0 0 0 0 I\nr.dat 80 1/mV 8 0 1 10 0 II\n";
    let opened = opened(&[made("r.hea", header), made("r.dat", [129, 130, 131, 132])]);
    assert_eq!((opened.traces.len(), opened.traces[0].name.as_str()), (1, "II"));
    assert_eq!(notes(&opened), [WfdbNote::OnlyDescribed { signals: vec!["I".to_owned()] }]);
    let error = refused(&[made("r.hea", "r 1 250 0\n~ 0 200/mV 12 0 0 0 0 I\n")]);
    let said = "the header r.hea only describes its signals: nothing was recorded";
    assert_eq!(error.to_string(), said);
}
