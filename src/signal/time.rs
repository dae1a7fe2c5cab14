//! Seconds and samples, and the one rule by which they turn into each other.
//!
//! Sample `i` of a trace stands for the moment `i / rate`, counted from the first sample. A moment
//! belongs to the nearest sample; halves go to the later one. Moments before the first sample
//! belong to the first.

use super::units::{Hertz, Seconds};
use crate::words::{Phrase, errors_as_said, phrase};
use serde::{Deserialize, Serialize};

/// How many samples a second the sensor took: finite and above zero.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct SampleRate(f64);

/// A number that can't be a sampling rate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnusableRate(pub f64);

impl UnusableRate {
    /// What is wrong, and what to use instead.
    pub fn said(self) -> Phrase {
        let (hz, fastest) = (Phrase::exact(self.0), Phrase::exact(SampleRate::FASTEST));
        phrase!("faults.rate", hz, fastest)
    }
}

errors_as_said!(UnusableRate);

impl SampleRate {
    /// The fastest rate taken for real: a megahertz is a thousand times what a heart needs.
    pub const FASTEST: f64 = 1.0e6;

    /// A rate in samples a second.
    ///
    /// # Errors
    /// [`UnusableRate`] unless the number is finite, above 0 and at most [`Self::FASTEST`].
    pub fn new(samples_per_second: f64) -> Result<Self, UnusableRate> {
        if samples_per_second > 0.0 && samples_per_second <= Self::FASTEST {
            Ok(Self(samples_per_second))
        } else {
            Err(UnusableRate(samples_per_second))
        }
    }

    /// Samples a second.
    pub const fn hz(self) -> f64 {
        self.0
    }

    /// The highest frequency a trace at this rate can hold.
    pub const fn nyquist(self) -> Hertz {
        Hertz::new(self.0 / 2.0)
    }

    /// The time from one sample to the next.
    pub const fn interval(self) -> Seconds {
        Seconds::new(1.0 / self.0)
    }

    /// The moment a sample stands for, counted from the first.
    pub fn time_of(self, sample: SampleIndex) -> Seconds {
        Seconds::new(sample.get() as f64 / self.0)
    }

    /// The sample nearest to a moment; moments before the first sample give the first.
    pub fn nearest(self, moment: Seconds) -> SampleIndex {
        SampleIndex::new(self.count(moment))
    }

    /// How many samples fit a stretch of time, to the nearest whole one.
    pub fn count(self, stretch: Seconds) -> usize {
        // `as` saturates, and turns NaN into 0.
        (stretch.seconds() * self.0 + 0.5).floor() as usize
    }
}

impl TryFrom<f64> for SampleRate {
    type Error = UnusableRate;
    fn try_from(value: f64) -> Result<Self, UnusableRate> {
        Self::new(value)
    }
}

impl From<SampleRate> for f64 {
    fn from(rate: SampleRate) -> Self {
        rate.0
    }
}

/// Which sample of a trace, counted from 0.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct SampleIndex(usize);

impl SampleIndex {
    /// The sample with this number, the first being 0.
    pub const fn new(index: usize) -> Self {
        Self(index)
    }

    /// The number, the first sample being 0.
    pub const fn get(self) -> usize {
        self.0
    }

    /// How many samples later this one is than `other`; negative when it is earlier.
    pub const fn minus(self, other: Self) -> isize {
        self.0 as isize - other.0 as isize
    }

    /// The sample so many later (or earlier), not before the first.
    #[must_use]
    pub const fn offset(self, by: isize) -> Self {
        Self(self.0.saturating_add_signed(by))
    }
}

/// Samples from `start` up to, not including, `end`. Never backwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Ends")]
pub struct SampleSpan {
    start: SampleIndex,
    end: SampleIndex,
}

/// The ends of a span as a file has them.
#[derive(Deserialize)]
struct Ends {
    start: usize,
    end: usize,
}

/// A span in a file that ends before it starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct BackwardSpan {
    start: usize,
    end: usize,
}

impl BackwardSpan {
    fn said(&self) -> Phrase {
        let Self { start, end } = self;
        phrase!("faults.saved.backward_span", start, end)
    }
}

errors_as_said!(BackwardSpan);

impl TryFrom<Ends> for SampleSpan {
    type Error = BackwardSpan;
    fn try_from(Ends { start, end }: Ends) -> Result<Self, BackwardSpan> {
        if start > end {
            return Err(BackwardSpan { start, end });
        }
        Ok(Self::new(start, end))
    }
}

impl SampleSpan {
    /// The span between two samples, whichever comes first; `end` is not part of it.
    pub fn new(start: usize, end: usize) -> Self {
        Self { start: SampleIndex(start.min(end)), end: SampleIndex(start.max(end)) }
    }

    /// The first sample in the span.
    pub const fn start(self) -> SampleIndex {
        self.start
    }

    /// The first sample after the span.
    pub const fn end(self) -> SampleIndex {
        self.end
    }

    /// How many samples it holds.
    pub const fn len(self) -> usize {
        self.end.0 - self.start.0
    }

    /// Whether it holds no sample.
    pub const fn is_empty(self) -> bool {
        self.len() == 0
    }

    /// Whether a sample lies in it.
    pub fn contains(self, sample: SampleIndex) -> bool {
        self.start <= sample && sample < self.end
    }

    /// Whether it shares a sample with another span.
    pub fn overlaps(self, other: Self) -> bool {
        self.start.max(other.start) < self.end.min(other.end)
    }

    /// The span with its start moved, but never so near the end that fewer than `shortest` samples stay.
    #[must_use]
    pub fn with_start(self, start: usize, shortest: usize) -> Self {
        let end = self.end.0;
        Self::new(start.min(end.saturating_sub(shortest)), end)
    }

    /// The span with its end moved, at most to `samples`, and never so near the start that fewer than
    /// `shortest` samples stay while there are that many.
    #[must_use]
    pub fn with_end(self, end: usize, shortest: usize, samples: usize) -> Self {
        let start = self.start.0.min(samples);
        Self::new(start, end.max(start.saturating_add(shortest)).min(samples))
    }

    /// The indices as a range, for slicing.
    pub const fn range(self) -> std::ops::Range<usize> {
        self.start.0..self.end.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rate_is_finite_and_above_zero() {
        for bad in [0.0, -250.0, f64::NAN, f64::INFINITY, 2.0e6] {
            assert!(SampleRate::new(bad).is_err(), "{bad} was taken for a rate");
        }
    }

    #[test]
    fn time_and_samples_agree_both_ways() {
        let rate = SampleRate::new(360.0).unwrap();
        for index in [0, 1, 77, 649_999] {
            let sample = SampleIndex::new(index);
            assert_eq!(rate.nearest(rate.time_of(sample)), sample);
        }
        assert_eq!(rate.nearest(Seconds::new(-3.0)), SampleIndex::new(0));
        assert_eq!(rate.nearest(Seconds::new(f64::NAN)), SampleIndex::new(0));
    }

    #[test]
    fn the_ends_of_a_span_move_but_keep_apart() {
        let span = SampleSpan::new(100, 500);
        assert_eq!(span.with_start(200, 50).range(), 200..500);
        assert_eq!(span.with_start(499, 50).range(), 450..500);
        assert_eq!(span.with_start(9, 600).range(), 0..500);
        assert_eq!(span.with_end(300, 50, 1000).range(), 100..300);
        assert_eq!(span.with_end(0, 50, 1000).range(), 100..150);
        assert_eq!(span.with_end(5000, 50, 1000).range(), 100..1000);
        assert_eq!(span.with_end(0, usize::MAX, 120).range(), 100..120);
    }

    #[test]
    fn spans_are_never_backwards() {
        let span = SampleSpan::new(9, 4);
        assert_eq!(span.len(), 5);
        assert!(span.contains(SampleIndex::new(4)) && !span.contains(SampleIndex::new(9)));
        assert!(!span.overlaps(SampleSpan::new(9, 12)) && span.overlaps(SampleSpan::new(8, 12)));
        assert!(serde_json::from_str::<SampleSpan>(r#"{"start":9,"end":4}"#).is_err());
        assert!(serde_json::from_str::<SampleSpan>(r#"{"start":4,"end":9}"#).is_ok());
    }
}
