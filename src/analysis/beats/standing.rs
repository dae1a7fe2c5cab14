//! What each beat counts for: usual shape, usual time, clear enough.
//!
//! Shape is the correlation coefficient with the median complex of the trace over 240 ms, at the
//! best shift; an early or late beat is told from its own neighbours only, so a fast heart, a slowing
//! one and the swing of the rate with breathing all count. Nothing here is a diagnosis.

use crate::analysis::neighbours::{median, nearest};
use crate::analysis::reading::{Standing, WhySetAside};
use crate::signal::{SampleRate, SampleSpan, Seconds};

/// What is compared: this much before and after R.
const BEFORE: Seconds = Seconds::new(0.100);
const AFTER: Seconds = Seconds::new(0.140);
/// R may be marked this much off.
const SHIFT: Seconds = Seconds::new(0.020);
/// A beat with less correlation than this has another shape (common practice: 0.8 to 0.9).
const USUAL_SHAPE: f32 = 0.8;
/// A beat whose interval before is less than this part of the usual one comes early.
const EARLY: f32 = 0.75;
/// And of more than this many is late, or the one before it was missed.
const LATE: f32 = 1.6;
/// How many intervals around are the usual ones.
const USUAL: usize = 7;
/// A median complex is made from at most this many beats, evenly chosen.
const MOST: usize = 200;
/// Complexes are compared at about this rate.
const COMPARED_AT: f64 = 250.0;

/// The usual complex of a trace, sampled at about [`COMPARED_AT`].
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    samples: Vec<f32>,
    before: usize,
    stride: usize,
}

impl Shape {
    /// The median, sample by sample, of the beats whose stretch lies whole inside the trace.
    pub(crate) fn usual(
        light: &[f32],
        r: &[usize],
        rate: SampleRate,
        before: Seconds,
        after: Seconds,
    ) -> Option<Self> {
        let stride = ((rate.hz() / COMPARED_AT) as usize).max(1);
        let (before, after) = (rate.count(before) / stride, rate.count(after) / stride);
        let whole = |at: &usize| *at >= before * stride && at + after * stride < light.len();
        let inside: Vec<usize> = r.iter().copied().filter(whole).collect();
        let chosen: Vec<usize> =
            inside.iter().copied().step_by(inside.len().div_ceil(MOST).max(1)).collect();
        let samples = (0..=before + after)
            .map(|k| median(chosen.iter().map(|&at| light[at + k * stride - before * stride])))
            .collect::<Option<Vec<f32>>>()?;
        Some(Self { samples, before, stride })
    }

    /// The value so long after R (before it when negative); `None` beyond the ends.
    pub(crate) fn at(&self, after_r: Seconds, rate: SampleRate) -> Option<f32> {
        let steps = (after_r.seconds() * rate.hz() / self.stride as f64).round();
        self.samples.get((self.before as f64 + steps) as usize).copied()
    }

    /// The correlation of one beat with it, at the best shift.
    fn likeness(&self, light: &[f32], at: usize, shift: usize) -> f32 {
        let correlation = |by: usize| {
            let first = (at + by).checked_sub(self.before * self.stride + shift)?;
            let last = first + (self.samples.len() - 1) * self.stride;
            let stretch = light.get(first..=last)?.iter().step_by(self.stride);
            Some(correlation(stretch.copied().zip(self.samples.iter().copied())))
        };
        (0..=2 * shift).step_by(self.stride).filter_map(correlation).fold(0.0, f32::max)
    }
}

/// The standing of each beat.
pub(crate) fn standings(
    light: &[f32],
    r: &[usize],
    rate: SampleRate,
    unusable: &[SampleSpan],
) -> Vec<Standing> {
    let usual = Shape::usual(light, r, rate, BEFORE, AFTER);
    let broken = |from: usize, to: usize| {
        let after = unusable.partition_point(|span| span.end().get() <= from);
        unusable.get(after).is_some_and(|span| span.overlaps(SampleSpan::new(from, to)))
    };
    // Across a hole nobody knows how many beats there were: each run is judged by itself.
    let untimely = r.chunk_by(|&from, &to| !broken(from, to)).flat_map(untimely);
    let reach = (rate.count(BEFORE), rate.count(AFTER));
    r.iter()
        .zip(untimely)
        .map(|(&at, untimely)| {
            let stretch = SampleSpan::new(at.saturating_sub(reach.0), at + reach.1);
            let after = unusable.partition_point(|span| span.end() <= stretch.start());
            let touched = unusable.get(after).is_some_and(|span| span.overlaps(stretch));
            let like = usual
                .as_ref()
                .is_none_or(|usual| usual.likeness(light, at, rate.count(SHIFT)) >= USUAL_SHAPE);
            // A complex that is cut off by an end has no shape to compare.
            let whole =
                at >= reach.0 + rate.count(SHIFT) && at + reach.1 + rate.count(SHIFT) < light.len();
            if touched {
                Standing::SetAside(WhySetAside::Unclear)
            } else if whole && !like {
                Standing::SetAside(WhySetAside::OtherShape)
            } else {
                untimely.map_or(Standing::Counts, Standing::SetAside)
            }
        })
        .collect()
}

/// For each beat of an unbroken run, how it comes otherwise than its neighbours would have it, if so.
fn untimely(r: &[usize]) -> Vec<Option<WhySetAside>> {
    let intervals: Vec<f32> = r.windows(2).map(|pair| (pair[1] - pair[0]) as f32).collect();
    let usual = |i: usize| median(nearest(&intervals, i, USUAL).iter().copied());
    let early = |i: usize| {
        let (Some(before), Some(usual)) = (i.checked_sub(1), usual(i)) else { return false };
        let after = intervals.get(i).copied().unwrap_or(usual);
        // The beat after an early one waits: a heart that merely speeds up does not.
        let short = intervals[before] < EARLY * usual;
        short && after > intervals[before] / EARLY
    };
    let late = |i: usize| {
        let (Some(before), Some(usual)) = (i.checked_sub(1), usual(i)) else { return false };
        intervals[before] > LATE * usual
    };
    let way = |i: usize| {
        let early = early(i).then_some(WhySetAside::Early);
        early.or_else(|| late(i).then_some(WhySetAside::Late))
    };
    (0..r.len()).map(way).collect()
}

/// Pearson's correlation coefficient; 0 when either side is constant.
pub(crate) fn correlation(pairs: impl Iterator<Item = (f32, f32)>) -> f32 {
    let (mut n, mut a, mut b, mut aa, mut bb, mut ab) = (0.0f64, 0.0, 0.0, 0.0, 0.0, 0.0);
    for (x, y) in pairs {
        let (x, y) = (f64::from(x), f64::from(y));
        (n, a, b) = (n + 1.0, a + x, b + y);
        (aa, bb, ab) = (aa + x * x, bb + y * y, ab + x * y);
    }
    let power = (n * aa - a * a) * (n * bb - b * b);
    if power > 0.0 { ((n * ab - a * b) / power.sqrt()) as f32 } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_early_and_a_late_beat_are_untimely_but_a_racing_or_slowing_heart_is_not() {
        let early = [0, 800, 1600, 2050, 3200, 4000, 4800];
        let (is_early, is_late) = (Some(WhySetAside::Early), Some(WhySetAside::Late));
        assert_eq!(untimely(&early), [None, None, None, is_early, None, None, None]);
        let late = [0, 800, 1600, 3200, 4000, 4800, 5600];
        assert_eq!(untimely(&late), [None, None, None, is_late, None, None, None]);
        // 186 to 96 beats a minute in a minute, and the swing of breathing at 10 beats a breath.
        let mut at = 0.0f64;
        let slowing: Vec<usize> = (0..140)
            .map(|_| {
                let rate = 96.0 + 90.0 * (-at / 35.0).exp();
                at += 60.0 / rate;
                (at * 1000.0) as usize
            })
            .collect();
        assert!(untimely(&slowing).iter().all(Option::is_none));
        let mut at = 0.0f64;
        let breathing: Vec<usize> = (0..60)
            .map(|i| {
                at += 850.0 + 200.0 * (std::f64::consts::TAU * f64::from(i) / 8.0).sin();
                at as usize
            })
            .collect();
        assert!(untimely(&breathing).iter().all(Option::is_none));
    }

    #[test]
    fn correlation_has_its_textbook_values() {
        let a = [1.0, 2.0, 4.0];
        let with = |b: [f32; 3]| correlation(a.into_iter().zip(b));
        assert!((with([3.0, 5.0, 9.0]) - 1.0).abs() < 1e-6);
        assert!((with([-1.0, -2.0, -4.0]) + 1.0).abs() < 1e-6);
        assert!(with([7.0, 7.0, 7.0]).abs() < 1e-6);
    }
}
