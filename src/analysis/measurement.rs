//! A measured number never travels alone: it has a spread, a count and an uncertainty.

use super::uncertainty::{middle_of, of_mean, of_median};
use serde::{Deserialize, Serialize};

/// A quantity measured on several beats.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measurement {
    /// The median over the beats.
    pub value: f64,
    /// The standard deviation over the beats (n - 1), 0 when there is one.
    pub spread: f64,
    /// How many beats it was measured on.
    pub n: usize,
    /// How far the value may be off through sampling and scatter: expanded, k = 2, about 95 of 100.
    pub expanded_uncertainty: f64,
}

impl Measurement {
    /// Median and spread of some values, each with an expanded uncertainty `sampling` from the gap
    /// between samples; `None` when there are none.
    pub fn of(values: &[f64], sampling: f64) -> Option<Self> {
        let mut sorted: Vec<f64> =
            values.iter().copied().filter(|value| value.is_finite()).collect();
        sorted.sort_unstable_by(f64::total_cmp);
        let value = middle_of(&sorted)?;
        let (_, spread) = mean_and_deviation(&sorted);
        let expanded_uncertainty = of_median(&sorted, value, spread, sampling);
        Some(Self { value, spread, n: sorted.len(), expanded_uncertainty })
    }

    /// The rate, beats a minute, of the mean of some RR intervals in ms; its spread is that of the
    /// single rates. `None` when there are none.
    pub fn rate_of(rr: &[f64], sampling: f64) -> Option<Self> {
        let (mean, deviation) = mean_and_deviation(rr);
        let value = 60_000.0 / mean;
        let rates: Vec<f64> = rr.iter().map(|rr| 60_000.0 / rr).collect();
        // The same relative uncertainty as that of the mean (JCGM 100:2008, 5.1.6).
        let relative = of_mean(rr.len(), deviation, sampling) / mean;
        let spread = mean_and_deviation(&rates).1;
        let measured = Self { value, spread, n: rr.len(), expanded_uncertainty: value * relative };
        (!rr.is_empty()).then_some(measured)
    }
}

/// The mean, NaN of none, and the standard deviation (n - 1), 0 of fewer than two.
fn mean_and_deviation(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    let deviation = if values.len() > 1 { (squares / (n - 1.0)).sqrt() } else { 0.0 };
    (mean, deviation)
}

/// The intervals of the cycle over all beats that count. `None` means not measurable.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Intervals {
    /// P onset to QRS onset, ms.
    pub pr_ms: Option<Measurement>,
    /// QRS onset to QRS end, ms.
    pub qrs_ms: Option<Measurement>,
    /// QRS onset to T end, ms.
    pub qt_ms: Option<Measurement>,
    /// R to R, ms.
    pub rr_ms: Option<Measurement>,
    /// 60 / mean RR, beats a minute; its spread is that of 60 / RR of the single intervals.
    pub rate_bpm: Option<Measurement>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hand_example_of_the_task_force_definitions() {
        // RR 800, 850, 790, 910 ms: SDNN 55.0 with n - 1 (Task Force 1996, Eur Heart J 17:354).
        let rr = Measurement::of(&[800.0, 850.0, 790.0, 910.0], 0.8).unwrap();
        assert_eq!(rr.value, 825.0);
        assert!((rr.spread - 55.0).abs() < 0.05);
        assert_eq!(Measurement::of(&[], 0.8), None);
        assert_eq!(Measurement::of(&[5.0], 0.8).unwrap().spread, 0.0);
    }

    #[test]
    fn a_rate_is_as_uncertain_as_its_mean_interval() {
        // Mean 837.5, s 55.0, n 4: 3.30 · 55.0 / 2 = 90.8 ms, 10.84 %; of 71.64 a minute that is 7.77.
        let rate = Measurement::rate_of(&[800.0, 850.0, 790.0, 910.0], 0.0).unwrap();
        assert!((rate.value - 71.64).abs() < 0.01);
        assert!((rate.expanded_uncertainty - 7.77).abs() < 0.01);
        assert_eq!(Measurement::rate_of(&[], 0.8), None);
    }
}
