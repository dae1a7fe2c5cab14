//! The beats of a trace in order, and whether one follows the other with nothing missing between them.
//!
//! The one place that decides it: the measurements, the rhythm, the results of a beat and its cycle all
//! ask here, so that no two of them count different RR intervals. Something is missing where the
//! recording has a hole, and where what was recorded can't be used: it is flat, stuck, or noise in which a
//! beat may hide.

use super::reading::{Beat, Reading};
use crate::signal::{Recording, SampleIndex, SampleSpan};

/// Beats in order on the trace they were found in.
#[derive(Clone, Copy, Debug)]
pub struct BeatSeries<'a> {
    recording: &'a Recording,
    beats: &'a [Beat],
    unusable: &'a [SampleSpan],
}

impl<'a> BeatSeries<'a> {
    /// Beats of a trace of which some stretches can't be used.
    pub const fn new(
        recording: &'a Recording,
        beats: &'a [Beat],
        unusable: &'a [SampleSpan],
    ) -> Self {
        Self { recording, beats, unusable }
    }

    /// The trace, as recorded.
    pub const fn recording(self) -> &'a Recording {
        self.recording
    }

    /// The beats.
    pub const fn beats(self) -> &'a [Beat] {
        self.beats
    }

    /// Whether something is missing between two samples.
    pub fn is_broken_between(self, from: SampleIndex, to: SampleIndex) -> bool {
        let span = SampleSpan::new(from.get(), to.get() + 1);
        self.recording.is_broken_between(from, to)
            || self.unusable.iter().any(|unusable| unusable.overlaps(span))
    }

    /// The beat after the one at a place, unless something is missing before it.
    pub fn next(self, place: usize) -> Option<&'a Beat> {
        let (here, next) = (self.beats.get(place)?, self.beats.get(place + 1)?);
        (!self.is_broken_between(here.r, next.r)).then_some(next)
    }
}

impl Reading {
    /// Its beats on the recording that was read.
    pub fn series<'a>(&'a self, recording: &'a Recording) -> BeatSeries<'a> {
        BeatSeries::new(recording, &self.beats, &self.unusable)
    }
}
