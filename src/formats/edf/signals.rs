//! From records to traces: each signal at its own rate, with its own scale, and the marks on it.

use super::fault::{EdfError, SignalFault};
use super::header::{Header, Scale, Signal, Width};
use super::records::Records;
use super::repair::EdfNote;
use super::runs::{self, Run};
use crate::formats::bridge::bridge;
use crate::formats::{ValueUnit, unit};
use crate::signal::{
    Hole, HoleCause, Mark, MarkKind, Progress, Recording, SampleIndex, SampleRate, SampleSpan,
    Seconds, put_in_order,
};

/// The most runs that become traces: more is a damaged file, not a recording.
const MOST_RUNS: usize = 32;

/// Reads all signals. The whole records count; what is guessed or left out goes to `notes`.
///
/// # Errors
/// When there is no whole record or no signal that can be used.
pub(super) fn read(
    file: &str,
    header: &Header,
    bytes: &[u8],
    notes: &mut Vec<EdfNote>,
    progress: &mut dyn Progress,
) -> Result<Vec<Recording>, EdfError> {
    let records = Records::find(header, bytes, notes);
    if records.count() == 0 {
        return Err(EdfError::NoRecords { file: file.to_owned() });
    }
    let (onsets, texts) = records.annotations(header, notes);
    let start = onsets.first().copied().flatten().unwrap_or(0.0);
    let unbroken = runs::unbroken(records.count());
    let timed = runs::broken(&onsets, header.record_seconds);
    let mut runs = match header.is_interrupted && !onsets.is_empty() {
        true => timed,
        false => {
            if !onsets.is_empty() && timed != unbroken {
                notes.push(EdfNote::TimesDiffer);
            }
            unbroken
        }
    };
    limit(&mut runs, notes);
    let (breaks, seconds) = runs::breaks(&runs, header.record_seconds);
    if breaks > 0 {
        notes.push(EdfNote::Interrupted { breaks, seconds: (seconds * 1e3).round() / 1e3 });
    }

    let mut traces = Vec::new();
    let mut faults: Vec<SignalFault> = Vec::new();
    for (done, signal) in header.signals.iter().enumerate() {
        progress.at(done as f64 / header.signals.len() as f64);
        if signal.is_annotations() {
            continue;
        }
        if signal.per_record == 0 {
            faults.push(SignalFault::Empty { signal: signal.label.clone() });
            continue;
        }
        let rate_and_scale = signal
            .rate(header.record_seconds)
            .and_then(|rate| signal.scale().map(|scale| (rate, scale)));
        match rate_and_scale {
            Err(fault) => faults.push(fault),
            Ok((rate, scale)) => {
                let reader = Reader { signal, rate, width: header.width, records };
                let (unit, factor) = reader.unit(notes);
                let scale = Scale { factor: scale.factor * factor, shift: scale.shift * factor };
                traces.extend(runs.iter().map(|run| {
                    let (samples, holes) = reader.samples(run, scale);
                    let marks = reader.marks(run, start, &texts, samples.len());
                    let (samples, name) = (samples.into(), signal.label.clone());
                    Recording { name, rate, unit, samples, holes, marks }
                }));
            }
        }
    }
    if traces.is_empty() && faults.is_empty() {
        return Err(EdfError::OnlyAnnotations { file: file.to_owned() });
    }
    if traces.is_empty() {
        return Err(EdfError::NoSignals { file: file.to_owned(), reasons: faults });
    }
    notes.extend(faults.into_iter().map(EdfNote::SignalRefused));
    Ok(traces)
}

/// Says how many runs there are, and keeps the first of too many.
fn limit(runs: &mut Vec<Run>, notes: &mut Vec<EdfNote>) {
    if runs.len() > 1 {
        notes.push(EdfNote::Parts { parts: runs.len() });
    }
    if let Some(rest) = runs.get(MOST_RUNS..).filter(|rest| !rest.is_empty()) {
        let records = rest.iter().map(Run::records).sum();
        notes.push(EdfNote::PartsLeftOut { taken: MOST_RUNS, records });
        runs.truncate(MOST_RUNS);
    }
}

/// Reads one signal.
struct Reader<'a> {
    signal: &'a Signal,
    rate: SampleRate,
    width: Width,
    records: Records<'a>,
}

impl Reader<'_> {
    /// The unit of its samples, and what turns the file's into it.
    fn unit(&self, notes: &mut Vec<EdfNote>) -> (crate::signal::VoltageUnit, f64) {
        let named = unit::voltage(&self.signal.unit);
        let (signal, unit) = (self.signal.label.clone(), self.signal.unit.clone());
        match named {
            None if unit.is_empty() => notes.push(EdfNote::NoUnit { signal }),
            None => notes.push(EdfNote::NoVoltage { signal, unit }),
            Some(ValueUnit::Volt | ValueUnit::Microvolt | ValueUnit::Nanovolt) => {
                let signal = format!("\"{signal}\" from {unit}");
                match notes.last_mut() {
                    Some(EdfNote::Converted { signals }) => signals.push(signal),
                    _ => notes.push(EdfNote::Converted { signals: vec![signal] }),
                }
            }
            Some(_) => {}
        }
        let (factor, unit) = named.unwrap_or(ValueUnit::Unstated).to_recording();
        (unit, factor)
    }

    /// The samples of a run on one grid, with a hole for each break.
    fn samples(&self, run: &Run, scale: Scale) -> (Vec<f32>, Vec<Hole>) {
        let mut samples: Vec<f32> = Vec::new();
        let mut holes: Vec<Hole> = Vec::new();
        for piece in &run.pieces {
            let place = self.rate.count(Seconds::new(piece.begin));
            if place > samples.len() {
                let span = SampleSpan::new(samples.len(), place);
                holes.push(Hole { span, cause: HoleCause::NoRows });
                samples.resize(place, f32::NAN);
            }
            let parts = self.records.parts(self.signal, piece.first, piece.count);
            let steps = parts.flat_map(|part| part.chunks_exact(self.width.bytes()));
            samples.extend(
                steps.map(|bytes| (f64::from(step(bytes)) * scale.factor + scale.shift) as f32),
            );
        }
        bridge(&mut samples, self.rate);
        (samples, holes)
    }

    /// The annotations that lie in a run; the file's clock shows `start` at its first sample.
    fn marks(&self, run: &Run, start: f64, texts: &[(f64, String)], length: usize) -> Vec<Mark> {
        let mut marks: Vec<Mark> = texts
            .iter()
            .map(|(onset, text)| (onset - start - run.onset, text))
            .filter(|(seconds, _)| *seconds >= 0.0)
            .map(|(seconds, text)| (self.rate.nearest(Seconds::new(seconds)), text))
            .filter(|(at, _)| *at < SampleIndex::new(length))
            // No recording has more marks than samples.
            .take(length)
            .map(|(at, text)| Mark { at, kind: MarkKind::Note, text: text.clone() })
            .collect();
        put_in_order(&mut marks, |mark| mark.at.get());
        marks
    }
}

/// A two's complement number, low byte first.
fn step(bytes: &[u8]) -> i32 {
    let bits = bytes.iter().rev().fold(0i32, |bits, &byte| bits << 8 | i32::from(byte));
    let unused = 32 - 8 * bytes.len() as u32;
    bits << unused >> unused
}
