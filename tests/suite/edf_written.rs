//! Whatever is written as EDF, EDF+ or BDF is read back within half a step.

use beatwalk::formats::{
    Choices, EdfNote, Note, NoteKind, OpenError, Opened, Opening, SourceFile, open,
};
use proptest::collection::vec;
use proptest::prelude::*;

/// One signal as a header describes it.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    pub(crate) label: String,
    pub(crate) unit: String,
    /// Lowest and highest value, lowest and highest step, as they stand in the file.
    pub(crate) range: [String; 4],
    pub(crate) per_record: usize,
}

/// The fields of a whole file that tests change.
#[derive(Clone, Debug)]
pub(crate) struct File {
    pub(crate) version: Vec<u8>,
    pub(crate) kind: String,
    pub(crate) header_length: Option<String>,
    pub(crate) records: String,
    pub(crate) duration: String,
    pub(crate) lines: Vec<Line>,
    pub(crate) data: Vec<u8>,
}

/// Text in a field of a fixed length, in Latin-1.
fn field(text: &str, length: usize) -> Vec<u8> {
    let mut bytes: Vec<u8> = text.chars().map(|sign| u32::from(sign) as u8).take(length).collect();
    bytes.resize(length, b' ');
    bytes
}

impl File {
    pub(crate) fn bytes(&self) -> Vec<u8> {
        let mut file = self.version.clone();
        file.resize(8, b' ');
        file.extend(field("X X X X", 80));
        file.extend(field("Startdate 02-MAR-2026 X X X", 80));
        file.extend(b"02.03.2609.15.00");
        let length = (256 * (self.lines.len() + 1)).to_string();
        file.extend(field(self.header_length.as_ref().unwrap_or(&length), 8));
        file.extend(field(&self.kind, 44));
        file.extend(field(&self.records, 8));
        file.extend(field(&self.duration, 8));
        file.extend(field(&self.lines.len().to_string(), 4));
        let mut each = |length: usize, of: &dyn Fn(&Line) -> String| {
            self.lines.iter().for_each(|line| file.extend(field(&of(line), length)));
        };
        each(16, &|line| line.label.clone());
        each(80, &|_| String::new());
        each(8, &|line| line.unit.clone());
        for place in 0..4 {
            each(8, &|line| line.range[place].clone());
        }
        each(80, &|_| "HP:0.05Hz".to_owned());
        each(8, &|line| line.per_record.to_string());
        each(32, &|_| String::new());
        file.extend(&self.data);
        file
    }
}

pub(crate) fn try_open(name: &str, bytes: Vec<u8>) -> Result<Opened, OpenError> {
    let files = [SourceFile { name: name.to_owned(), bytes }];
    match open(&files, &Choices::default(), &mut ())? {
        Opening::Ready(opened) => Ok(opened),
        Opening::NeedsRate(_) => panic!("EDF always has a rate"),
    }
}

/// A signal to be written: its line, the factor that makes its unit mV, and its values.
fn signal(records: usize) -> impl Strategy<Value = (Line, f64, Vec<f64>)> {
    let unit = prop_oneof![
        Just(("mV", 1.0)),
        Just(("uV", 0.001)),
        Just(("\u{b5}V", 0.001)),
        Just(("V", 1000.0))
    ];
    let steps = prop_oneof![
        Just((-32768, 32767)),
        Just((-2048, 2047)),
        Just((0, 1023)),
        Just((1000, -1000))
    ];
    (
        "[A-Za-z][A-Za-z0-9 ]{0,13}[a-z]",
        unit,
        (-5000i32..0, 1i32..5000, any::<bool>()),
        steps,
        1usize..40,
    )
        .prop_flat_map(
            move |(
                label,
                (unit, factor),
                (low, high, is_inverted),
                (lowest, highest),
                per_record,
            )| {
                let (low, high) = if is_inverted { (high, low) } else { (low, high) };
                let range =
                    [low.to_string(), high.to_string(), lowest.to_string(), highest.to_string()];
                let line = Line { label, unit: unit.to_owned(), range, per_record };
                let (low, high) = (f64::from(low), f64::from(high));
                (Just(line), Just(factor), vec(low.min(high)..low.max(high), per_record * records))
            },
        )
}

/// The step nearest to a value.
fn step(line: &Line, value: f64) -> i32 {
    let [low, high, lowest, highest] = line.range.clone().map(|text| text.parse::<f64>().unwrap());
    ((value - low) * (highest - lowest) / (high - low) + lowest).round() as i32
}

/// Half a step, in the unit of the file.
fn half_step(line: &Line) -> f64 {
    let [low, high, lowest, highest] = line.range.clone().map(|text| text.parse::<f64>().unwrap());
    0.5 * ((high - low) / (highest - lowest)).abs()
}

fn said(notes: &[Note]) -> Vec<&EdfNote> {
    let kinds = notes.iter().filter_map(|note| match &note.kind {
        NoteKind::Edf(note) => Some(note),
        _ => None,
    });
    kinds.filter(|note| !matches!(note, EdfNote::Converted { .. })).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn what_is_written_is_read_back_within_half_a_step(
        (signals, records) in (1usize..5).prop_flat_map(|records| (vec(signal(records), 1..5), Just(records))),
        duration in prop_oneof![Just("1"), Just("0.1"), Just("2.5"), Just("10")],
        is_bdf in any::<bool>(),
        annotations_at in 0usize..6,
        text in "[a-zA-Z \u{e9}\u{4e2d}]{0,9}[a-z]",
    ) {
        let seconds: f64 = duration.parse().unwrap();
        let width = if is_bdf { 3 } else { 2 };
        // The notes stand first, last, between the signals, or there are none.
        let place = Some(annotations_at).filter(|&place| place <= signals.len());
        let notes = Line {
            label: if is_bdf { "BDF Annotations" } else { "EDF Annotations" }.to_owned(),
            unit: String::new(),
            range: ["-1", "1", "-32768", "32767"].map(str::to_owned),
            per_record: 60,
        };
        let mut lines: Vec<Line> = signals.iter().map(|(line, _, _)| line.clone()).collect();
        if let Some(place) = place {
            lines.insert(place, notes);
        }
        let mut data = Vec::new();
        for record in 0..records {
            let onset = record as f64 * seconds;
            let mut tal = format!("+{onset}\u{14}\u{14}\0+{onset}\u{15}0.5\u{14}{text}\u{14}\0").into_bytes();
            tal.resize(60 * width, 0);
            let mut parts: Vec<Vec<u8>> = signals
                .iter()
                .map(|(line, _, values)| {
                    values[record * line.per_record..][..line.per_record]
                        .iter()
                        .flat_map(|&value| step(line, value).to_le_bytes()[..width].to_vec())
                        .collect()
                })
                .collect();
            if let Some(place) = place {
                parts.insert(place, tal);
            }
            data.extend(parts.concat());
        }
        let file = File {
            version: if is_bdf { b"\xFFBIOSEMI".to_vec() } else { b"0".to_vec() },
            kind: if place.is_some() { "EDF+C" } else { "" }.to_owned(),
            header_length: None,
            records: records.to_string(),
            duration: duration.to_owned(),
            lines,
            data,
        };
        let opened = try_open("x", file.bytes()).unwrap();
        prop_assert_eq!(opened.traces.len(), signals.len());
        prop_assert!(said(&opened.notes).is_empty(), "{:?}", opened.notes);
        for (trace, (line, factor, values)) in opened.traces.iter().zip(&signals) {
            prop_assert_eq!(&trace.name, &line.label);
            let hz = line.per_record as f64 / seconds;
            prop_assert!((trace.rate.hz() - hz).abs() <= 1e-9 * hz);
            prop_assert_eq!(trace.samples.len(), values.len());
            for (found, value) in trace.samples.iter().zip(values) {
                let away = (f64::from(*found) - value * factor).abs();
                let allowed = half_step(line) * factor * (1.0 + 1e-6) + 1e-6 * (value * factor).abs();
                prop_assert!(away <= allowed, "{found} for {value} {}", line.unit);
            }
            let marks = if place.is_some() { records.min(trace.samples.len()) } else { 0 };
            prop_assert_eq!(trace.marks.len(), marks);
            for (record, mark) in trace.marks.iter().enumerate() {
                prop_assert_eq!(&mark.text, text.trim());
                prop_assert_eq!(mark.at.get(), record * line.per_record);
            }
        }
    }
}
