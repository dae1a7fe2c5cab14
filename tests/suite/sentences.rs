//! Every sentence a reader can say, listed in `tests/golden/sentences.txt` to be read by a person:
//! what is wrong and where, what to do, and what was guessed or repaired.
//!
//! The list has an example of each variant of each enum; that none is forgotten is checked against the
//! sources, where the variants stand.

use super::golden::assert_golden;
use beatwalk::formats::{
    ArchiveError, ArchiveNote, Delimiter, EdfError, EdfFault, EdfField, EdfNote, LeftOut, LineList,
    Note, NoteKind, OpenError, Place, SignalFault, TextError, TextNote, TimeUnit, ValueUnit,
    WavError, WavFault, WavNote, WfdbError, WfdbFault, WfdbNote,
};
use beatwalk::report::{SavedError, SavedReading};
use beatwalk::signal::{Calibration, Converter, Millivolts, UnusableRate};
use beatwalk::words::Phrase;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const FILE: &str = "ada.csv";

fn named(name: &str) -> String {
    name.to_owned()
}

fn several(names: &[&str]) -> Vec<String> {
    names.iter().map(|&name| name.to_owned()).collect()
}

fn reasons() -> Vec<Phrase> {
    vec!["one".into(), "another".into()]
}

fn lines(numbers: &[usize]) -> LineList {
    let mut list = LineList::default();
    list.extend(numbers.iter().copied());
    list
}

const PLACE: Place = Place { line: 12, column: Some(2) };

fn errors() -> Vec<OpenError> {
    let file = || named(FILE);
    let mut all = vec![
        OpenError::Empty { file: file() },
        OpenError::TooLarge { bytes: 3 << 30, file: file() },
        OpenError::NotARecording { kind: Phrase::message("faults.kind.pdf"), file: file() },
        OpenError::SavedWork { file: named("ada.beatwalk.json") },
    ];
    all.extend(text_errors().into_iter().map(OpenError::from));
    all.extend(wfdb_errors().into_iter().map(OpenError::from));
    all.extend(edf_errors().into_iter().map(OpenError::from));
    all.extend(wav_errors().into_iter().map(OpenError::from));
    all.extend(archive_errors().into_iter().map(OpenError::from));
    all
}

fn text_errors() -> Vec<TextError> {
    let file = || named(FILE);
    vec![
        TextError::NoNumbers { line: 3, says: named("time,ecg"), file: file() },
        TextError::NoValues { place: PLACE, file: file() },
        TextError::TooFewRows { rows: 7, line: 2, file: file() },
        TextError::CommaForBoth { line: 4, file: file() },
        TextError::CommaInThousands { line: 252, file: file() },
        TextError::BothMarks { line: 2, file: file() },
        TextError::JsonWithoutTable { file: file() },
        TextError::NoSuchColumn { column: 5, columns: 2, file: file() },
        TextError::Rate(UnusableRate(-250.0)),
        TextError::SeveralFiles { count: 4 },
    ]
}

fn wfdb_errors() -> Vec<WfdbError> {
    let header = || named("ada.hea");
    let found = || named("ada.dat 99 200");
    let faults = vec![
        WfdbFault::NoRecordLine,
        WfdbFault::RecordLine { found: found() },
        WfdbFault::NoSignals,
        WfdbFault::SegmentLine { found: found() },
        WfdbFault::SegmentLineCount { stated: 3, found: 2 },
        WfdbFault::Rate { found: named("-5") },
        WfdbFault::SignalLineCount { stated: 2, found: 1 },
        WfdbFault::SignalLine { found: found() },
        WfdbFault::StorageFormat { found: named("99") },
        WfdbFault::MixedFormats { file: named("ada.dat") },
        WfdbFault::Gain { found: named("high") },
    ];
    let mut all: Vec<WfdbError> = faults
        .into_iter()
        .map(|fault| WfdbError::Header { header: header(), place: PLACE, fault })
        .collect();
    all.extend([
        WfdbError::SignalFileMissing { header: header(), missing: several(&["a.dat", "b.dat"]) },
        WfdbError::HeaderMissing { file: named("ada.dat"), header: header() },
        WfdbError::NoSamples { file: named("ada.dat") },
        WfdbError::OnlyDescribed { header: header() },
        WfdbError::NoSegments { header: header(), reasons: reasons() },
        WfdbError::RateTooHigh { header: header(), place: PLACE, hz: 4.0e9 },
    ]);
    all
}

fn edf_errors() -> Vec<EdfError> {
    let file = || named("ada.edf");
    let faults = [
        EdfFault::OtherKind,
        EdfFault::Short { expected: 768, found: 300 },
        EdfFault::Field { field: EdfField::Signals, found: named("two"), offset: 252 },
    ];
    let mut all: Vec<EdfError> =
        faults.into_iter().map(|fault| EdfError::Header { file: file(), fault }).collect();
    let reasons = signal_faults();
    all.extend([
        EdfError::NoRecords { file: file() },
        EdfError::OnlyAnnotations { file: file() },
        EdfError::NoSignals { file: file(), reasons },
    ]);
    all
}

fn signal_faults() -> Vec<SignalFault> {
    let signal = || named("ECG");
    vec![
        SignalFault::NoScale {
            signal: signal(),
            digital: named("0"),
            physical: named("10"),
            unit: named("mV"),
        },
        SignalFault::NoRate { signal: signal(), samples: 0, seconds: 1.0 },
        SignalFault::Empty { signal: signal() },
    ]
}

fn wav_errors() -> Vec<WavError> {
    let file = || named("ada.wav");
    let faults = [
        WavFault::OtherKind,
        WavFault::ChunkMissing { chunk: "data" },
        WavFault::FormatShort { found: 12 },
        WavFault::Encoding { form: 85, bits: 0 },
        WavFault::NoChannels,
        WavFault::Frame { channels: 2, bits: 16, expected: 4, found: 3 },
        WavFault::Rate { hz: 0 },
    ];
    let header = |fault| WavError::Header { file: file(), fault };
    faults.into_iter().map(header).chain([WavError::NoSamples { file: file() }]).collect()
}

fn archive_errors() -> Vec<ArchiveError> {
    let file = || named("class.zip");
    vec![
        ArchiveError::Damaged { file: file() },
        ArchiveError::Nothing { file: file() },
        ArchiveError::TooLarge { file: file() },
        ArchiveError::Swells { file: file() },
        ArchiveError::Nested { member: named("inner.zip"), file: file() },
        ArchiveError::Locked { member: named(FILE), file: file() },
        ArchiveError::NothingReadable { file: file(), reasons: reasons() },
    ]
}

fn calibrations() -> Vec<String> {
    let converter = |range, bits, gain| {
        let range = Millivolts::new(range);
        Calibration::of_converter(Converter { range, bits, gain }, 512.0)
    };
    let refused = [
        converter(-5.0, 10, 1.0),
        converter(5000.0, 0, 1.0),
        converter(5000.0, 10, 0.0),
        Calibration::new(0.0, 0.0),
        Calibration::new(1.0, f64::NAN),
    ];
    refused.into_iter().map(|one| one.unwrap_err().to_string()).collect()
}

fn saved_errors() -> Vec<SavedError> {
    let misplaced = SavedReading::from_json("not json").unwrap_err();
    vec![
        misplaced,
        SavedError::Unwritable { why: named("a number is infinite") },
        SavedError::SomethingElse { wanted: Phrase::message("faults.saved.wanted.reading") },
        SavedError::Newer { found: 9 },
        SavedError::Undecodable { why: named("Invalid symbol 37, offset 0.") },
        SavedError::SampleCount { found: 3999, stated: 4000 },
        SavedError::NotANumber { sample: 17 },
        SavedError::Misplaced {
            what: Phrase::message("faults.saved.what.mark"),
            sample: 4000,
            samples: 4000,
        },
        SavedError::OtherRecording(beatwalk::lesson::MisplacedAnswer { sample: 9, samples: 8 }),
    ]
}

fn text_notes() -> Vec<TextNote> {
    let one = || lines(&[3]);
    let many = || lines(&[3, 5, 8, 13, 21, 34, 55]);
    let name = || named("ECG (mV)");
    let mut all = vec![
        TextNote::MarkStripped,
        TextNote::Encoding(named("windows-1252")),
        TextNote::JsonSetOut,
        TextNote::NamesBesideValues,
        TextNote::DecimalComma,
        TextNote::CommaSeparates,
        TextNote::ThousandsParted,
        TextNote::BracketsForMinus,
        TextNote::PreambleSkipped(lines(&[1, 2])),
        TextNote::CommentsSkipped(one()),
        TextNote::FooterSkipped(one()),
        TextNote::TextSkipped(many()),
        TextNote::EmptyColumns(1),
        TextNote::EmptyColumns(2),
        TextNote::ColumnsLimited(64),
        TextNote::RaggedRows(many()),
        TextNote::LastLineCut,
        TextNote::UnreadableCells(many()),
        TextNote::BlocksUnrolled(10),
        TextNote::ColumnsLikeBlocks(4),
        TextNote::ColumnsAreSignals(4),
        TextNote::TimeColumnGuessed(named("t")),
        TextNote::ValueColumnGuessed(name()),
        TextNote::MarksFrom { column: named("event"), marks: 1 },
        TextNote::MarksFrom { column: named("event"), marks: 3 },
        TextNote::UnitUnknown,
        TextNote::Uncalibrated,
        TextNote::ValuesUnlikely(48_000.0),
        TextNote::ClockTime,
        TextNote::ClockWrapped,
        TextNote::StartsLater(12.5),
        TextNote::StampsShared(249.96),
        TextNote::Jitter(0.73),
        TextNote::RateFromText(250.0),
        TextNote::RateUnknown,
        TextNote::RateConflict { stated: 200.0, found: 198.5 },
        TextNote::RateUnlikely(0.25),
        TextNote::RowsBridged(many()),
        TextNote::Gap { rows: 250, seconds: 1.0 },
        TextNote::FirstRowApart(12.0),
        TextNote::MoreGaps { gaps: 4, samples: 900 },
        TextNote::TimeRestarts,
        TextNote::LongPause(61.0),
        TextNote::RunSaid,
        TextNote::Runs(3),
        TextNote::OwnTimes(2),
        TextNote::PartLeftOut(named("t2")),
        TextNote::RunsNamed(lines(&[40, 80])),
        TextNote::ShortRunsLeftOut(12),
        TextNote::BackwardStamps(one()),
        TextNote::MissingStamps(many()),
        TextNote::RepeatedRows(many()),
        TextNote::StampsUnusable,
        TextNote::MissingBridged(1),
        TextNote::MissingBridged(12),
        TextNote::MissingStretch { samples: 250, seconds: 1.0 },
    ];
    let delimiters =
        [Delimiter::Comma, Delimiter::Semicolon, Delimiter::Tab, Delimiter::Space, Delimiter::Bar];
    all.extend(delimiters.map(TextNote::DelimiterGuessed));
    let reasons = [LeftOut::Constant, LeftOut::Switch, LeftOut::Counter, LeftOut::Words];
    all.extend(reasons.map(|why| TextNote::ColumnLeftOut(named("battery"), why)));
    let units = [
        ValueUnit::Volt,
        ValueUnit::Millivolt,
        ValueUnit::Microvolt,
        ValueUnit::Nanovolt,
        ValueUnit::Counts,
    ];
    all.extend(units.map(TextNote::UnitConverted));
    all.extend(units.map(TextNote::UnitFromText));
    let times = [
        TimeUnit::Second,
        TimeUnit::Millisecond,
        TimeUnit::Microsecond,
        TimeUnit::Nanosecond,
        TimeUnit::Hour,
        TimeUnit::Day,
        TimeUnit::Minute,
        TimeUnit::Clock,
        TimeUnit::SampleNumber,
    ];
    all.extend(times.map(TextNote::TimeUnitGuessed));
    all
}

fn wfdb_notes() -> Vec<WfdbNote> {
    let signal = || named("I");
    let file = || named("ada.dat");
    vec![
        WfdbNote::RateAssumed,
        WfdbNote::GainAssumed { signal: signal(), unit: named("mV") },
        WfdbNote::Converted { signal: signal(), unit: named("uV") },
        WfdbNote::NoVoltage { signal: signal(), unit: named("mmHg") },
        WfdbNote::Truncated { file: file(), missing: 20, stated: 5000 },
        WfdbNote::LeftOver { file: file(), left: 20 },
        WfdbNote::SignalFileMissing { file: file(), signals: several(&["I", "II"]) },
        WfdbNote::FirstValueDiffers { signal: signal(), stated: 12, found: 13 },
        WfdbNote::ChecksumDiffers { signal: signal() },
        WfdbNote::Bridged { signal: signal(), samples: 3 },
        WfdbNote::Holes { signal: signal(), holes: 2, samples: 700 },
        WfdbNote::Skewed { signal: signal(), frames: 5 },
        WfdbNote::OnlyDescribed { signals: several(&["I", "II"]) },
        WfdbNote::SegmentsMissing { files: several(&["part2.hea"]) },
        WfdbNote::SegmentsLeftOut { reasons: reasons() },
        WfdbNote::Stretches { stretches: 3 },
        WfdbNote::Seldom { signals: several(&["II"]) },
        WfdbNote::MarksUnread { file: named("ada.atr") },
        WfdbNote::MarksCut { file: named("ada.atr") },
        WfdbNote::MarksBeyond { file: named("ada.atr"), beyond: 4 },
        WfdbNote::OtherRecords { opened: named("ada"), others: several(&["ben", "cy"]) },
    ]
}

fn edf_notes() -> Vec<EdfNote> {
    let signal = || named("ECG");
    let mut all: Vec<EdfNote> = signal_faults().into_iter().map(EdfNote::SignalRefused).collect();
    all.extend([
        EdfNote::RecordsCounted { records: 30 },
        EdfNote::Truncated { stated: 30, whole: 28, bytes: 100 },
        EdfNote::LeftOver { stated: 30, bytes: 100 },
        EdfNote::HeaderLength { expected: 512, stated: 256, taken: 512 },
        EdfNote::TimesDiffer,
        EdfNote::Converted { signals: several(&["ECG (uV)"]) },
        EdfNote::NoVoltage { signal: signal(), unit: named("mmHg") },
        EdfNote::NoUnit { signal: signal() },
        EdfNote::Interrupted { breaks: 2, seconds: 3.5 },
        EdfNote::Parts { parts: 3 },
        EdfNote::PartsLeftOut { taken: 64, records: 9 },
        EdfNote::AnnotationsDamaged { count: 2 },
        EdfNote::OtherFiles { opened: named("ada.edf"), others: several(&["ben.edf"]) },
    ]);
    all
}

fn wav_notes() -> Vec<WavNote> {
    vec![
        WavNote::Steps { bits: 16 },
        WavNote::NoUnit,
        WavNote::LengthCounted { frames: 2500 },
        WavNote::Truncated { stated: 5000, frames: 2500 },
        WavNote::LeftOver { bytes: 1 },
        WavNote::NoNumbers { count: 3 },
        WavNote::OtherFiles { opened: named("ada.wav"), others: several(&["ben.wav"]) },
    ]
}

fn archive_notes() -> Vec<ArchiveNote> {
    let file = || named("class.zip");
    let within = Note { kind: WavNote::NoUnit.into(), place: None };
    vec![
        ArchiveNote::Unpacked {
            file: file(),
            members: several(&["a", "b", "c", "d", "e", "f", "g", "h"]),
        },
        ArchiveNote::CutOff { file: file() },
        ArchiveNote::Behind { file: file(), bytes: 12 },
        ArchiveNote::LeftOut { member: named("notes.pdf"), reason: "no recording".into() },
        ArchiveNote::BesideRecord { record: "ada".into(), members: several(&["notes.txt"]) },
        ArchiveNote::TooMany { taken: 200, rest: 12 },
        ArchiveNote::Within { member: named("ada.wav"), note: Box::new(within) },
    ]
}

fn notes() -> Vec<Note> {
    let note = |kind| Note { kind, place: None };
    let mut all: Vec<Note> = text_notes().into_iter().map(NoteKind::from).map(note).collect();
    all.push(Note { kind: TextNote::TimeRestarts.into(), place: Some(PLACE) });
    all.extend(wfdb_notes().into_iter().map(NoteKind::from).map(note));
    all.extend(edf_notes().into_iter().map(NoteKind::from).map(note));
    all.extend(wav_notes().into_iter().map(NoteKind::from).map(note));
    all.extend(archive_notes().into_iter().map(NoteKind::from).map(note));
    all
}

#[test]
fn every_sentence_is_as_it_was_read() {
    let mut list = String::from("== What can't be opened: what is wrong, then what to do\n");
    for error in errors() {
        list += &format!("{error}\n    -> {}\n", error.remedy());
    }
    list += "\n== What is no scale\n";
    list += &(calibrations().join("\n") + "\n");
    list += "\n== Saved work that can't be opened\n";
    for error in saved_errors() {
        list += &format!("{error}\n    -> {}\n", error.remedy());
    }
    list += "\n== What was guessed or repaired\n";
    for note in notes() {
        list += &format!("{note}\n");
    }
    assert_golden("sentences.txt", &list);
}

/// The variants of an enum, as the source has them.
fn variants(source: &str, name: &str) -> BTreeSet<String> {
    let body =
        source.split(&format!("pub enum {name} {{")).nth(1).unwrap_or_else(|| panic!("{name}"));
    let body = body.split("\n}").next().unwrap();
    let is_one = |line: &&str| line.starts_with("    ") && line.as_bytes()[4].is_ascii_uppercase();
    let word = |line: &str| {
        line.trim().split(|sign: char| !sign.is_alphanumeric()).next().unwrap().to_owned()
    };
    body.lines().filter(|line| line.len() > 4).filter(is_one).map(word).collect()
}

fn listed<T: std::fmt::Debug>(examples: &[T]) -> BTreeSet<String> {
    let word = |example: &T| {
        format!("{example:?}")
            .split(|sign: char| !sign.is_alphanumeric())
            .next()
            .unwrap()
            .to_owned()
    };
    examples.iter().map(word).collect()
}

#[test]
fn no_sentence_is_forgotten() {
    let formats = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/formats");
    let inner_wfdb: Vec<WfdbFault> = wfdb_errors()
        .into_iter()
        .filter_map(|error| match error {
            WfdbError::Header { fault, .. } => Some(fault),
            _ => None,
        })
        .collect();
    let inner_edf: Vec<EdfFault> = edf_errors()
        .into_iter()
        .filter_map(|error| match error {
            EdfError::Header { fault, .. } => Some(fault),
            _ => None,
        })
        .collect();
    let inner_wav: Vec<WavFault> = wav_errors()
        .into_iter()
        .filter_map(|error| match error {
            WavError::Header { fault, .. } => Some(fault),
            WavError::NoSamples { .. } | _ => None,
        })
        .collect();
    for (file, name, examples) in [
        ("error.rs", "OpenError", listed(&errors())),
        ("text/fault.rs", "TextError", listed(&text_errors())),
        ("text/notes.rs", "TextNote", listed(&text_notes())),
        ("wfdb/fault.rs", "WfdbError", listed(&wfdb_errors())),
        ("wfdb/fault.rs", "WfdbFault", listed(&inner_wfdb)),
        ("wfdb/repair.rs", "WfdbNote", listed(&wfdb_notes())),
        ("edf/fault.rs", "EdfError", listed(&edf_errors())),
        ("edf/fault.rs", "EdfFault", listed(&inner_edf)),
        ("edf/fault.rs", "SignalFault", listed(&signal_faults())),
        ("edf/repair.rs", "EdfNote", listed(&edf_notes())),
        ("wav/fault.rs", "WavError", listed(&wav_errors())),
        ("wav/fault.rs", "WavFault", listed(&inner_wav)),
        ("wav/fault.rs", "WavNote", listed(&wav_notes())),
        ("archive/fault.rs", "ArchiveError", listed(&archive_errors())),
        ("archive/fault.rs", "ArchiveNote", listed(&archive_notes())),
        ("../report/saved/error.rs", "SavedError", listed(&saved_errors())),
    ] {
        let source = fs::read_to_string(formats.join(file)).unwrap();
        let wanted = variants(&source, name);
        assert!(!wanted.is_empty() && examples == wanted, "{name}: {:?}", &wanted - &examples);
    }
}
