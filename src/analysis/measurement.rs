//! A measured number never travels alone: it has a spread and a count.

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
}

impl Measurement {
    /// Median and spread of some values; `None` when there are none.
    pub fn of(values: &[f64]) -> Option<Self> {
        let mut sorted: Vec<f64> =
            values.iter().copied().filter(|value| value.is_finite()).collect();
        sorted.sort_by(f64::total_cmp);
        let n = sorted.len();
        let middle = *sorted.get(n / 2)?;
        let value = if n.is_multiple_of(2) { (sorted[n / 2 - 1] + middle) / 2.0 } else { middle };
        let mean = sorted.iter().sum::<f64>() / n as f64;
        let squares: f64 = sorted.iter().map(|value| (value - mean).powi(2)).sum();
        let spread = if n > 1 { (squares / (n - 1) as f64).sqrt() } else { 0.0 };
        Some(Self { value, spread, n })
    }
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
        let rr = Measurement::of(&[800.0, 850.0, 790.0, 910.0]).unwrap();
        assert_eq!(rr.value, 825.0);
        assert!((rr.spread - 55.0).abs() < 0.05);
        assert_eq!(Measurement::of(&[]), None);
        assert_eq!(Measurement::of(&[5.0]).unwrap().spread, 0.0);
    }
}
