//! The header: 256 bytes about the file, then 256 about each signal, all of it text.
//!
//! The fields of the signals are sorted by field, not by signal: first every label, then every
//! transducer, and so on. Text fields are Latin in theory and UTF-8 in practice. Numbers may stand
//! anywhere in their field. The length that the header gives itself is only needed where it is not what
//! the number of signals makes it.

use super::fault::{EdfFault, EdfField, SignalFault};
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
    /// How many bytes come before the first record.
    pub(super) length: usize,
    /// How many that are by the header's own account, when it is a number.
    pub(super) stated_length: Option<usize>,
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

/// Whether bytes begin as an EDF or BDF file does: its mark, and numbers where the header has them.
pub(super) fn begins(bytes: &[u8]) -> bool {
    let is_number = |offset, length| latin::decimal(&text(bytes, offset, length)).is_some();
    width(bytes).is_some()
        && signal_count(bytes).is_some()
        && count(&text(bytes, 184, 8)).is_some_and(|length| length >= FIXED)
        && is_number(236, 8)
        && is_number(244, 8)
}

fn width(bytes: &[u8]) -> Option<Width> {
    if bytes.len() >= 8 && text(bytes, 0, 8) == "0" {
        Some(Width::Two)
    } else {
        bytes.starts_with(b"\xFFBIOSEMI").then_some(Width::Three)
    }
}

fn signal_count(bytes: &[u8]) -> Option<usize> {
    count(&text(bytes, 252, 4)).filter(|&count| count > 0)
}

/// A whole number of things.
fn count(field: &str) -> Option<usize> {
    usize::try_from(latin::whole(field)?).ok()
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
        let signals = signal_count(bytes).ok_or_else(|| wrong(EdfField::Signals, 252, 4))?;
        if found < length_for(signals) {
            return Err(EdfFault::Short { expected: length_for(signals), found });
        }
        let records =
            latin::whole(&text(bytes, 236, 8)).ok_or_else(|| wrong(EdfField::Records, 236, 8))?;
        let record_seconds = latin::decimal(&text(bytes, 244, 8))
            .filter(|seconds| *seconds >= 0.0)
            .ok_or_else(|| wrong(EdfField::RecordDuration, 244, 8))?;
        let mut header = Self {
            width,
            length: length_for(signals),
            stated_length: count(&text(bytes, 184, 8)),
            is_interrupted: text(bytes, 192, 44).get(3..5) == Some("+D"),
            records: u64::try_from(records).ok().filter(|&records| records > 0),
            record_seconds,
            signals: Vec::new(),
        };
        let mut offset = 0usize;
        for place in 0..signals {
            // A field `before` bytes into each signal's 256, `length` bytes long.
            let at = |before: usize, length: usize| FIXED + before * signals + place * length;
            let field = |before, length| text(bytes, at(before, length), length);
            let per_record = count(&field(216, 8))
                .ok_or_else(|| wrong(EdfField::RecordSamples, at(216, 8), 8))?;
            header.signals.push(Signal {
                label: field(0, 16),
                unit: field(96, 8),
                range: [field(104, 8), field(112, 8), field(120, 8), field(128, 8)],
                per_record,
                offset,
            });
            offset = offset.saturating_add(per_record.saturating_mul(width.bytes()));
        }
        header.length = header.likely_length(found);
        Ok(header)
    }

    /// How many bytes come before the first record: 256 for each signal and 256 more, unless only the
    /// length that the header gives leaves exactly the records that it promises.
    fn likely_length(&self, file: usize) -> usize {
        let promised = self.records.and_then(|records| usize::try_from(records).ok());
        let data = promised.and_then(|records| records.checked_mul(self.record_bytes()));
        let fits = |length: &usize| data.is_some() && file.checked_sub(*length) == data;
        let stated = self.stated_length.filter(|stated| *stated >= FIXED && fits(stated));
        stated.filter(|_| !fits(&self.length)).unwrap_or(self.length)
    }

    /// How many bytes the header takes by the number of signals.
    pub(super) const fn expected_length(&self) -> usize {
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
        let label = self.label.to_ascii_lowercase();
        label.starts_with("edf annotation") || label.starts_with("bdf annotation")
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
        let [low, high, lowest, highest] = self.range.each_ref().map(|field| latin::decimal(field));
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
    // Not every control character: where others write a minus, Latin-1 has one.
    let is_blank = |sign: char| sign.is_whitespace() || sign.is_ascii_control();
    latin::decode(field).trim_matches(is_blank).to_owned()
}
