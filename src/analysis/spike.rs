//! Takes the spikes of a pacemaker out, so that a complex begins where the heart begins it.
//!
//! A paced complex follows a stimulus of a millisecond or two, which an amplifier draws out into an
//! edge and a tail of some 20 ms. The onset of a paced complex is taken after the stimulus (CSE Working
//! Party 1985, Eur Heart J 6:815, from memory). What tells a spike from a complex is its edge: out of
//! a calm line it is there within one step of 2 to 4 ms, where even a narrow complex takes several
//! steps. The spike is bridged with a straight line, from its edge to where its tail has run out.
//!
//! A trace with fewer than 200 samples a second can't show this, and stays as it is; so does an edge
//! that does not come back, such as a step of the line.

use crate::signal::{Hertz, SampleRate, Seconds};
use std::ops::Range;

/// Below this rate an edge can be part of a complex.
const SLOWEST: Hertz = Hertz::new(200.0);
/// How long a step lasts at least.
const STEP: Seconds = Seconds::new(0.002);
/// How long the line is calm before the edge.
const CALM: Seconds = Seconds::new(0.016);
/// How much it moves in that time, against the edge.
const CALM_PART: f32 = 0.15;
/// The least edge, against the height of a usual complex.
const LEAST: f32 = 0.3;
/// Until when the tail has to be back, and how near to the line, against the edge.
const BACK: Seconds = Seconds::new(0.040);
const BACK_PART: f32 = 0.03;
/// In how long a stretch there is a complex.
const COMPLEX: Seconds = Seconds::new(2.0);

/// Bridges the spikes of a trace; whether there were any.
pub(crate) fn without_spikes(samples: &mut [f32], rate: SampleRate) -> bool {
    let [step, calm, back] = [STEP, CALM, BACK].map(|time| rate.count(time).max(1));
    if rate.hz() < SLOWEST.hertz() || samples.len() < 2 * (calm + back) {
        return false;
    }
    let least = LEAST * usual_height(samples, rate.count(COMPLEX));
    let (mut at, mut any) = (calm, false);
    while at + step + back < samples.len() {
        let edge = samples[at + step] - samples[at];
        match tail_end(samples, at, edge, least, calm, step..back) {
            Some(end) => {
                bridge(&mut samples[at..=end]);
                (at, any) = (end, true);
            }
            None => at += 1,
        }
    }
    any
}

/// Where the tail of the spike after `at` has run out; `None` when there is no spike.
fn tail_end(
    samples: &[f32],
    at: usize,
    edge: f32,
    least: f32,
    calm: usize,
    reach: Range<usize>,
) -> Option<usize> {
    if least <= 0.0 || edge.abs() < least {
        return None;
    }
    let line = samples[at];
    let before = samples[at - calm..at].iter();
    let is_calm = before.clone().all(|value| (value - line).abs() < CALM_PART * edge.abs());
    let is_back = |&end: &usize| (samples[end] - line) * edge.signum() < BACK_PART * edge.abs();
    if is_calm { (at + reach.start..=at + reach.end).find(is_back) } else { None }
}

/// The median of how far a trace swings in stretches that hold a complex.
fn usual_height(samples: &[f32], stretch: usize) -> f32 {
    let mut swings: Vec<f32> = samples
        .chunks(stretch.max(1))
        .map(|part| {
            let low = part.iter().copied().fold(f32::INFINITY, f32::min);
            part.iter().copied().fold(f32::NEG_INFINITY, f32::max) - low
        })
        .collect();
    let middle = swings.len() / 2;
    if swings.is_empty() { 0.0 } else { *swings.select_nth_unstable_by(middle, f32::total_cmp).1 }
}

fn bridge(part: &mut [f32]) {
    if let (Some(&first), Some(&last)) = (part.first(), part.last()) {
        let steps = (part.len() - 1).max(1) as f32;
        for (at, value) in part.iter_mut().enumerate() {
            *value = first + (last - first) * at as f32 / steps;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Complexes of 40 ms a second apart, each with a spike of some height 60 ms before.
    fn trace(hz: f64, spike: f32) -> (Vec<f32>, Vec<f32>) {
        let bell = |t: f64| (-0.5 * ((t - 0.5) / 0.01).powi(2)).exp() as f32;
        let plain: Vec<f32> =
            (0..(4.0 * hz) as usize).map(|at| bell((at as f64 / hz) % 1.0)).collect();
        let mut spiky = plain.clone();
        for second in 0..4 {
            let at = ((f64::from(second) + 0.44) * hz) as usize;
            (spiky[at], spiky[at + 1], spiky[at + 2]) = (spike, 0.5 * spike, 0.2 * spike);
        }
        (plain, spiky)
    }

    #[test]
    fn a_spike_goes_and_the_complex_stays() {
        for (hz, spike) in [(250.0, 2.0), (500.0, -1.0), (1000.0, 0.6)] {
            let (plain, mut spiky) = trace(hz, spike);
            let rate = SampleRate::new(hz).unwrap();
            assert!(without_spikes(&mut spiky, rate));
            let worst = spiky.iter().zip(&plain).map(|(a, b)| (a - b).abs()).fold(0.0, f32::max);
            assert!(worst < 0.01, "{worst} at {hz} Hz");
            assert!(!without_spikes(&mut spiky, rate), "nothing is left to take");
        }
    }

    #[test]
    fn a_step_stays_and_so_does_a_trace_too_coarse_or_too_short() {
        let mut step: Vec<f32> = (0..2000).map(|at| if at < 1000 { 0.0 } else { 1.0 }).collect();
        assert!(!without_spikes(&mut step, SampleRate::new(500.0).unwrap()));
        let (_, mut coarse) = trace(100.0, 2.0);
        assert!(!without_spikes(&mut coarse, SampleRate::new(100.0).unwrap()));
        assert!(!without_spikes(&mut [], SampleRate::new(500.0).unwrap()));
    }
}
