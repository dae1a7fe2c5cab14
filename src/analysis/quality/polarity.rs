//! Which way up a trace of lead I is: in the usual one P, QRS and T all point up.
//!
//! Swapped arm electrodes turn all three over (AHA/ACC/HRS 2007, Circulation 115:1306). One lead
//! can't tell a swap from a rare mirrored heart, so this is a reason to check and record again, and
//! no more. Judged on the median beat, whose noise is small.

use crate::analysis::beats::{Placed, Shape};
use crate::analysis::neighbours::median;
use crate::analysis::reading::Polarity;
use crate::signal::{SampleRate, Seconds};

/// Where P is looked for, from R.
const P: (f64, f64) = (-0.26, -0.08);
/// Where T is looked for, from R, as parts of √RR (T moves with the rate as QT does, Bazett 1920).
const T: (f64, f64) = (0.14, 0.42);
/// The level between P and QRS, from R.
const LEVEL: (f64, f64) = (-0.09, -0.06);
/// A wave below this part of R can't be told from the line.
const SMALLEST: f32 = 0.04;
/// How far apart the median beat is looked at.
const STEP: f64 = 0.004;

/// Upright when QRS and at least one of P and T point up, inverted when all three point down.
pub(crate) fn polarity(light: &[f32], placed: &Placed, rate: SampleRate) -> Polarity {
    let rr = median(placed.r.windows(2).map(|pair| (pair[1] - pair[0]) as f32));
    let rr = rr.map_or(0.8, |samples| f64::from(samples) / rate.hz()).clamp(0.25, 1.5);
    let (before, after) = (Seconds::new(-P.0), Seconds::new(T.1 * rr.sqrt()));
    let Some(beat) = Shape::usual(light, &placed.r, rate, before, after) else {
        return Polarity::Unclear;
    };
    let values = |(from, to): (f64, f64)| {
        let steps = ((to - from) / STEP) as usize;
        let at = |k: usize| beat.at(Seconds::new(from + k as f64 * STEP), rate);
        (0..=steps).filter_map(at).collect::<Vec<f32>>()
    };
    let Some(level) = median(values(LEVEL)) else { return Polarity::Unclear };
    let direction = |window: (f64, f64)| {
        let furthest = values(window)
            .into_iter()
            .map(|value| value - level)
            .max_by(|a, b| a.abs().total_cmp(&b.abs()))
            .unwrap_or(0.0);
        if furthest.abs() < SMALLEST * placed.height { 0 } else { furthest.signum() as i8 }
    };
    let p = direction((P.0.max(-0.45 * rr), P.1));
    let t = direction((T.0 * rr.sqrt(), T.1 * rr.sqrt()));
    match (placed.downward, p, t) {
        (false, 1, _) | (false, _, 1) => Polarity::Upright,
        (true, -1, -1) => Polarity::LooksInverted,
        _ => Polarity::Unclear,
    }
}
