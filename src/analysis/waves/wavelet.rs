//! The quadratic-spline wavelet: the slope of a smoothed trace, at any sampling rate.
//!
//! Martínez et al. 2004, IEEE Trans Biomed Eng 51:570, take the derivative of a cubic spline as
//! wavelet: `Ψ(Ω) = jΩ (sin(Ω/4) / (Ω/4))⁴`. At scale `s` this is a trace averaged four times over
//! `s/2` and then differentiated. One average and the derivative together are a plain difference, so
//! that `W = (x averaged three times)(t + s/4) - (x averaged three times)(t - s/4)`, up to a factor.
//! With widths that need not be whole samples this holds at every rate, where the paper's filter
//! bank is tied to 250 Hz (its scales 2¹…2⁵ last 8 to 128 ms). It is centred: nothing shifts in time.
//!
//! Beyond its ends a trace is taken to go on level. A step of height `h` gives a modulus of `h`.

use std::ops::Range;

/// The wavelet transform of a trace at one scale, in samples; as long as the trace.
///
/// Positive where the trace rises. `scale` below two samples works as two samples.
pub(super) fn transform(trace: &[f64], scale: f64) -> Vec<f64> {
    let width = (scale / 2.0).max(1.0);
    let smooth = averaged(&averaged(&averaged(trace, width), width), width);
    let inside = |range: Range<usize>, part: f64| {
        pairs(&smooth, range).map(move |(left, right)| left + part * (right - left))
    };
    differences(smooth.len(), width / 2.0, inside, |at| between(&smooth, at))
}

/// The mean of a trace over `width` samples around each sample, the trace being joined by lines.
pub(super) fn averaged(trace: &[f64], width: f64) -> Vec<f64> {
    let (Some(&first), Some(&last)) = (trace.first(), trace.last()) else {
        return Vec::new();
    };
    let mut area = Vec::with_capacity(trace.len());
    let (mut sum, mut previous) = (0.0, first);
    area.extend(trace.iter().map(|&value| {
        sum += 0.5 * (previous + value);
        previous = value;
        sum
    }));
    let start = area[0];
    let end = (trace.len() - 1) as f64;
    let from_left = |left: f64, right: f64, part: f64| part * (left + part * (right - left) / 2.0);
    let inside = |range: Range<usize>, part: f64| {
        let area = area.get(range.clone()).unwrap_or_default();
        area.iter()
            .zip(pairs(trace, range))
            .map(move |(area, (left, right))| area + from_left(left, right, part))
    };
    let area_to = |at: f64| -> f64 {
        if at <= 0.0 {
            return start + first * at;
        }
        if at >= end {
            return sum + last * (at - end);
        }
        let (whole, part) = (at as usize, at.fract());
        area[whole] + from_left(trace[whole], trace[whole + 1], part)
    };
    let mut means = differences(trace.len(), width / 2.0, inside, area_to);
    means.iter_mut().for_each(|area| *area /= width);
    means
}

/// Each sample of a range with the one after it.
fn pairs(trace: &[f64], range: Range<usize>) -> impl Iterator<Item = (f64, f64)> {
    let left = trace.get(range.clone()).unwrap_or_default();
    let right = trace.get(range.start + 1..range.end + 1).unwrap_or_default();
    left.iter().copied().zip(right.iter().copied())
}

/// For each of `n` samples the value `half` samples after it less that `half` before it.
///
/// `inside` takes the samples before a row of places and the part of a step to each, which is the same for
/// all: nothing has to be rounded, and several go at a time. Near the ends `anywhere` takes the place.
fn differences<I: Iterator<Item = f64>>(
    n: usize,
    half: f64,
    inside: impl Fn(Range<usize>, f64) -> I,
    anywhere: impl Fn(f64) -> f64,
) -> Vec<f64> {
    let (after, before) = (half.floor(), half.ceil());
    let (after_part, before_part) = (half - after, before - half);
    let (after, before) = (after as usize, before as usize);
    let start = before.min(n);
    let stop = n.saturating_sub(after.saturating_add(1)).max(start);
    let at_end = |at: usize| anywhere(at as f64 + half) - anywhere(at as f64 - half);
    let mut values = Vec::with_capacity(n);
    values.extend((0..start).map(at_end));
    if start < stop {
        let later = inside(start + after..stop + after, after_part);
        let earlier = inside(start - before..stop - before, before_part);
        values.extend(later.zip(earlier).map(|(later, earlier)| later - earlier));
    }
    values.extend((stop..n).map(at_end));
    values
}

/// The value of a trace between its samples; level beyond its ends.
pub(super) fn between(trace: &[f64], at: f64) -> f64 {
    let (Some(&first), Some(&last)) = (trace.first(), trace.last()) else {
        return 0.0;
    };
    if at <= 0.0 {
        return first;
    }
    let index = at.floor() as usize;
    match (trace.get(index), trace.get(index + 1)) {
        (Some(left), Some(right)) => left + (at - at.floor()) * (right - left),
        _ => last,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_has_its_own_height_at_every_scale_and_rate() {
        let step: Vec<f64> = (0..400).map(|at| if at < 200 { 0.0 } else { 3.0 }).collect();
        for scale in [4.0, 8.0, 13.7, 32.0, 64.0] {
            let top = transform(&step, scale).into_iter().fold(0.0, f64::max);
            // The three averages of the difference sum to the step; its top is their middle third.
            assert!((top / 3.0 - 2.0 / 3.0).abs() < 0.2, "scale {scale}: {top}");
        }
    }

    #[test]
    fn the_same_wave_looks_the_same_at_two_rates() {
        let wave = |rate: f64| -> Vec<f64> {
            let trace: Vec<f64> = (0..(2.0 * rate) as usize)
                .map(|at| (-0.5 * ((at as f64 / rate - 1.0) / 0.04).powi(2)).exp())
                .collect();
            transform(&trace, 0.064 * rate)
        };
        let (slow, fast) = (wave(125.0), wave(1000.0));
        for (at, value) in slow.iter().enumerate() {
            assert!((value - fast[8 * at]).abs() < 0.01, "at {at}");
        }
    }

    #[test]
    fn a_level_line_has_no_slope_and_nothing_is_nothing() {
        assert!(transform(&[5.0; 50], 7.3).iter().all(|value| value.abs() < 1e-9));
        assert!(transform(&[], 8.0).is_empty());
        assert_eq!(transform(&[1.0], 8.0).len(), 1);
    }
}
