//! The lowest and highest sample of any stretch, at once: what a trace looks like from afar.
//!
//! An hour at 1000 Hz has 3.6 million samples and a screen has some 1400 columns. Each column shows
//! the least and the greatest value in it, so that no R wave is lost between two columns. A pyramid
//! of extents, each level [`FANOUT`] times coarser, answers a column in a few dozen steps however
//! wide the view. Built once for a trace; about an eighth of its size.

use super::time::SampleSpan;
use std::sync::Arc;

/// How many entries of one level make one of the next.
const FANOUT: usize = 16;

/// The lowest and the highest value of a stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// The lowest.
    pub low: f32,
    /// The highest.
    pub high: f32,
}

impl Extent {
    /// Of some samples; `None` where there are none.
    pub fn of(samples: &[f32]) -> Option<Self> {
        samples.iter().map(|&value| Self { low: value, high: value }).reduce(Self::with)
    }

    fn with(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
}

/// The extents of a trace at every scale.
#[derive(Clone, Debug)]
pub struct Envelope {
    samples: Arc<[f32]>,
    levels: Vec<Vec<Extent>>,
}

impl Envelope {
    /// Prepares the extents of a trace. An empty trace has none.
    pub fn new(samples: Arc<[f32]>) -> Self {
        let mut levels: Vec<Vec<Extent>> = Vec::new();
        let mut level: Vec<Extent> = samples.chunks(FANOUT).filter_map(Extent::of).collect();
        while level.len() > 1 {
            let next = level
                .chunks(FANOUT)
                .filter_map(|chunk| chunk.iter().copied().reduce(Extent::with))
                .collect();
            levels.push(std::mem::replace(&mut level, next));
        }
        levels.push(level);
        Self { samples, levels }
    }

    /// The trace itself.
    pub const fn samples(&self) -> &Arc<[f32]> {
        &self.samples
    }

    /// Lowest and highest sample in a span; `None` where the trace has no sample there.
    pub fn extent(&self, span: SampleSpan) -> Option<Extent> {
        let start = span.start().get().min(self.samples.len());
        let end = span.end().get().min(self.samples.len());
        self.climb(0, start, end)
    }

    /// The extent of entries `start..end` of a level; level 0 is the samples.
    fn climb(&self, level: usize, start: usize, end: usize) -> Option<Extent> {
        let plain = |range: std::ops::Range<usize>| match level {
            0 => Extent::of(&self.samples[range]),
            _ => self.levels[level - 1][range].iter().copied().reduce(Extent::with),
        };
        let (inner_start, inner_end) = (start.div_ceil(FANOUT), end / FANOUT);
        if inner_start >= inner_end || level >= self.levels.len() {
            return plain(start..end);
        }
        [
            plain(start..inner_start * FANOUT),
            self.climb(level + 1, inner_start, inner_end),
            plain(inner_end * FANOUT..end),
        ]
        .into_iter()
        .flatten()
        .reduce(Extent::with)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn every_stretch_agrees_with_looking_at_each_sample(
            samples in proptest::collection::vec(-5.0f32..5.0, 0..3000),
            ends in (0usize..3200, 0usize..3200),
        ) {
            let span = SampleSpan::new(ends.0, ends.1);
            let envelope = Envelope::new(samples.clone().into());
            let (start, end) = (span.start().get().min(samples.len()), span.end().get().min(samples.len()));
            prop_assert_eq!(envelope.extent(span), Extent::of(&samples[start..end]));
        }
    }
}
