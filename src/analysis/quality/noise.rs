//! Stretches in which beats can't be told from noise.
//!
//! Between two beats a trace is nearly level, so over any second the lower quartile of its steepness
//! is a few hundredths of the steepness of a beat; in movement noise it comes near it. Measured on
//! open records: below 0.2 in 99 of 100 seconds even with electrode motion at 12 dB, around 1 in
//! movement noise of one and a half times the height of R, 0.37 in pure white noise.

use super::usable::merged;
use crate::analysis::neighbours::{lower_quartile, median};
use crate::signal::{SampleRate, SampleSpan, Seconds};

/// What is judged at a time, and how far apart.
const WINDOW: Seconds = Seconds::new(1.0);
const STEP: Seconds = Seconds::new(0.25);
/// Every two seconds hold a beat, except at the slowest of rates.
const BEAT: Seconds = Seconds::new(2.0);
/// The lower quartile over the usual beat from which a second is noise.
const NOISE: f32 = 0.35;
/// Where more than this part is noise, the usual beat was noise itself: all of it is.
const ALL: f64 = 0.5;
/// How many samples of a window are looked at.
const LOOKED_AT: usize = 64;

/// The noisy stretches, in order.
pub(crate) fn noisy(steepness: &[f32], rate: SampleRate) -> Vec<SampleSpan> {
    let n = steepness.len();
    let window = rate.count(WINDOW).clamp(1, n.max(1));
    let beats = steepness
        .chunks(rate.count(BEAT).max(1))
        .map(|stretch| stretch.iter().copied().fold(0.0, f32::max))
        .filter(|&steepest| steepest > 0.0);
    let Some(usual) = median(beats) else { return Vec::new() };
    let is_noise = |start: &usize| {
        lower_quartile(&steepness[*start..start + window], LOOKED_AT)
            .is_some_and(|lower| lower > NOISE * usual)
    };
    let starts = (0..=n - window).step_by(rate.count(STEP).max(1));
    let spans = starts.filter(is_noise).map(|start| SampleSpan::new(start, start + window));
    let spans = merged(spans, n);
    let noise: usize = spans.iter().map(|span| span.len()).sum();
    if noise as f64 > ALL * n as f64 { vec![SampleSpan::new(0, n)] } else { spans }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steep_stretch_without_rest_is_noise() {
        let rate = SampleRate::new(100.0).unwrap();
        let beat = |i: usize| if i % 80 < 12 { 1.0 } else { 0.05 };
        let mut steepness: Vec<f32> = (0..2000).map(beat).collect();
        assert_eq!(noisy(&steepness, rate), []);
        steepness[500..800].fill(0.8);
        assert_eq!(noisy(&steepness, rate), [SampleSpan::new(475, 825)]);
        assert_eq!(noisy(&[0.4; 900], rate), [SampleSpan::new(0, 900)]);
        assert_eq!(noisy(&[], rate), []);
        assert_eq!(noisy(&[0.0; 900], rate), []);
    }
}
