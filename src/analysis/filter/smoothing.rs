//! The centred moving average: less noise, and exactly how much of a wave it costs.
//!
//! Each sample becomes the mean of itself and m neighbours on either side, N = 2m + 1 points. Its
//! gain at frequency f is H(f) = sin(πNf/fs) / (N sin(πf/fs)): real, so nothing moves in time; 1 at
//! 0 Hz; 0 at multiples of fs/N (closed forms, checked against direct sums). Near an end the window
//! shrinks to what fits on both sides, which keeps straight lines and moves nothing.

use crate::signal::{Hertz, Milliseconds, SampleRate};
use serde::{Deserialize, Serialize};
use std::f64::consts::{FRAC_1_SQRT_2, PI};
use thiserror::Error;

/// A mean over an odd number of points, centred on each sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "usize", into = "usize")]
pub struct MovingAverage {
    points: usize,
}

/// A number of points that has no middle one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("a window of {0} points has no middle; use an odd number of points, 1 or more")]
pub struct UnusableWindow(pub usize);

impl MovingAverage {
    /// A window of so many points.
    ///
    /// # Errors
    /// [`UnusableWindow`] unless the number is odd.
    pub const fn new(points: usize) -> Result<Self, UnusableWindow> {
        if points % 2 == 1 { Ok(Self { points }) } else { Err(UnusableWindow(points)) }
    }

    /// How many points are averaged.
    pub const fn points(self) -> usize {
        self.points
    }

    /// How long the window is at a sampling rate, from its first to its last sample.
    pub fn width(self, rate: SampleRate) -> Milliseconds {
        Milliseconds::new((self.points - 1) as f64 * 1000.0 / rate.hz())
    }

    /// The smoothed copy, as long as the trace.
    pub fn apply(self, samples: &[f32]) -> Vec<f32> {
        let n = samples.len();
        // Sums are taken from the first sample, so that a large offset costs no digits.
        let offset = samples.first().copied().map_or(0.0, f64::from);
        let mut sums = Vec::with_capacity(n + 1);
        let mut sum = 0.0;
        sums.push(sum);
        for &value in samples {
            sum += f64::from(value) - offset;
            sums.push(sum);
        }
        (0..n)
            .map(|i| {
                let reach = (self.points / 2).min(i).min(n - 1 - i);
                let total = sums[i + reach + 1] - sums[i - reach];
                (offset + total / (2 * reach + 1) as f64) as f32
            })
            .collect()
    }

    /// What is left of a wave of one frequency; negative where it comes out upside down.
    pub fn gain(self, frequency: Hertz, rate: SampleRate) -> f64 {
        let half_turn = PI * frequency.hertz() / rate.hz();
        let below = self.points as f64 * half_turn.sin();
        // Where the sine is 0 all points of the window see the same value.
        if below.abs() < 1e-12 { 1.0 } else { (self.points as f64 * half_turn).sin() / below }
    }

    /// The lowest frequency of which nothing is left.
    pub fn first_null(self, rate: SampleRate) -> Hertz {
        Hertz::new(rate.hz() / self.points as f64)
    }

    /// The frequency of which 71 % is left (-3 dB); `None` for one point, which changes nothing.
    pub fn corner(self, rate: SampleRate) -> Option<Hertz> {
        if self.points < 3 {
            return None;
        }
        let (mut low, mut high) = (0.0, self.first_null(rate).hertz());
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.gain(Hertz::new(middle), rate) > FRAC_1_SQRT_2 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(Hertz::new(low))
    }

    /// What is left of the standard deviation of white noise: 1/√N.
    pub fn noise_kept(self) -> f64 {
        1.0 / (self.points as f64).sqrt()
    }

    /// What is left of the height of a triangle whose base is `base` long: a stand-in for an R wave.
    ///
    /// 1 - m(m + 1) / (N W) with W samples in half the base, and W/N once the window is wider.
    pub fn triangle_kept(self, base: Milliseconds, rate: SampleRate) -> f64 {
        let half_base = base.to_seconds().seconds() * rate.hz() / 2.0;
        let (n, m) = (self.points as f64, (self.points / 2) as f64);
        if half_base <= 0.0 {
            return 1.0 / n;
        }
        if m <= half_base { 1.0 - m * (m + 1.0) / (n * half_base) } else { half_base / n }
    }
}

impl TryFrom<usize> for MovingAverage {
    type Error = UnusableWindow;
    fn try_from(points: usize) -> Result<Self, UnusableWindow> {
        Self::new(points)
    }
}

impl From<MovingAverage> for usize {
    fn from(window: MovingAverage) -> Self {
        window.points
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn window(points: usize) -> MovingAverage {
        MovingAverage::new(points).unwrap()
    }

    fn rate(hz: f64) -> SampleRate {
        SampleRate::new(hz).unwrap()
    }

    #[test]
    fn the_response_has_its_textbook_numbers() {
        // N, -3 dB over the rate, gain at 10 Hz and at 50 Hz for 250 Hz, noise: `ma-*` of the
        // worked examples (closed form and bisection).
        for (points, corner, at_10, at_50, noise) in [
            (3, 0.155_274, 0.979_055, 0.539_345, 0.577_350),
            (5, 0.090_158_7, 0.937_956, 0.0, 0.447_214),
        ] {
            let window = window(points);
            let found = window.corner(rate(1.0)).unwrap().hertz();
            assert!((found - corner).abs() < 1e-6);
            assert!((window.gain(Hertz::new(10.0), rate(250.0)) - at_10).abs() < 1e-5);
            assert!((window.gain(Hertz::new(50.0), rate(250.0)) - at_50).abs() < 1e-5);
            assert!((window.noise_kept() - noise).abs() < 1e-5);
            assert!((window.first_null(rate(1.0)).hertz() - 1.0 / points as f64).abs() < 1e-12);
            assert!((window.gain(Hertz::new(0.0), rate(250.0)) - 1.0).abs() < 1e-12);
        }
        assert_eq!(window(1).corner(rate(250.0)), None);
        assert_eq!(MovingAverage::new(4), Err(UnusableWindow(4)));
        assert_eq!(MovingAverage::new(0), Err(UnusableWindow(0)));
    }

    #[test]
    fn a_triangle_loses_the_height_the_formula_says() {
        // `tri-*`: rate, base in ms, then points and height kept.
        let expected = [
            (250.0, 80.0, 5, 0.88),
            (250.0, 80.0, 17, 0.576_471),
            (250.0, 40.0, 13, 0.384_615),
            (500.0, 80.0, 17, 0.788_235),
            (100.0, 80.0, 9, 0.444_444),
        ];
        for (hz, base, points, kept) in expected {
            let base = Milliseconds::new(base);
            let said = window(points).triangle_kept(base, rate(hz));
            let half = (base.to_seconds().seconds() * hz / 2.0) as i32;
            let triangle: Vec<f32> =
                (-50..=50i32).map(|i| (1.0 - i.abs() as f32 / half as f32).max(0.0)).collect();
            let measured = f64::from(window(points).apply(&triangle)[50]);
            assert!((said - kept).abs() < 1e-6, "{hz} {points}: {said}");
            assert!((measured - kept).abs() < 1e-6, "{hz} {points}: {measured}");
        }
    }

    #[test]
    fn a_parabola_is_raised_by_a_constant() {
        // (N² - 1)/12: `ma-invariants`.
        let parabola: Vec<f32> = (-40..=40i32).map(|k| (k * k) as f32).collect();
        for (points, raised) in [(5, 2.0), (9, 20.0 / 3.0), (17, 24.0)] {
            let middle = window(points).apply(&parabola)[40];
            assert!((f64::from(middle) - raised).abs() < 1e-5);
        }
    }

    proptest! {
        #[test]
        fn every_sample_is_the_mean_of_its_neighbours(
            samples in proptest::collection::vec(-9.0f32..9.0, 0..80),
            half in 0usize..20,
        ) {
            let smoothed = window(2 * half + 1).apply(&samples);
            prop_assert_eq!(smoothed.len(), samples.len());
            for (i, &value) in smoothed.iter().enumerate() {
                let reach = half.min(i).min(samples.len() - 1 - i);
                let around = &samples[i - reach..=i + reach];
                let mean = around.iter().map(|&v| f64::from(v)).sum::<f64>() / around.len() as f64;
                prop_assert!((f64::from(value) - mean).abs() < 1e-5);
            }
        }
    }
}
