//! How much two beats look alike: the correlation coefficient over 160 ms, at the best shift.
//!
//! Beyond the ends a trace is taken to go on level; a stretch without any change is like nothing (0).

use super::candidates::Candidate;
use crate::signal::{SampleRate, Seconds};

/// Half of what is compared: 160 ms hold the widest complex.
const HALF: Seconds = Seconds::new(0.080);
/// Marks of two like beats may lie this far apart in their complex.
const SHIFT: Seconds = Seconds::new(0.030);
/// Shapes are compared at about this rate: the band ends far below half of it.
const COMPARED_AT: f64 = 200.0;

/// The shapes of some beats.
pub(super) struct Shapes {
    /// Each with room to be shifted.
    wide: Vec<Vec<f32>>,
    /// The middle of each, without its mean, of length 1.
    middle: Vec<Vec<f32>>,
}

impl Shapes {
    /// Cuts the beats from a band-passed trace.
    pub(super) fn of(beats: &[Candidate], band: &[f32], rate: SampleRate) -> Self {
        let stride = ((rate.hz() / COMPARED_AT) as usize).max(1);
        let (half, shift) = (rate.count(HALF) / stride, rate.count(SHIFT) / stride);
        let cut = |beat: &Candidate| around(band, beat.at, half + shift, stride);
        let wide: Vec<Vec<f32>> = beats.iter().map(cut).collect();
        let centre = |shape: &Vec<f32>| {
            let mut middle = shape[shift..=shift + 2 * half].to_vec();
            normalise(&mut middle);
            middle
        };
        let middle = wide.iter().map(centre).collect();
        Self { wide, middle }
    }

    /// How much one beat looks like another, 0 to 1.
    pub(super) fn likeness(&self, one: usize, other: usize) -> f32 {
        best(&self.middle[one], &self.wide[other])
    }
}

/// Samples around a place, every `stride`-th, continued flat beyond the ends.
fn around(band: &[f32], at: usize, reach: usize, stride: usize) -> Vec<f32> {
    let sample = |k: usize| {
        let place = (at + k * stride).saturating_sub(reach * stride).min(band.len() - 1);
        band[place]
    };
    (0..=2 * reach).map(sample).collect()
}

/// The best correlation of a normalised shape with any stretch of a longer one.
fn best(shape: &[f32], longer: &[f32]) -> f32 {
    let correlation = |stretch: &[f32]| {
        let n = stretch.len() as f32;
        let mean = stretch.iter().sum::<f32>() / n;
        let power: f32 = stretch.iter().map(|value| (value - mean).powi(2)).sum();
        let product: f32 = shape.iter().zip(stretch).map(|(a, b)| a * b).sum();
        if power > 0.0 { product / power.sqrt() } else { 0.0 }
    };
    longer.windows(shape.len()).map(correlation).fold(0.0, f32::max)
}

/// Takes the mean out and scales to length 1.
fn normalise(values: &mut [f32]) {
    let mean = values.iter().sum::<f32>() / values.len() as f32;
    values.iter_mut().for_each(|value| *value -= mean);
    let length = values.iter().map(|value| value * value).sum::<f32>().sqrt();
    if length > 0.0 {
        values.iter_mut().for_each(|value| *value /= length);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shifted_and_scaled_copy_is_the_same_and_its_mirror_is_not() {
        let rate = SampleRate::new(200.0).unwrap();
        let mut band = vec![0.0; 400];
        for (k, value) in [-0.2, 0.5, 1.0, 0.5, -0.2].into_iter().enumerate() {
            (band[98 + k], band[201 + k], band[298 + k]) = (value, 3.0 * value, -value);
        }
        let beats = [100, 200, 300].map(|at| Candidate { at, height: 1.0 });
        let shapes = Shapes::of(&beats, &band, rate);
        assert!(shapes.likeness(0, 1) > 0.999 && shapes.likeness(0, 2) < 0.6);
        let flat = Shapes::of(&beats, &[0.0; 400], rate);
        assert!(flat.likeness(0, 1).abs() < 1e-6);
    }
}
