//! Smoothing over a window of points, each with the window centred on it.
//!
//! Near an end the whole window does not fit. Means and medians then take as many points as fit on
//! both sides, so a straight line stays straight; Savitzky-Golay keeps its outermost parabola and
//! reads it off the middle. Input is finite; empty input gives empty output.

use super::kernel::{Kernel, parabola};
use super::window::Window;
use crate::analysis::filter::moving_average;
use crate::signal::{Hertz, SampleRate};
use serde::{Deserialize, Serialize};
use std::f64::consts::FRAC_1_SQRT_2;

/// How the points of a window make one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SmootherKind {
    /// Their mean: the moving average.
    Mean,
    /// Their mean, with the weight falling evenly to both sides.
    Triangular,
    /// The value of the parabola that fits them best.
    SavitzkyGolay,
    /// The middle one in order of size: takes out spikes, and is no filter with a response.
    Median,
}

impl SmootherKind {
    /// All of them, the plainest first.
    pub const ALL: [Self; 4] = [Self::Mean, Self::Triangular, Self::SavitzkyGolay, Self::Median];

    /// The name used in files and message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Mean => "mean",
            Self::Triangular => "triangular",
            Self::SavitzkyGolay => "savitzky_golay",
            Self::Median => "median",
        }
    }
}

/// A smoother of one kind and window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Smoother {
    /// How the points make one.
    pub kind: SmootherKind,
    /// How many they are.
    pub window: Window,
}

impl Smoother {
    /// The smoothed copy, as long as the trace.
    pub fn apply(self, samples: &[f32]) -> Vec<f32> {
        let reach = self.window.reach();
        let n = samples.len();
        let fits = |i: usize| reach.min(i).min(n - 1 - i);
        match self.kind {
            SmootherKind::Mean => moving_average(samples, reach),
            SmootherKind::Median => median(samples, fits),
            SmootherKind::SavitzkyGolay if n < self.window.points() => samples.to_vec(),
            SmootherKind::SavitzkyGolay | SmootherKind::Triangular => {
                // One kernel for each reach that occurs: the narrow ones only near the ends.
                let kernels: Vec<Option<Kernel>> =
                    (0..=reach).map(|reach| Kernel::new(self.kind, reach)).collect();
                let value = |i: usize| match (&kernels[fits(i)], self.kind) {
                    (_, SmootherKind::SavitzkyGolay) if fits(i) < reach => end(samples, i, reach),
                    (Some(kernel), _) => kernel.mean(&samples[i - fits(i)..=i + fits(i)]),
                    (None, _) => f64::from(samples[i]),
                };
                (0..n).map(|i| value(i) as f32).collect()
            }
        }
    }

    /// What is left of a wave of one frequency, negative where it comes out upside down; `None` for the
    /// median, which treats waves by their height as well.
    pub fn gain(self, frequency: Hertz, rate: SampleRate) -> Option<f64> {
        Some(self.kernel()?.gain(frequency, rate))
    }

    /// What is left of the standard deviation of white noise; `None` for the median.
    pub fn noise_kept(self) -> Option<f64> {
        Some(self.kernel()?.noise_kept())
    }

    /// The lowest frequency of which nothing is left; `None` when some is left of every one.
    pub fn first_null(self, rate: SampleRate) -> Option<Hertz> {
        let points = self.window.points() as f64;
        match self.kind {
            SmootherKind::Mean => Some(Hertz::new(rate.hz() / points)),
            // Two means of (N + 1)/2 points in turn.
            SmootherKind::Triangular => Some(Hertz::new(2.0 * rate.hz() / (points + 1.0))),
            SmootherKind::SavitzkyGolay => self.falls_to(0.0, rate),
            SmootherKind::Median => None,
        }
    }

    /// The frequency of which 71 % is left (-3 dB); `None` for the median.
    pub fn corner(self, rate: SampleRate) -> Option<Hertz> {
        self.falls_to(FRAC_1_SQRT_2, rate)
    }

    fn kernel(self) -> Option<Kernel> {
        Kernel::new(self.kind, self.window.reach())
    }

    /// The lowest frequency at which the gain has fallen to a value.
    fn falls_to(self, value: f64, rate: SampleRate) -> Option<Hertz> {
        let kernel = self.kernel()?;
        let gain = |hz: f64| kernel.gain(Hertz::new(hz), rate);
        // Between two lobes lie rate / N: eight steps each miss none.
        let step = rate.hz() / (8 * self.window.points()) as f64;
        let steps = (rate.nyquist().hertz() / step) as usize;
        let after = (1..=steps).find(|&k| gain(k as f64 * step) <= value)? as f64 * step;
        let (mut low, mut high) = (after - step, after);
        for _ in 0..50 {
            let middle = f64::midpoint(low, high);
            if gain(middle) > value {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(Hertz::new(high))
    }
}

/// The running median: the window is kept in order of size, one point out and one in at each step.
fn median(samples: &[f32], fits: impl Fn(usize) -> usize) -> Vec<f32> {
    let mut ordered: Vec<f32> = Vec::new();
    let mut held = 0..0;
    let place = |ordered: &[f32], value: f32| {
        ordered.partition_point(|other| other.total_cmp(&value).is_lt())
    };
    let mut smoothed = Vec::with_capacity(samples.len());
    for i in 0..samples.len() {
        let wanted = i - fits(i)..i + fits(i) + 1;
        for &value in &samples[held.end..wanted.end] {
            ordered.insert(place(&ordered, value), value);
        }
        for &value in &samples[held.start..wanted.start] {
            ordered.remove(place(&ordered, value));
        }
        held = wanted;
        smoothed.push(ordered[ordered.len() / 2]);
    }
    smoothed
}

/// The value of the parabola over the first or last whole window, off its middle.
fn end(samples: &[f32], i: usize, reach: usize) -> f64 {
    let n = samples.len();
    let middle = if i < reach { reach } else { n - 1 - reach };
    let at = i as isize - middle as isize;
    (-(reach as isize)..=reach as isize)
        .zip(&samples[middle - reach..=middle + reach])
        .map(|(k, &value)| parabola(reach, at, k) * f64::from(value))
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn smoother(kind: SmootherKind, points: usize) -> Smoother {
        Smoother { kind, window: Window::new(points).unwrap() }
    }

    #[test]
    fn a_spike_as_wide_as_half_the_window_goes_and_a_wider_one_stays() {
        // `median-roots`: 5 points take out spikes of 1 and 2, not of 3 (Tukey 1977).
        for (width, survives) in [(1, false), (2, false), (3, true)] {
            let trace: Vec<f32> =
                (0..40).map(|i| f32::from(u8::from((20..20 + width).contains(&i)))).collect();
            let smoothed = smoother(SmootherKind::Median, 5).apply(&trace);
            assert_eq!(smoothed.iter().any(|&value| value > 0.5), survives, "{width}");
        }
    }

    #[test]
    fn all_keep_a_straight_line_up_to_its_ends() {
        let line: Vec<f32> = (0..60).map(|i| 2.0 - 0.5 * i as f32).collect();
        for kind in SmootherKind::ALL {
            for (value, was) in smoother(kind, 9).apply(&line).iter().zip(&line) {
                assert!((value - was).abs() < 1e-5, "{kind:?}: {value} {was}");
            }
            assert!(smoother(kind, 9).apply(&[]).is_empty());
            assert_eq!(smoother(kind, 9).apply(&[1.5]), [1.5]);
        }
    }

    proptest! {
        #[test]
        fn a_quick_mean_and_median_are_those_of_their_neighbours(
            samples in proptest::collection::vec(-9.0f32..9.0, 0..80),
            reach in 2usize..20,
        ) {
            let mean = smoother(SmootherKind::Mean, 2 * reach + 1).apply(&samples);
            let median = smoother(SmootherKind::Median, 2 * reach + 1).apply(&samples);
            prop_assert_eq!(mean.len(), samples.len());
            for i in 0..samples.len() {
                let reach = reach.min(i).min(samples.len() - 1 - i);
                let mut around = samples[i - reach..=i + reach].to_vec();
                let right = around.iter().map(|&v| f64::from(v)).sum::<f64>() / around.len() as f64;
                prop_assert!((f64::from(mean[i]) - right).abs() < 1e-5);
                around.sort_unstable_by(f32::total_cmp);
                prop_assert_eq!(median[i], around[reach]);
            }
        }
    }
}
