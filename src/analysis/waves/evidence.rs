//! The trace as the wavelets see it, and cuts of its transform around single beats.

use super::super::filter::Filter;
use super::super::spike::without_spikes;
use super::wavelet;
use crate::signal::{Hertz, Recording, SampleIndex};

/// What is slower than this, in Hz, is taken for a wandering line. A zero-phase filter may go up to
/// 0.67 Hz without touching ST and T (AHA/ACC/HRS 2007, Circulation 115:1306).
const WANDER: f64 = 0.5;
/// A trace shorter than this, in s, is too short to tell wander from waves, and stays as it is.
const SHORTEST: f64 = 3.0;
/// Below this rate, in Hz, samples are not joined any further.
const COARSEST: f64 = 500.0;

/// The samples that edges are placed on: those of the recording, or means of a few of them.
pub(super) struct Trace {
    samples: Vec<f32>,
    /// Samples a second.
    pub(super) rate: f64,
    /// How many samples of the recording make one here.
    joined: usize,
}

impl Trace {
    /// The trace without its wander, its samples joined so that at least [`COARSEST`] a second are
    /// left: no edge needs more.
    pub(super) fn of(recording: &Recording) -> Self {
        let joined = ((recording.rate.hz() / COARSEST).floor() as usize).max(1);
        let steady = if recording.duration().seconds() < SHORTEST {
            recording.samples.to_vec()
        } else {
            Filter::high_pass(recording.rate, Hertz::new(WANDER)).apply(&recording.samples)
        };
        let mut steady = steady;
        without_spikes(&mut steady, recording.rate);
        let samples = steady
            .chunks_exact(joined)
            .map(|part| part.iter().sum::<f32>() / joined as f32)
            .collect();
        Self { samples, rate: recording.rate.hz() / joined as f64, joined }
    }

    /// How many samples there are.
    pub(super) fn len(&self) -> usize {
        self.samples.len()
    }

    /// Where a sample of the recording lies here; `None` beyond the end.
    pub(super) fn place(&self, at: SampleIndex) -> Option<usize> {
        let place = at.get() / self.joined;
        (place < self.samples.len()).then_some(place)
    }

    /// The sample of the recording in the middle of one here.
    pub(super) fn back(&self, place: usize) -> SampleIndex {
        SampleIndex::new(place * self.joined + self.joined / 2)
    }

    /// How many samples a time in seconds lasts, to the nearest.
    pub(super) fn count(&self, seconds: f64) -> usize {
        (seconds * self.rate).round() as usize
    }

    /// The transform of `from..to` alone, at a scale in seconds, of a beat that is aligned at `anchor`.
    pub(super) fn evidence(&self, from: usize, to: usize, scale: f64, anchor: isize) -> Evidence {
        let to = to.min(self.samples.len());
        let from = from.min(to);
        let part = &self.samples[from..to];
        // Measured from its first sample, so that a large offset does not eat the precision.
        let level = part.first().copied().unwrap_or(0.0);
        let part: Vec<f64> = part.iter().map(|&value| f64::from(value - level)).collect();
        Evidence { from, values: wavelet::transform(&part, scale * self.rate), anchor, limit: to }
    }
}

/// A transform around one beat.
#[derive(Clone, Debug)]
pub(super) struct Evidence {
    /// Which sample of the trace the first value belongs to.
    pub(super) from: usize,
    /// The transform.
    pub(super) values: Vec<f64>,
    /// The sample at which this beat is laid over the others.
    pub(super) anchor: isize,
    /// Values from this sample on are not those of the wave that is looked for.
    pub(super) limit: usize,
}

impl Evidence {
    /// The value so many samples after the anchor, if it lies before the limit.
    pub(super) fn at_lag(&self, lag: isize) -> Option<f64> {
        let at = usize::try_from(self.anchor + lag).ok()?;
        let index = at.checked_sub(self.from)?;
        if at < self.limit { self.values.get(index).copied() } else { None }
    }

    /// The values from `first` samples after the anchor on; infinite where there are none.
    pub(super) fn row(&self, first: isize, count: usize) -> Vec<f64> {
        let start = self.anchor + first - self.from as isize;
        let skipped = usize::try_from(-start).unwrap_or(0).min(count);
        let inside = self.values.get(..self.searched()).unwrap_or_default();
        let there = inside.get(usize::try_from(start).unwrap_or(0)..).unwrap_or_default();
        let there = there.get(..count - skipped).unwrap_or(there);
        let mut row = vec![f64::INFINITY; count];
        row.iter_mut().skip(skipped).zip(there).for_each(|(place, value)| *place = *value);
        row
    }

    /// How many samples after the anchor a value lies.
    pub(super) fn lag(&self, index: usize) -> isize {
        (self.from + index) as isize - self.anchor
    }

    /// How many values lie before the limit.
    pub(super) fn searched(&self) -> usize {
        self.limit.saturating_sub(self.from).min(self.values.len())
    }

    /// The same, laid over the others `shift` samples later.
    pub(super) fn shifted(&self, shift: isize) -> Self {
        Self { anchor: self.anchor + shift, ..self.clone() }
    }
}
