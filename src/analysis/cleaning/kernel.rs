//! The weights of smoothers that weigh their points, and what follows from weights alone.
//!
//! A centred, even set of weights w₋ₘ … wₘ has the gain H(f) = w₀ + 2 Σ wₖ cos(2πfk/fs): real, so
//! nothing moves in time. White noise keeps Σ w² of its variance. A moving average weighs all points
//! alike; a triangular one is two moving averages in turn; Savitzky and Golay (1964, Anal Chem 36:1627,
//! corrected by Steinier 1972, Anal Chem 44:1906) fit a parabola by least squares and take its value.

use super::smoother::SmootherKind;
use crate::signal::{Hertz, SampleRate};
use std::f64::consts::TAU;

/// The weights of the middle point and of those after it, each used on both sides. They sum to 1.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kernel(Vec<f64>);

impl Kernel {
    /// The weights that reach `reach` points to either side; `None` for what does not weigh.
    pub(super) fn new(kind: SmootherKind, reach: usize) -> Option<Self> {
        let weights = match kind {
            SmootherKind::Mean => vec![1.0 / (2 * reach + 1) as f64; reach + 1],
            SmootherKind::Triangular => {
                let side = (reach + 1) as f64;
                (0..=reach).map(|k| (side - k as f64) / side.powi(2)).collect()
            }
            SmootherKind::SavitzkyGolay => {
                (0..=reach).map(|k| parabola(reach, 0, k as isize)).collect()
            }
            SmootherKind::Median => return None,
        };
        Some(Self(weights))
    }

    /// The weighted mean of a window's middle point and its neighbours, as many as there are weights.
    pub(super) fn mean(&self, window: &[f32]) -> f64 {
        let middle = window.len() / 2;
        let (before, from_middle) = window.split_at(middle);
        let pairs = before.iter().rev().zip(from_middle.iter().skip(1));
        let own = self.0[0] * f64::from(window[middle]);
        self.0[1..].iter().zip(pairs).fold(own, |sum, (weight, (&before, &after))| {
            sum + weight * (f64::from(before) + f64::from(after))
        })
    }

    /// What is left of a wave of one frequency; negative where it comes out upside down.
    pub(super) fn gain(&self, frequency: Hertz, rate: SampleRate) -> f64 {
        let turn = TAU * frequency.hertz() / rate.hz();
        let pairs = self.0.iter().enumerate().skip(1);
        self.0[0] + 2.0 * pairs.map(|(k, weight)| weight * (turn * k as f64).cos()).sum::<f64>()
    }

    /// What is left of the standard deviation of white noise.
    pub(super) fn noise_kept(&self) -> f64 {
        let squares = self.0.iter().skip(1).map(|weight| weight * weight).sum::<f64>();
        (self.0[0] * self.0[0] + 2.0 * squares).sqrt()
    }
}

/// The weight of the point at `k` for the value, at `at`, of the parabola that fits the points from
/// -m to m best by least squares.
///
/// With the sums S₀, S₂, S₄ of 1, k², k⁴ over the window, the fit is a + b t + c t² with
/// b = Σ k y / S₂, and a and c from the two remaining normal equations.
pub(super) fn parabola(reach: usize, at: isize, k: isize) -> f64 {
    let m = reach as f64;
    let s0 = 2.0 * m + 1.0;
    let s2 = m * (m + 1.0) * s0 / 3.0;
    let s4 = s2 * (3.0 * m * m + 3.0 * m - 1.0) / 5.0;
    let determinant = s0 * s4 - s2 * s2;
    let (t, k) = (at as f64, k as f64);
    let a = (s4 - s2 * k * k) / determinant;
    let c = (s0 * k * k - s2) / determinant;
    a + t * k / s2 + t * t * c
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_sum_to_one() {
        for kind in [SmootherKind::Mean, SmootherKind::Triangular, SmootherKind::SavitzkyGolay] {
            for reach in 2..40 {
                let kernel = Kernel::new(kind, reach).unwrap();
                let sum = kernel.gain(Hertz::new(0.0), SampleRate::new(250.0).unwrap());
                assert!((sum - 1.0).abs() < 1e-12, "{kind:?} {reach}: {sum}");
            }
        }
    }

    #[test]
    fn a_fitted_parabola_goes_through_a_parabola_also_off_the_middle() {
        let y = |k: f64| 2.0 - 0.5 * k + 0.25 * k * k;
        for at in -3..=3 {
            let value: f64 = (-3..=3).map(|k| parabola(3, at, k) * y(k as f64)).sum();
            assert!((value - y(at as f64)).abs() < 1e-12);
        }
    }
}
