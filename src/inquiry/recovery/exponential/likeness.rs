//! How much neighbouring residuals resemble each other: n beats that do tell less than n.
//!
//! The method of batch means (from the statistics of simulation; from memory): residuals are summed over
//! blocks of [`BLOCK`], two breaths, so that breathing sums to little. Errors grow by the root of how much larger
//! the squares of those sums are than the squares of the single residuals, and of (1 + ρ)/(1 - ρ) for a
//! correlation ρ > 0 of neighbouring blocks, as a slow drift has. They never shrink.

/// Residuals are summed over blocks of this length, s: about two breaths.
const BLOCK: f64 = 8.0;

/// How much neighbouring residuals resemble each other.
pub(super) struct Likeness {
    /// How many times larger errors are than those of independent values.
    pub(super) widened: f64,
    /// How many independent blocks there are.
    pub(super) independent: f64,
}

impl Likeness {
    pub(super) fn of(points: &[(f64, f64)], residuals: &[f64]) -> Self {
        let from = points.first().map_or(0.0, |point| point.0);
        let length = points.last().map_or(0.0, |point| point.0) - from;
        let count = (length / BLOCK).round().clamp(2.0, points.len().max(2) as f64);
        let mut sums = vec![0.0; count as usize];
        for (&(at, _), residual) in points.iter().zip(residuals) {
            // `as` saturates: the last moment belongs to the last block.
            let block = ((at - from) / length * count) as usize;
            let last = sums.len() - 1;
            if let Some(sum) = sums.get_mut(block.min(last)) {
                *sum += residual;
            }
        }
        let square = |values: &[f64]| values.iter().map(|value| value * value).sum::<f64>();
        let (single, summed) = (square(residuals), square(&sums));
        let products: f64 = sums.windows(2).map(|pair| pair[0] * pair[1]).sum();
        let correlation = if summed > 0.0 { (products / summed).clamp(0.0, 0.9) } else { 0.0 };
        let times = (1.0 + correlation) / (1.0 - correlation);
        let larger = if single > 0.0 { (times * summed / single).max(1.0) } else { 1.0 };
        Self { widened: larger.sqrt(), independent: count / times }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn widened(residual: impl Fn(f64) -> f64) -> f64 {
        let points: Vec<(f64, f64)> = (0..240).map(|beat| (f64::from(beat) / 2.0, 0.0)).collect();
        let residuals: Vec<f64> = points.iter().map(|point| residual(point.0)).collect();
        Likeness::of(&points, &residuals).widened
    }

    #[test]
    fn a_drift_widens_and_breathing_does_not() {
        assert!(widened(|t| (t / 15.0).sin()) > 5.0);
        assert!(widened(|t| (std::f64::consts::TAU * t / 4.0).sin()) < 1.1);
        assert_eq!(widened(|_| 0.0), 1.0);
    }
}
