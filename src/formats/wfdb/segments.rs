//! Joins a record that is made of several: each part is a record of its own, one after the other.
//!
//! Source: header(5) in the WFDB Applications Guide (Moody, PhysioNet), "Multi-segment records". In a
//! fixed layout every part has the same signals in the same order. Where the first part has a length
//! of 0 the layout varies: that part only describes the signals, the others hold some of them, told
//! by their names.
//!
//! Time counts in frames of the whole record. Where nothing was recorded, where the files of a part
//! were not dropped, and where a part lacks a signal, there is a hole. The grid of a trace is never
//! more than twice as long as what was recorded: where breaks are longer, a new stretch begins, which
//! becomes traces of its own. A signal that is there for less than an eighth of a stretch is left out,
//! so that no header takes more memory than its samples warrant.

use super::fault::WfdbError;
use super::header::{self, Header, SegmentLine};
use super::record::{self, Signal, label};
use super::repair::WfdbNote;
use super::trace::{Trace, note};
use crate::formats::{Note, OpenError, SourceFile};
use crate::signal::{HoleCause, Progress, SampleSpan};

/// The least part of a stretch that a signal has to be there for: one in so many.
const SELDOM: u64 = 8;

/// What was recorded in one part.
#[derive(Debug)]
struct Part {
    /// The frame of the whole record that it begins with.
    start: u64,
    /// How many frames it holds.
    frames: u64,
    signals: Vec<Signal>,
}

/// Parts on one grid.
#[derive(Debug)]
struct Stretch {
    start: u64,
    end: u64,
    /// How many of its frames were recorded.
    recorded: u64,
    parts: Vec<Part>,
}

/// Reads all parts whose files were dropped.
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
    let frame_hz = record::frame_hz(header, notes);
    let (mut parts, mut missing, mut left_out) = (Vec::new(), Vec::new(), Vec::new());
    let mut start = 0u64;
    for (done, line) in header.segments.iter().enumerate() {
        progress.at(done as f64 / header.segments.len() as f64);
        if !line.is_null() && line.frames > 0 {
            match part(line, frame_hz, files, notes) {
                Ok(signals) => parts.push(Part::new(start, line.frames, signals)),
                Err(Fault::Missing(mut names)) => missing.append(&mut names),
                Err(Fault::Unreadable(reason)) => left_out.push((line.record.clone(), reason)),
            }
        }
        start = start.saturating_add(line.frames);
    }
    if parts.is_empty() {
        return Err(match left_out.is_empty() {
            true => WfdbError::SignalFileMissing { header: header_file.to_owned(), missing },
            false => {
                let reasons =
                    left_out.into_iter().map(|(record, reason)| format!("{record}: {reason}"));
                WfdbError::NoSegments { header: header_file.to_owned(), reasons: reasons.collect() }
            }
        });
    }
    if !missing.is_empty() {
        notes.push(note(WfdbNote::SegmentsMissing { files: missing }, None));
    }
    let left_out = left_out
        .into_iter()
        .map(|(record, reason)| note(WfdbNote::SegmentLeftOut { record, reason }, None));
    notes.extend(left_out);

    let order = order(header, files, &parts);
    let stretches = stretches(parts, start);
    if stretches.len() > 1 {
        notes.push(note(WfdbNote::Stretches { stretches: stretches.len() }, None));
    }
    let mut traces = Vec::new();
    for stretch in stretches {
        traces.extend(stretch.traces(order.as_deref(), notes));
    }
    Ok(traces)
}

/// Why a part has no signals.
enum Fault {
    /// These files were not dropped.
    Missing(Vec<String>),
    Unreadable(String),
}

/// The signals of one part. What is said about its lines goes to `notes` once, without a place:
/// the lines are those of another file.
fn part(
    line: &SegmentLine,
    frame_hz: f64,
    files: &[SourceFile],
    notes: &mut Vec<Note>,
) -> Result<Vec<Signal>, Fault> {
    let file = line.header_file();
    let Some(source) = files.iter().find(|source| record::is_named(source, &file)) else {
        return Err(Fault::Missing(vec![file]));
    };
    let unreadable = |error: WfdbError| Fault::Unreadable(OpenError::from(error).to_string());
    let mut header = header::parse(&source.bytes).map_err(|(place, fault)| {
        unreadable(WfdbError::Header { header: file.clone(), place, fault })
    })?;
    if header.rate_hz.is_some_and(|hz| (hz - frame_hz).abs() > 1e-6 * frame_hz) {
        let reason = "its sampling rate is not that of the whole record".to_owned();
        return Err(Fault::Unreadable(reason));
    }
    header.rate_hz = Some(frame_hz);
    header.frames = header.frames.or(Some(line.frames));
    let mut own = Vec::new();
    let signals = record::signals(&file, &header, files, &mut own, &mut ());
    for Note { kind, .. } in own {
        let note = Note { kind, place: None };
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    signals.map_err(|error| match error {
        WfdbError::SignalFileMissing { missing, .. } => Fault::Missing(missing),
        other => unreadable(other),
    })
}

impl Part {
    /// Never longer than the whole record gives it.
    fn new(start: u64, most: u64, signals: Vec<Signal>) -> Self {
        let frames = signals.iter().map(|one| one.samples.len().div_ceil(one.per_frame) as u64);
        Self { start, frames: frames.max().unwrap_or(0).min(most), signals }
    }
}

/// What the signals are called, in the order in which the traces come; `None` where the layout is fixed
/// and their places tell them.
fn order(header: &Header, files: &[SourceFile], parts: &[Part]) -> Option<Vec<String>> {
    let layout = header.segments.first().filter(|line| line.frames == 0)?;
    let described = files
        .iter()
        .find(|source| record::is_named(source, &layout.header_file()))
        .and_then(|source| header::parse(&source.bytes).ok())
        .map_or_else(Vec::new, |layout| layout.signals);
    let mut names: Vec<String> = described.into_iter().map(|line| line.name).collect();
    for signal in parts.iter().flat_map(|part| &part.signals) {
        if !names.contains(&signal.name) {
            names.push(signal.name.clone());
        }
    }
    Some(names)
}

/// Puts parts on one grid as long as the breaks between them are no longer than what was recorded.
fn stretches(parts: Vec<Part>, end: u64) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for part in parts {
        let after = part.start.saturating_add(part.frames);
        match stretches.last_mut() {
            Some(last) if after - last.start <= 2 * (last.recorded + part.frames) => {
                last.end = after;
                last.recorded += part.frames;
                last.parts.push(part);
            }
            before => {
                // Time before the first part counts only if it is short.
                let is_first = before.is_none() && after <= 2 * part.frames;
                let start = if is_first { 0 } else { part.start };
                let recorded = part.frames;
                stretches.push(Stretch { start, end: after, recorded, parts: vec![part] });
            }
        }
    }
    if let Some(last) = stretches.last_mut()
        && end - last.start <= 2 * last.recorded
    {
        last.end = end;
    }
    stretches
}

impl Stretch {
    /// Its signals as traces.
    fn traces(self, order: Option<&[String]>, notes: &mut Vec<Note>) -> Vec<Trace> {
        let mut tracks: Vec<Track> = Vec::new();
        for part in self.parts {
            for (place, signal) in part.signals.into_iter().enumerate() {
                let is_its = |name: &String| *name == signal.name;
                let key = order.and_then(|names| names.iter().position(is_its)).unwrap_or(place);
                Track::add(&mut tracks, key, part.start - self.start, part.frames, signal);
            }
        }
        let (mut kept, seldom): (Vec<Track>, Vec<Track>) =
            tracks.into_iter().partition(|track| track.recorded >= self.recorded.div_ceil(SELDOM));
        if !seldom.is_empty() {
            let signals = seldom.iter().map(|track| label(&track.signal.name, track.signal.place));
            notes.push(note(WfdbNote::Seldom { signals: signals.collect() }, None));
        }
        kept.sort_by_key(|track| track.key);
        let frames = usize::try_from(self.end - self.start).unwrap_or(usize::MAX);
        kept.into_iter().map(|track| track.whole(self.start, frames, notes)).collect()
    }
}

/// A signal through the parts of a stretch.
#[derive(Debug)]
struct Track {
    /// Its place among the traces.
    key: usize,
    /// What it is called, how fast it is, its unit; its samples are in `pieces`.
    signal: Signal,
    /// The frame of the stretch with which each piece begins, and its samples.
    pieces: Vec<(usize, Vec<f32>)>,
    /// How many frames they are together.
    recorded: u64,
}

impl Track {
    /// Adds a piece to the track that it continues. What differs in rate or unit is another signal.
    fn add(tracks: &mut Vec<Self>, key: usize, start: u64, frames: u64, mut signal: Signal) {
        let mut samples = std::mem::take(&mut signal.samples);
        let (start, most) = (usize::try_from(start), usize::try_from(frames));
        let (Ok(start), Ok(most)) = (start, most) else { return };
        samples.truncate(most.saturating_mul(signal.per_frame));
        let recorded = samples.len().div_ceil(signal.per_frame) as u64;
        let continues = |track: &&mut Self| {
            let known = &track.signal;
            (track.key, known.per_frame, known.unit) == (key, signal.per_frame, signal.unit)
        };
        match tracks.iter_mut().find(continues) {
            Some(track) => {
                track.pieces.push((start, samples));
                track.recorded += recorded;
            }
            None => tracks.push(Self { key, signal, pieces: vec![(start, samples)], recorded }),
        }
    }

    /// All pieces on one grid of so many frames.
    fn whole(self, start: u64, frames: usize, notes: &mut Vec<Note>) -> Trace {
        let mut signal = self.signal;
        let mut grid = vec![f32::NAN; frames.saturating_mul(signal.per_frame)];
        let mut spans = Vec::new();
        for (frame, samples) in self.pieces {
            let begin = frame.saturating_mul(signal.per_frame);
            let end = begin.saturating_add(samples.len()).min(grid.len());
            if let Some(place) = grid.get_mut(begin..end) {
                place.iter_mut().zip(samples).for_each(|(place, sample)| *place = sample);
                spans.push(SampleSpan::new(begin, end));
            }
        }
        signal.samples = grid;
        let mut trace = Trace::new(signal, start, notes);
        for hole in &mut trace.recording.holes {
            // A hole that reaches into a part, where values are missing too, counts as what most of it is.
            let inside = |span: &SampleSpan| {
                let end = span.end().get().min(hole.span.end().get());
                end.saturating_sub(span.start().get().max(hole.span.start().get()))
            };
            if 2 * spans.iter().map(inside).sum::<usize>() < hole.span.len() {
                hole.cause = HoleCause::NoRows;
            }
        }
        trace
    }
}
