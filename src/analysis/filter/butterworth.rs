//! Butterworth and notch filters as second-order sections, designed for two passes.
//!
//! One pass of order n has |H|² = 1 / (1 + (f/fc)^2n). Two passes square that, so the -3 dB point
//! would move: a low-pass is designed at fc / (√2 - 1)^(1/2n), a high-pass at fc · (√2 - 1)^(1/2n),
//! and the asked corner is kept. The correction is made on the bilinear scale tan(π f / rate),
//! where it is exact. Sections and their Q: Butterworth 1930, Wireless Engineer 7:536; digital form:
//! Bristow-Johnson, Audio EQ Cookbook, through the crate `biquad`.
//!
//! A corner at or above half the sampling rate is moved to [`HIGHEST`] of it, so that a trace at
//! 100 Hz gets the best filter it can have instead of an error.

use super::zero_phase;
use crate::signal::{Hertz, SampleRate};
use biquad::{Coefficients, Type};
use std::f64::consts::{PI, SQRT_2, TAU};

/// The highest corner, as a part of half the sampling rate.
const HIGHEST: f64 = 0.9;

/// The lowest corner, as a part of half the sampling rate: below it rounding outgrows the signal.
const LOWEST: f64 = 1.0e-6;

/// Order of one pass; two passes double it.
const ORDER: usize = 2;

/// A filter for one sampling rate, applied forward and back.
#[derive(Clone, Debug)]
pub(crate) struct Filter {
    sections: Vec<Coefficients<f64>>,
    /// How many samples the slowest part of it remembers.
    memory: usize,
}

impl Filter {
    /// Keeps what is below the corner; -3 dB at the corner after both passes.
    pub(crate) fn low_pass(rate: SampleRate, corner: Hertz) -> Self {
        let corner = within_band(rate, corner);
        let design = warped(corner, 1.0 / two_pass_factor(ORDER));
        Self::new(Type::LowPass, design, std::f64::consts::FRAC_1_SQRT_2, corner)
    }

    /// Keeps what is above the corner; -3 dB at the corner after both passes.
    pub(crate) fn high_pass(rate: SampleRate, corner: Hertz) -> Self {
        let corner = within_band(rate, corner);
        let design = warped(corner, two_pass_factor(ORDER));
        Self::new(Type::HighPass, design, std::f64::consts::FRAC_1_SQRT_2, corner)
    }

    /// Keeps what is between two corners: the high-pass and the low-pass one after the other.
    pub(crate) fn band_pass(rate: SampleRate, low: Hertz, high: Hertz) -> Self {
        let mut both = Self::high_pass(rate, low);
        both.sections.extend(Self::low_pass(rate, high).sections);
        both
    }

    /// Takes out one narrow line. `quality` is the frequency over the -3 dB width after both passes.
    ///
    /// A line at or above half the rate is not in the trace: the filter then changes nothing.
    pub(crate) fn notch(rate: SampleRate, line: Hertz, quality: f64) -> Self {
        let part = line.hertz() / rate.nyquist().hertz();
        if !(part > 0.0 && part < 1.0) {
            return Self { sections: Vec::new(), memory: 0 };
        }
        // The bilinear scale narrows a band at angle ω by sin ω / ω.
        let angle = PI * part;
        let design = quality * angle.sin() / angle / two_pass_factor(1);
        // The ring of a notch is governed by its width, not by its line.
        Self::new(Type::Notch, part, design, part / quality)
    }

    /// The filtered copy of a trace, as long as the trace.
    pub(crate) fn apply(&self, samples: &[f32]) -> Vec<f32> {
        zero_phase::run(&self.sections, self.memory, samples)
    }

    /// What is left of a wave of one frequency after both passes: |H|² of all sections.
    pub(crate) fn gain(&self, frequency: Hertz, rate: SampleRate) -> f64 {
        let turn = TAU * frequency.hertz() / rate.hz();
        let power = |[zero, one, two]: [f64; 3]| {
            let real = zero + one * turn.cos() + two * (2.0 * turn).cos();
            let imaginary = one * turn.sin() + two * (2.0 * turn).sin();
            real * real + imaginary * imaginary
        };
        let section = |section: &Coefficients<f64>| {
            let Coefficients { a1, a2, b0, b1, b2 } = *section;
            power([b0, b1, b2]) / power([1.0, a1, a2])
        };
        self.sections.iter().map(section).product()
    }

    fn new(kind: Type<f64>, part_of_nyquist: f64, quality: f64, slowest: f64) -> Self {
        let sections = Coefficients::from_normalized_params(kind, part_of_nyquist, quality);
        // Corners are clamped and qualities are above zero, so a design always exists.
        let sections = sections.into_iter().collect();
        // One period of the slowest frequency, in samples.
        Self { sections, memory: (2.0 / slowest).ceil() as usize }
    }
}

/// By how much the corner of an order moves in two passes: (√2 - 1)^(1/2n).
fn two_pass_factor(order: usize) -> f64 {
    (SQRT_2 - 1.0).powf(0.5 / order as f64)
}

/// A corner as a part of half the rate, moved into the band a filter can have.
fn within_band(rate: SampleRate, corner: Hertz) -> f64 {
    (corner.hertz() / rate.nyquist().hertz()).clamp(LOWEST, HIGHEST)
}

/// The corner times a factor, on the bilinear scale.
fn warped(part_of_nyquist: f64, factor: f64) -> f64 {
    ((part_of_nyquist * PI / 2.0).tan() * factor).atan() * 2.0 / PI
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rate(hz: f64) -> SampleRate {
        SampleRate::new(hz).unwrap()
    }

    /// How much of a long sine is left, measured away from the ends.
    fn kept(filter: &Filter, hz: f64, rate: f64) -> f64 {
        let n = (rate * 40.0) as usize;
        let sine = |i: usize| (2.0 * PI * hz * i as f64 / rate).sin();
        let filtered = filter.apply(&(0..n).map(|i| sine(i) as f32).collect::<Vec<_>>());
        let middle = n / 4..3 * n / 4;
        let along: f64 = middle.clone().map(|i| sine(i) * f64::from(filtered[i])).sum();
        along / middle.map(|i| sine(i).powi(2)).sum::<f64>()
    }

    #[test]
    fn two_passes_keep_the_corner_that_was_asked_for() {
        // Order 2, 40 Hz at 500 Hz: 0.802243 is the factor for two passes; see `filtfilt` in the
        // worked examples (closed form).
        assert!((two_pass_factor(2) - 0.802_243).abs() < 1e-6);
        for hz in [100.0, 250.0, 500.0, 4000.0] {
            for corner in [15.0, 40.0] {
                let low = Filter::low_pass(rate(hz), Hertz::new(corner));
                let high = Filter::high_pass(rate(hz), Hertz::new(corner));
                for filter in [low, high] {
                    let gain = kept(&filter, corner, hz);
                    assert!((gain - 0.5f64.sqrt()).abs() < 2e-3, "{hz} {corner}: {gain}");
                }
            }
        }
    }

    #[test]
    fn a_corner_above_half_the_rate_is_clamped() {
        let filter = Filter::low_pass(rate(100.0), Hertz::new(150.0));
        assert!(kept(&filter, 20.0, 100.0) > 0.99);
        let unstated = Filter::high_pass(rate(100.0), Hertz::new(0.0));
        assert!(unstated.apply(&[1.0; 50]).iter().all(|value| value.is_finite()));
    }

    #[test]
    fn a_notch_is_as_wide_as_its_quality_says() {
        // Q = f0 / width: Q 10 at 50 Hz is 5 Hz wide (`notch-Q` in the worked examples).
        let filter = Filter::notch(rate(500.0), Hertz::new(50.0), 10.0);
        let wing = 2.5f64.hypot(50.0);
        assert!(kept(&filter, 50.0, 500.0).abs() < 1e-3);
        for edge in [wing - 2.5, wing + 2.5] {
            assert!((kept(&filter, edge, 500.0) - 0.5f64.sqrt()).abs() < 0.02);
        }
        let above = Filter::notch(rate(100.0), Hertz::new(60.0), 10.0);
        assert_eq!(above.apply(&[1.0, 2.0]), [1.0, 2.0]);
    }

    #[test]
    fn a_slow_drift_goes_and_a_beat_stays_where_it_was() {
        let drift = |i: usize| 3.0 * (i as f32 / 2000.0) + 100.0;
        let beat = |i: usize| (-(i as f32 - 2500.0).powi(2) / 50.0).exp();
        let samples: Vec<f32> = (0..5000).map(|i| drift(i) + beat(i)).collect();
        let filter = Filter::high_pass(rate(500.0), Hertz::new(0.5));
        let filtered = filter.apply(&samples);
        let top = (0..5000).max_by(|&a, &b| filtered[a].total_cmp(&filtered[b])).unwrap();
        assert_eq!(top, 2500);
        // Zero phase: what is left of the drift is the same on both sides, and small at the ends.
        for i in [0, 100, 1000, 4000, 4999] {
            assert!(filtered[i].abs() < 0.02, "{i}: {}", filtered[i]);
        }
    }
}
