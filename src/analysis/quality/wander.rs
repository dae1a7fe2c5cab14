//! How much the line under the beats rises and falls.

use crate::analysis::neighbours::median;
use crate::signal::{SampleRate, Seconds};

/// The line is followed by medians of this much: longer than a complex, shorter than a breath.
const WINDOW: Seconds = Seconds::new(0.6);
/// How many samples of a window are looked at.
const LOOKED_AT: usize = 31;
/// The middle nine tenths of the line count: one movement is not a wandering line.
const OUTER: f64 = 0.05;

/// From the low to the high of the line, in units of the trace; 0 for a trace too short to tell.
pub(crate) fn wander(samples: &[f32], rate: SampleRate) -> f32 {
    let window = rate.count(WINDOW).max(1);
    let line = samples
        .chunks_exact(window)
        .filter_map(|stretch| median(stretch.iter().step_by(window.div_ceil(LOOKED_AT)).copied()));
    let mut line: Vec<f32> = line.collect();
    line.sort_unstable_by(f32::total_cmp);
    let outer = (line.len() as f64 * OUTER) as usize;
    match (line.get(outer), line.get(line.len().saturating_sub(outer + 1))) {
        (Some(low), Some(high)) => high - low,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn breathing_moves_the_line_and_beats_do_not() {
        let rate = SampleRate::new(100.0).unwrap();
        let beat = |i: usize| if i % 80 < 5 { 1.0 } else { 0.0 };
        let breath = |i: usize| (i as f32 * std::f32::consts::TAU / 400.0).sin();
        let still: Vec<f32> = (0..3000).map(beat).collect();
        let moving: Vec<f32> = (0..3000).map(|i| beat(i) + breath(i)).collect();
        assert!(wander(&still, rate) < 0.01);
        assert!((1.7..2.1).contains(&wander(&moving, rate)));
        assert!(wander(&[], rate).abs() < f32::EPSILON);
    }
}
