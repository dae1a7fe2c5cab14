//! Places without a value: short ones are bridged, longer ones become holes.
//!
//! Readers put NaN where the file has no number. Afterwards every sample is finite, as
//! [`Recording`](crate::signal::Recording) promises: a straight line leads from the last value before
//! to the first one after. At the ends of a trace, where there is only one side, its value is held.
//! A stretch of one sample, or of at most [`BRIDGED`], is too short to hide a wave and is only
//! counted; a longer one is listed as a hole. A trace without any value is one hole, at zero.

use crate::signal::{Hole, HoleCause, SampleRate, SampleSpan, Seconds};

/// The longest stretch bridged without a hole. Common practice: shorter than any wave of the cycle.
const BRIDGED: Seconds = Seconds::new(0.010);

/// What was done about the missing values of a trace.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Bridged {
    /// How many samples were bridged without a hole.
    pub(super) singles: usize,
    /// The longer stretches.
    pub(super) holes: Vec<Hole>,
}

/// The most samples bridged without a hole.
pub(super) fn longest(rate: SampleRate) -> usize {
    rate.count(BRIDGED).max(1)
}

/// Replaces every value that is not finite.
pub(super) fn bridge(samples: &mut [f32], rate: SampleRate) -> Bridged {
    let longest = longest(rate);
    let mut bridged = Bridged::default();
    let mut before: Option<f32> = None;
    let mut at = 0;
    while let Some(start) = position(samples, at, |value| !value.is_finite()) {
        let end = position(samples, start, f32::is_finite).unwrap_or(samples.len());
        before = start.checked_sub(1).and_then(|last| samples.get(last)).copied().or(before);
        let after = samples.get(end).copied();
        // In single precision the way from the lowest value to the highest has no number.
        let [from, to] =
            [before.or(after), after.or(before)].map(|side| f64::from(side.unwrap_or(0.0)));
        let steps = (end - start + 1) as f64;
        if let Some(stretch) = samples.get_mut(start..end) {
            for (step, value) in stretch.iter_mut().enumerate() {
                *value = (from + (to - from) * ((step + 1) as f64 / steps)) as f32;
            }
        }
        if end - start <= longest && before.is_some() && after.is_some() {
            bridged.singles += end - start;
        } else {
            let span = SampleSpan::new(start, end);
            bridged.holes.push(Hole { span, cause: HoleCause::NoValue });
        }
        at = end;
    }
    bridged
}

/// The first sample from `from` on that is as asked.
fn position(samples: &[f32], from: usize, is: impl Fn(f32) -> bool) -> Option<usize> {
    samples.get(from..)?.iter().position(|&value| is(value)).map(|ahead| from + ahead)
}

#[cfg(test)]
mod tests {
    use super::*;

    const N: f32 = f32::NAN;

    fn bridged(samples: &mut [f32]) -> (usize, Vec<(usize, usize)>) {
        let bridged = bridge(samples, SampleRate::new(250.0).unwrap());
        (
            bridged.singles,
            bridged
                .holes
                .iter()
                .map(|hole| hole.span)
                .map(|span| (span.start().get(), span.end().get()))
                .collect(),
        )
    }

    #[test]
    fn a_short_stretch_becomes_a_straight_line() {
        let mut samples = [1.0, N, 2.0, N, N, N, 6.0];
        assert_eq!(bridged(&mut samples), (4, vec![]));
        assert_eq!(samples, [1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0]);
    }

    #[test]
    fn a_long_stretch_and_the_ends_are_holes() {
        let mut samples = [N, 1.0, N, N, N, N, 6.0, N];
        assert_eq!(bridged(&mut samples), (0, vec![(0, 1), (2, 6), (7, 8)]));
        assert_eq!(samples, [1.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 6.0]);
    }

    #[test]
    fn the_longest_way_ends_where_it_should() {
        let mut samples = [f32::MIN, N, f32::MAX];
        assert_eq!(bridged(&mut samples), (1, vec![]));
        assert_eq!(samples, [f32::MIN, 0.0, f32::MAX]);
    }

    #[test]
    fn nothing_at_all_is_one_hole_at_zero() {
        let mut samples = [N, f32::INFINITY, N];
        assert_eq!(bridged(&mut samples), (0, vec![(0, 3)]));
        assert_eq!(samples, [0.0; 3]);
        assert_eq!(bridged(&mut []), (0, vec![]));
    }
}
