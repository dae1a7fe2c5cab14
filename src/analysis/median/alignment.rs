//! Beats laid over each other, to parts of a sample, by their complexes.
//!
//! Each is moved to where its complex correlates best with the average of all; the parabola through the
//! best step and its neighbours gives the part of a step. Values between samples come from a cubic
//! through the four around them (Catmull and Rom 1974); beyond its ends a trace goes on level.

use crate::signal::Recording;

/// How far around R complexes are compared, and how far they may be moved, s.
const COMPARED: f64 = 0.06;
const MOVED: f64 = 0.012;

/// Where one beat lies, to parts of a sample, and at what level.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// R, in samples of the recording.
    pub(super) r: f64,
    /// What counts as zero in this beat.
    pub(super) level: f64,
}

impl Place {
    /// The height so many samples after R.
    pub(super) fn value(self, samples: &[f32], after_r: f64) -> f64 {
        between(samples, self.r + after_r) - self.level
    }
}

/// Each beat moved to where its complex fits the average of all best.
pub(super) fn aligned(recording: &Recording, mut places: Vec<Place>) -> Vec<Place> {
    let samples = &recording.samples;
    // A thousand points a second show where a complex lies; between them a parabola does.
    let step = (recording.rate.hz() / 1000.0).max(1.0);
    let steps = |seconds: f64| (seconds * recording.rate.hz() / step).round() as i32;
    let lags = (-steps(COMPARED)..=steps(COMPARED)).map(|lag| f64::from(lag) * step);
    let lags: Vec<f64> = lags.collect();
    let average: Vec<f64> = lags
        .iter()
        .map(|&lag| places.iter().map(|place| place.value(samples, lag)).sum::<f64>())
        .map(|sum| sum / places.len().max(1) as f64)
        .collect();
    for place in &mut places {
        let likeness = |shift: i32| {
            let shift = f64::from(shift) * step;
            let beat = lags.iter().map(|lag| place.value(samples, lag + shift));
            correlation(beat, &average)
        };
        place.r += step * highest(likeness, steps(MOVED));
    }
    places
}

/// The correlation of some values with others, up to a factor that depends on the others alone.
fn correlation(values: impl Iterator<Item = f64>, others: &[f64]) -> f64 {
    let n = others.len().max(1) as f64;
    let mean = others.iter().sum::<f64>() / n;
    let (mut product, mut squares, mut sum) = (0.0, 0.0, 0.0);
    for (value, other) in values.zip(others) {
        product += value * (other - mean);
        squares += value * value;
        sum += value;
    }
    let power = squares - sum * sum / n;
    if power > 0.0 { product / power.sqrt() } else { 0.0 }
}

/// The step within `reach` of 0 at which a value is highest, and by the parabola through it and its
/// neighbours the part of a step.
fn highest(value: impl Fn(i32) -> f64, reach: i32) -> f64 {
    let (best, top) = (-reach..=reach)
        .map(|step| (step, value(step)))
        .fold((0, value(0)), |best, one| if one.1 > best.1 { one } else { best });
    let (left, right) = (value(best - 1), value(best + 1));
    let bend = left - 2.0 * top + right;
    let part = if bend < 0.0 { (0.5 * (left - right) / bend).clamp(-0.5, 0.5) } else { 0.0 };
    f64::from(best) + part
}

/// The value between samples, on a cubic through the four around it; the nearest one at the ends.
fn between(samples: &[f32], at: f64) -> f64 {
    let floor = at.floor();
    let part = at - floor;
    let nearby = |offset: isize| {
        let last = samples.len().saturating_sub(1) as isize;
        let index = (floor as isize + offset).clamp(0, last) as usize;
        f64::from(samples.get(index).copied().unwrap_or(0.0))
    };
    let [before, left, right, after] = [-1, 0, 1, 2].map(nearby);
    let slope = right - before;
    let bend = 2.0 * before - 5.0 * left + 4.0 * right - after;
    let twist = 3.0 * (left - right) + after - before;
    left + 0.5 * part * (slope + part * (bend + part * twist))
}
