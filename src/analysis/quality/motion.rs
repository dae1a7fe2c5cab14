//! Where the line jumps: somebody moved, or a cable did.
//!
//! Breathing carries the line up and down over seconds; a movement takes it away within a fraction of
//! one, in the very band of the waves (1 to 10 Hz, from memory), where no filter can part the two. The
//! line is the median of six tenths of a second, which a complex does not move.

use super::usable::merged;
use crate::analysis::neighbours::median;
use crate::signal::{SampleRate, SampleSpan, Seconds};

/// The line is the median of so much, and is taken so often.
const WINDOW: Seconds = Seconds::new(0.6);
const STEP: Seconds = Seconds::new(0.2);
/// How many steps lie between two lines that are compared: 0.4 s.
const APART: usize = 2;
/// A line that goes this part of the height of R in that time jumps (ours; breathing that carries it by
/// a whole R every four seconds goes by a third in that time).
const JUMP: f32 = 0.5;
/// How many samples of a window are looked at.
const LOOKED_AT: usize = 61;

/// The stretches around jumps outside those that can't be used, in order.
pub(crate) fn motion(
    samples: &[f32],
    rate: SampleRate,
    height: f32,
    unusable: &[SampleSpan],
) -> Vec<SampleSpan> {
    let (window, step) = (rate.count(WINDOW).max(1), rate.count(STEP).max(1));
    if samples.len() < window || height <= 0.0 {
        return Vec::new();
    }
    let stride = window.div_ceil(LOOKED_AT);
    let line: Vec<f32> = (0..=samples.len() - window)
        .step_by(step)
        .filter_map(|start| median(samples[start..start + window].iter().step_by(stride).copied()))
        .collect();
    let jumps = line.iter().zip(line.iter().skip(APART)).enumerate();
    let spans = jumps
        .filter(|(_, (before, after))| (*after - *before).abs() > JUMP * height)
        .map(|(k, _)| SampleSpan::new(k * step, (k + APART) * step + window))
        .filter(|span| !unusable.iter().any(|other| other.overlaps(*span)));
    merged(spans, samples.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f32::consts::TAU;

    fn trace(extra: impl Fn(usize) -> f32) -> Vec<f32> {
        let beat = |i: usize| if i % 80 < 8 { 1.0 } else { 0.0 };
        (0..3000).map(|i| beat(i) + extra(i)).collect()
    }

    #[test]
    fn a_jump_of_the_line_is_motion_and_breathing_is_not() {
        let rate = SampleRate::new(100.0).unwrap();
        let breathing = trace(|i| 0.5 * (i as f32 * TAU / 400.0).sin());
        assert_eq!(motion(&breathing, rate, 1.0, &[]), []);
        let jump = motion(&trace(|i| if i < 1500 { 0.0 } else { 0.9 }), rate, 1.0, &[]);
        assert_eq!(jump.len(), 1);
        assert!(jump[0].start().get() < 1500 && jump[0].end().get() > 1500);
        assert!(jump[0].len() < 200, "{jump:?}");
        assert_eq!(motion(&[], rate, 1.0, &[]), []);
    }
}
