//! Puts the parts of a record on common grids.
//!
//! Time counts in frames of the whole record. The grid of a trace is never more than twice as long as
//! what was recorded: where breaks are longer, a new stretch begins, which becomes traces of its own.
//! A signal that is there for less than an eighth of a stretch is left out. So no header takes more
//! memory than its samples warrant.

use super::record::{Signal, label};
use super::repair::WfdbNote;
use super::trace::{Trace, note};
use crate::formats::Note;
use crate::signal::{HoleCause, SampleSpan, put_in_order};

/// The least part of a stretch that a signal has to be there for: one in so many.
const SELDOM: u64 = 8;

/// What was recorded in one part.
#[derive(Debug)]
pub(super) struct Part {
    /// The frame of the whole record that it begins with.
    start: u64,
    /// How many frames it holds.
    frames: u64,
    pub(super) signals: Vec<Signal>,
}

/// Parts on one grid.
#[derive(Debug)]
pub(super) struct Stretch {
    start: u64,
    end: u64,
    /// How many of its frames were recorded.
    recorded: u64,
    parts: Vec<Part>,
}

impl Part {
    /// Never longer than the whole record gives it.
    pub(super) fn new(start: u64, most: u64, signals: Vec<Signal>) -> Self {
        let frames = signals.iter().map(|one| one.samples.len().div_ceil(one.per_frame) as u64);
        Self { start, frames: frames.max().unwrap_or(0).min(most), signals }
    }
}

/// Puts parts on one grid as long as the breaks between them are no longer than what was recorded.
pub(super) fn stretches(parts: Vec<Part>, end: u64) -> Vec<Stretch> {
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
    pub(super) fn traces(self, order: Option<&[String]>, notes: &mut Vec<Note>) -> Vec<Trace> {
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
        put_in_order(&mut kept, |track| track.key);
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
