//! The frequency of a sine that fits values clearly better than chance.
//!
//! A sine is fitted beside a straight line, by least squares, for every frequency of the band from [`SLOWEST`] to
//! [`FASTEST`] that the beats can show (below half the heart rate). The best one is clear when chance alone would
//! give so good a fit less often than [`BY_CHANCE`]: with R² of n values, (1 - R²)^((n - 4)/2) for one frequency (the
//! F test of two more coefficients), times the number of independent ones (the false alarm of Scargle 1982,
//! Astrophys J 263:835; from memory). A best frequency at the edge of the band is not clear: a drift looks like
//! that. Values that are not numbers, or all the same, have none.

/// The slowest and fastest breathing that is looked for, Hz: 6 to 30 a minute.
const SLOWEST: f64 = 0.08;
const FASTEST: f64 = 0.5;
/// The fastest, as a part of the rate of the beats: at a half, two breaths would look like one.
const OF_BEATS: f64 = 0.45;
/// The fewest beats of a window.
const FEWEST: usize = 12;
/// How often chance may give so good a fit.
const BY_CHANCE: f64 = 0.005;
/// Frequencies are tried in steps of this over the length of the window.
const STEP: f64 = 0.125;

/// A value of each beat and its moment, s.
pub(super) type Series = Vec<(f64, f64)>;

/// The frequency, Hz, of a sine that fits clearly better than chance.
pub(super) fn clear_frequency(series: &[(f64, f64)]) -> Option<f64> {
    let (first, last) = (series.first()?.0, series.last()?.0);
    let (n, length) = (series.len(), last - first);
    if n < FEWEST || length <= 0.0 {
        return None;
    }
    let fastest = FASTEST.min(OF_BEATS * (n - 1) as f64 / length);
    let steps = ((fastest - SLOWEST) * length / STEP).floor();
    if steps < 2.0 {
        return None;
    }
    let flat = without_line(series);
    let all: f64 = flat.iter().map(|one| one.1 * one.1).sum();
    let fits: Vec<f64> = (0..=steps as usize)
        .map(|step| explained(&flat, SLOWEST + step as f64 * STEP / length) / all)
        .collect();
    let (best, &share) = fits.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
    let independent = ((fastest - SLOWEST) * length).max(1.0);
    let by_chance = independent * (1.0 - share).max(0.0).powf((n - 4) as f64 / 2.0);
    let is_clear = share.is_finite() && by_chance < BY_CHANCE && best > 0 && best + 1 < fits.len();
    is_clear.then_some(SLOWEST + best as f64 * STEP / length)
}

/// Values about their straight line, moments about their mean.
fn without_line(series: &[(f64, f64)]) -> Series {
    let n = series.len().max(1) as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| series.iter().map(of).sum::<f64>() / n;
    let (at, value) = (mean(|one| one.0), mean(|one| one.1));
    let across: f64 = series.iter().map(|one| (one.0 - at).powi(2)).sum();
    let both: f64 = series.iter().map(|one| (one.0 - at) * (one.1 - value)).sum();
    let slope = if across > 0.0 { both / across } else { 0.0 };
    series.iter().map(|one| (one.0 - at, one.1 - value - slope * (one.0 - at))).collect()
}

/// The sum of squares that a sine of a frequency takes from values about zero, by its normal equations.
fn explained(flat: &[(f64, f64)], hertz: f64) -> f64 {
    let (mut cc, mut cs, mut ss, mut cv, mut sv) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for &(at, value) in flat {
        let (sin, cos) = (std::f64::consts::TAU * hertz * at).sin_cos();
        cc += cos * cos;
        cs += cos * sin;
        ss += sin * sin;
        cv += cos * value;
        sv += sin * value;
    }
    let determinant = cc * ss - cs * cs;
    (ss * cv * cv - 2.0 * cs * cv * sv + cc * sv * sv) / determinant
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::invented;

    fn trail(hertz: f64, height: f64, seed: u64) -> Series {
        let value = |at: f64| height * (std::f64::consts::TAU * hertz * at).sin();
        let noise = invented::noise(72, seed);
        (noise.chunks(2).enumerate())
            .map(|(beat, noise)| {
                let at = beat as f64 * 0.83 + 0.015 * noise[1];
                (at, 5.0 + 0.01 * at + value(at) + noise[0])
            })
            .collect()
    }

    #[test]
    fn a_clear_breath_has_its_frequency() {
        for hertz in [0.12, 0.2, 0.25, 0.33, 0.45] {
            let found = clear_frequency(&trail(hertz, 2.0, 3)).unwrap();
            assert!((found - hertz).abs() < 0.01, "{found}, not {hertz}");
        }
    }

    #[test]
    fn chance_is_seldom_taken_for_breathing() {
        let taken = (0..400).filter(|&seed| clear_frequency(&trail(0.2, 0.0, seed)).is_some());
        // One in a hundred is meant, and about half as many more by trying between frequencies.
        assert!(taken.count() <= 10);
    }

    #[test]
    fn a_drift_is_not_taken_for_breathing() {
        let drift: Series = (0..40).map(f64::from).map(|at| (at, at * at)).collect();
        assert_eq!(clear_frequency(&drift), None);
        assert_eq!(clear_frequency(&[(1.0, 1.0); 40]), None);
        assert_eq!(clear_frequency(&[]), None);
    }
}
