//! From the values of a signal to a trace without missing samples.

use super::record::{Signal, label};
use super::repair::WfdbNote;
use crate::formats::bridge::bridge;
use crate::formats::{Note, Place};
use crate::signal::Recording;

/// A signal and how its time runs beside that of the annotations.
#[derive(Debug)]
pub(super) struct Trace {
    /// The trace itself.
    pub(super) recording: Recording,
    /// Samples of the trace to one frame of the record.
    pub(super) per_frame: usize,
    /// The frame of the record that the trace begins with.
    pub(super) start: u64,
}

impl Trace {
    /// Bridges what is missing in a signal and lists what is missing for longer.
    pub(super) fn new(signal: Signal, start: u64, notes: &mut Vec<Note>) -> Self {
        let Signal { name, place, per_frame, rate, unit, mut samples } = signal;
        let mut say = |kind| notes.push(note(kind, Some(place)));
        let called = || label(&name, place);
        let bridged = bridge(&mut samples, rate);
        if bridged.singles > 0 {
            say(WfdbNote::Bridged { signal: called(), samples: bridged.singles });
        }
        if !bridged.holes.is_empty() {
            let missing = bridged.holes.iter().map(|hole| hole.span.len()).sum();
            let holes = bridged.holes.len();
            say(WfdbNote::Holes { signal: called(), holes, samples: missing });
        }
        let (samples, holes) = (samples.into(), bridged.holes);
        let recording = Recording { name, rate, unit, samples, holes, marks: Vec::new() };
        Self { recording, per_frame, start }
    }
}

/// A note about a line of the header, or about the whole.
pub(super) fn note(kind: WfdbNote, place: Option<Place>) -> Note {
    Note { kind: kind.into(), place }
}
