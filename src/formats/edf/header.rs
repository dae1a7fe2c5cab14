//! The header: 256 bytes about the file, then 256 about each signal, all of it text.
//!
//! The fields of the signals are sorted by field, not by signal: first every label, then every
//! transducer, and so on. Text fields are Latin in theory and UTF-8 in practice. Numbers may stand
//! anywhere in their field; a decimal comma is taken for a point, as some writers have it.

use super::fault::{EdfFault, SignalFault};
use crate::formats::latin;
use crate::signal::SampleRate;

/// How many bytes a sample takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Width {
    /// EDF.
    Two,
    /// BDF.
    Three,
}

impl Width {
    pub(super) const fn bytes(self) -> usize {
        match self {
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}

/// What the header says.
#[derive(Debug)]
pub(super) struct Header {
    pub(super) width: Width,
    /// EDF+D: records need not follow each other without a break.
    pub(super) is_interrupted: bool,
    /// How many records there should be; `None` (-1 or 0) when the recorder never closed the file.
    pub(super) records: Option<u64>,
    /// The length of a record in seconds; 0 when there are only annotations.
    pub(super) record_seconds: f64,
    /// The signals, annotations among them, in the order of a record.
    pub(super) signals: Vec<Signal>,
}

/// What the header says about one signal.
#[derive(Debug)]
pub(super) struct Signal {
    pub(super) label: String,
    pub(super) unit: String,
    /// Lowest and highest value, lowest and highest step, as they stand in the file.
    range: [String; 4],
    /// How many samples a record holds.
    pub(super) per_record: usize,
    /// Where they begin in a record, in bytes.
    pub(super) offset: usize,
}

/// What turns a step into a value: `value = step * factor + shift`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    pub(super) factor: f64,
    pub(super) shift: f64,
}

impl Scale {
    /// How far from 0 the largest step of 24 bits can lie, in the smallest unit in use.
    fn at_most(self) -> f64 {
        1000.0 * (self.factor.abs() * f64::from(1 << 23) + self.shift.abs())
    }
}

const FIXED: usize = 256;

/// Whether bytes begin as an EDF or BDF file does, with a header as long as its signals need.
pub(super) fn begins(bytes: &[u8]) -> bool {
    let length = number::<usize>(&text(bytes, 184, 8));
    width(bytes).is_some() && length.is_some() && length == signal_count(bytes).map(length_for)
}

fn width(bytes: &[u8]) -> Option<Width> {
    if bytes.starts_with(b"0       ") {
        Some(Width::Two)
    } else {
        bytes.starts_with(b"\xFFBIOSEMI").then_some(Width::Three)
    }
}

fn signal_count(bytes: &[u8]) -> Option<usize> {
    number(&text(bytes, 252, 4))
}

const fn length_for(signals: usize) -> usize {
    FIXED * (signals + 1)
}

impl Header {
    /// Reads the header.
    ///
    /// # Errors
    /// When a field that concerns the whole file makes no sense.
    pub(super) fn parse(bytes: &[u8]) -> Result<Self, EdfFault> {
        let width = width(bytes).ok_or(EdfFault::OtherKind)?;
        let wrong = |field, offset, length| EdfFault::Field {
            field,
            found: text(bytes, offset, length),
            offset,
        };
        let found = bytes.len();
        if found < FIXED {
            return Err(EdfFault::Short { expected: FIXED, found });
        }
        let count = signal_count(bytes).filter(|&count| count > 0);
        let count = count.ok_or_else(|| wrong("number of signals", 252, 4))?;
        if found < length_for(count) {
            return Err(EdfFault::Short { expected: length_for(count), found });
        }
        let records: i64 =
            number(&text(bytes, 236, 8)).ok_or_else(|| wrong("number of records", 236, 8))?;
        let record_seconds = number(&text(bytes, 244, 8))
            .filter(|seconds: &f64| seconds.is_finite() && *seconds >= 0.0)
            .ok_or_else(|| wrong("duration of a record", 244, 8))?;
        let mut header = Self {
            width,
            is_interrupted: text(bytes, 192, 44).get(3..5) == Some("+D"),
            records: u64::try_from(records).ok().filter(|&records| records > 0),
            record_seconds,
            signals: Vec::new(),
        };
        let mut offset = 0usize;
        for place in 0..count {
            // A field `before` bytes into each signal's 256, `length` bytes long.
            let at = |before: usize, length: usize| FIXED + before * count + place * length;
            let field = |before, length| text(bytes, at(before, length), length);
            let per_record: usize = number(&field(216, 8))
                .ok_or_else(|| wrong("number of samples in a record", at(216, 8), 8))?;
            header.signals.push(Signal {
                label: field(0, 16),
                unit: field(96, 8),
                range: [field(104, 8), field(112, 8), field(120, 8), field(128, 8)],
                per_record,
                offset,
            });
            offset = offset.saturating_add(per_record.saturating_mul(width.bytes()));
        }
        Ok(header)
    }

    /// How many bytes come before the first record.
    pub(super) const fn length(&self) -> usize {
        length_for(self.signals.len())
    }

    /// How many bytes a record takes; saturates, so that an absurd one never fits.
    pub(super) fn record_bytes(&self) -> usize {
        self.signals.last().map_or(0, |last| {
            last.offset.saturating_add(last.per_record.saturating_mul(self.width.bytes()))
        })
    }
}

impl Signal {
    /// Whether these are annotations: text in the place of samples.
    pub(super) fn is_annotations(&self) -> bool {
        self.label == "EDF Annotations" || self.label == "BDF Annotations"
    }

    /// Samples a second, when records of so many seconds give a possible rate.
    pub(super) fn rate(&self, record_seconds: f64) -> Result<SampleRate, SignalFault> {
        SampleRate::new(self.per_record as f64 / record_seconds).ok().ok_or_else(|| {
            SignalFault::NoRate {
                signal: self.label.clone(),
                samples: self.per_record,
                seconds: record_seconds,
            }
        })
    }

    /// What turns its steps into values.
    pub(super) fn scale(&self) -> Result<Scale, SignalFault> {
        let [low, high, lowest, highest] = self.range.each_ref().map(|field| number::<f64>(field));
        low.zip(high)
            .zip(lowest.zip(highest))
            .map(|((low, high), (lowest, highest))| {
                let factor = (high - low) / (highest - lowest);
                Scale { factor, shift: low - lowest * factor }
            })
            .filter(|scale| scale.factor.is_normal() && scale.at_most() < f64::from(f32::MAX))
            .ok_or_else(|| {
                let [low, high, lowest, highest] = &self.range;
                SignalFault::NoScale {
                    signal: self.label.clone(),
                    digital: format!("{lowest} to {highest}"),
                    physical: format!("{low} to {high}"),
                    unit: self.unit.clone(),
                }
            })
    }
}

/// The text of a field, without the blanks around it.
fn text(bytes: &[u8], offset: usize, length: usize) -> String {
    let field = bytes.get(offset..offset + length).unwrap_or_default();
    let is_blank = |sign: char| sign.is_whitespace() || sign.is_control();
    latin::decode(field).trim_matches(is_blank).to_owned()
}

fn number<T: std::str::FromStr>(field: &str) -> Option<T> {
    field.parse().ok().or_else(|| field.replace(',', ".").parse().ok())
}
