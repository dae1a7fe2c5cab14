//! Reads the signals of a record: its header and the signal files that the header names.
//!
//! Every signal becomes a trace at its own rate. Microvolts and volts are turned into millivolts; a
//! signal in another unit (breathing in litres) keeps its numbers, has
//! [`VoltageUnit::Unstated`] and a note that says so. When some of several signal files are missing,
//! the signals in the others are read.

use super::encoding::Encoding;
use super::fault::WfdbError;
use super::header::{Header, NULL};
use super::repair::WfdbNote;
use super::samples::{self, SignalFile, Values};
use super::signal_line::SignalLine;
use super::trace::{Trace, note};
use crate::formats::unit;
use crate::formats::{Note, Place, SourceFile, ValueUnit};
use crate::signal::{Progress, SampleRate, VoltageUnit};
use std::collections::BTreeMap;

/// Frames a second where the header gives none (header(5)).
const ASSUMED_HZ: f64 = 250.0;

/// A signal as its file holds it.
#[derive(Debug)]
pub(super) struct Signal {
    /// What the header calls it; may be empty.
    pub(super) name: String,
    /// Where in the header it stands.
    pub(super) place: Place,
    /// How many samples make a frame.
    pub(super) per_frame: usize,
    pub(super) rate: SampleRate,
    /// The unit of the samples.
    pub(super) unit: VoltageUnit,
    /// The samples; NaN where one is missing.
    pub(super) samples: Vec<f32>,
}

/// Reads all signals of a record whose file was dropped.
///
/// # Errors
/// When there is none, or a signal's rate is impossible.
pub(super) fn read(
    header_file: &str,
    header: &Header,
    files: &[SourceFile],
    notes: &mut Vec<Note>,
    progress: &mut dyn Progress,
) -> Result<Vec<Trace>, WfdbError> {
    let signals = signals(header_file, header, files, notes, progress)?;
    Ok(signals.into_iter().map(|signal| Trace::new(signal, 0, notes)).collect())
}

/// Frames a second.
pub(super) fn frame_hz(header: &Header, notes: &mut Vec<Note>) -> f64 {
    header.rate_hz.unwrap_or_else(|| {
        notes.push(note(WfdbNote::RateAssumed, None));
        ASSUMED_HZ
    })
}

/// The signals of a record whose file was dropped.
///
/// # Errors
/// When there is none, or a signal's rate is impossible.
pub(super) fn signals(
    header_file: &str,
    header: &Header,
    files: &[SourceFile],
    notes: &mut Vec<Note>,
    progress: &mut dyn Progress,
) -> Result<Vec<Signal>, WfdbError> {
    let frame_hz = frame_hz(header, notes);
    let groups = by_file(&header.signals);
    let mut signals = Vec::new();
    let mut missing = Vec::new();
    for (done, (file, lines)) in groups.iter().enumerate() {
        progress.at(done as f64 / groups.len() as f64);
        let labels = || lines.iter().map(|line| label(&line.name, line.place)).collect();
        if *file == NULL {
            notes.push(note(WfdbNote::OnlyDescribed { signals: labels() }, None));
            continue;
        }
        let Some(source) = find(files, file) else {
            missing.push((*file).to_owned());
            let file = (*file).to_owned();
            notes.push(note(WfdbNote::SignalFileMissing { file, signals: labels() }, None));
            continue;
        };
        let held = samples::read(&source.bytes, lines, header.frames);
        note_length(&held, file, header.frames, notes);
        for (values, line) in held.signals.into_iter().zip(lines) {
            let hz = frame_hz * line.per_frame as f64;
            let rate = SampleRate::new(hz).map_err(|unusable| WfdbError::RateTooHigh {
                header: header_file.to_owned(),
                place: line.place,
                hz: unusable.0,
            })?;
            if held.frames > line.skew {
                signals.push(signal(values, line, rate, held.frames, header.frames, notes));
            }
        }
    }
    let first = groups.iter().find(|(file, _)| *file != NULL);
    match first {
        _ if !signals.is_empty() => Ok(signals),
        None => Err(WfdbError::OnlyDescribed { header: header_file.to_owned() }),
        Some((file, _)) if missing.is_empty() => {
            Err(WfdbError::NoSamples { file: (*file).to_owned() })
        }
        Some(_) => Err(WfdbError::SignalFileMissing { header: header_file.to_owned(), missing }),
    }
}

/// The signals of each file, in the order of the header. A file is never read twice.
fn by_file(signals: &[SignalLine]) -> Vec<(&str, Vec<&SignalLine>)> {
    let mut groups: Vec<(&str, Vec<&SignalLine>)> = Vec::new();
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for line in signals {
        let place = *places.entry(&line.file).or_insert(groups.len());
        match groups.get_mut(place) {
            Some((_, lines)) => lines.push(line),
            None => groups.push((&line.file, vec![line])),
        }
    }
    groups
}

/// The dropped file of this name: rather one that has it to the letter than a copy.
pub(super) fn find<'a>(files: &'a [SourceFile], name: &str) -> Option<&'a SourceFile> {
    let exact = files.iter().find(|source| source.name == name);
    exact.or_else(|| files.iter().find(|source| is_named(source, name)))
}

/// Whether a dropped file has this name, however the two are spelt; `r (1).dat` is `r.dat` again, as
/// browsers call what they fetch twice.
pub(super) fn is_named(source: &SourceFile, name: &str) -> bool {
    let name = name.rsplit('/').next().unwrap_or(name);
    source.name.eq_ignore_ascii_case(name) || original(&source.name).eq_ignore_ascii_case(name)
}

/// A name without the number of a copy.
fn original(name: &str) -> String {
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    let numbered = stem.strip_suffix(')').and_then(|stem| stem.rsplit_once(" ("));
    match numbered {
        Some((stem, number)) if number.bytes().all(|digit| digit.is_ascii_digit()) => {
            format!("{stem}.{ending}")
        }
        _ => name.to_owned(),
    }
}

/// Says when a file is shorter or longer than the header has it.
fn note_length(held: &SignalFile, file: &str, stated: Option<u64>, notes: &mut Vec<Note>) {
    let file = file.to_owned();
    match stated {
        Some(stated) if stated > held.frames as u64 => {
            let missing = stated - held.frames as u64;
            notes.push(note(WfdbNote::Truncated { file, missing, stated }, None));
        }
        // Packed formats fill their last group: up to two samples more are no loss.
        Some(_) if held.left > 2 => {
            notes.push(note(WfdbNote::LeftOver { file, left: held.left }, None));
        }
        _ => {}
    }
}

/// One signal, checked against its header.
fn signal(
    values: Values,
    line: &SignalLine,
    rate: SampleRate,
    frames: usize,
    stated: Option<u64>,
    notes: &mut Vec<Note>,
) -> Signal {
    let mut say = |kind| notes.push(note(kind, Some(line.place)));
    let signal = || label(&line.name, line.place);
    if let (Some(stated), Some(found)) = (line.first, values.first)
        && stated != found
        // There the value of the header is the one before the first step.
        && line.encoding != Encoding::Differences8
    {
        say(WfdbNote::FirstValueDiffers { signal: signal(), stated, found });
    }
    let is_whole = stated.is_none_or(|stated| stated == frames as u64);
    if is_whole && line.checksum.is_some_and(|checksum| !values.adds_up_to(checksum)) {
        say(WfdbNote::ChecksumDiffers { signal: signal() });
    }
    if line.gain.is_none() {
        say(WfdbNote::GainAssumed { signal: signal(), unit: line.unit.clone() });
    }
    let named = unit::voltage(&line.unit);
    match named {
        None => say(WfdbNote::NoVoltage { signal: signal(), unit: line.unit.clone() }),
        Some(ValueUnit::Volt | ValueUnit::Microvolt | ValueUnit::Nanovolt) => {
            say(WfdbNote::Converted { signal: signal(), unit: line.unit.clone() });
        }
        Some(_) => {}
    }
    let mut samples = values.samples;
    if line.skew > 0 {
        say(WfdbNote::Skewed { signal: signal(), frames: line.skew });
        samples.drain(..(line.skew * line.per_frame).min(samples.len()));
    }
    let (factor, unit) = named.unwrap_or(ValueUnit::Unstated).to_recording();
    samples.iter_mut().for_each(|sample| *sample = (f64::from(*sample) * factor) as f32);
    let (name, place) = (line.name.clone(), line.place);
    Signal { name, place, per_frame: line.per_frame, rate, unit, samples }
}

/// What a message calls a signal.
pub(super) fn label(name: &str, place: Place) -> String {
    if name.is_empty() { format!("line {}", place.line) } else { name.to_owned() }
}
