//! How far a measured interval may be off through sampling and scatter, as JCGM 100:2008 (GUM) has it.
//!
//! All uncertainties are expanded, with coverage factor k = 2: about 95 of 100 intervals so stated
//! hold the true value. `tests/data/accuracy/uncertainty.md` shows how many do.
//!
//! - **Sampling.** Each end of an interval lies anywhere within half a sample of its mark: a uniform
//!   distribution, standard uncertainty gap/√12 (4.3.7); two ends give gap/√6. It is all that one beat
//!   can tell. It does not shrink with the number of beats, because the median of whole samples is
//!   itself a whole or half sample; it does in a mean (an end shared by neighbours even cancels).
//! - **Scatter.** The standard error of a median is √(π/2) s/√n for normal values, that of a mean s/√n.
//!   `s` of a median is the median distance from it times 1.4826, which one stray beat can't move, and
//!   times n/(n - 0.8) against its bias with few values (Croux & Rousseeuw 1992, from memory). Of fewer
//!   than ten beats that is too uncertain itself: the standard deviation is taken. With few beats k is
//!   that of Student's t for 95.45 % (GUM G.3).
//! - The two are independent and add in squares (5.1.2).
//!
//! What is not in it: how well the edge of a wave can be told from noise (see the accuracy tables), and
//! that neighbouring beats resemble each other, as in breathing, so that n beats tell less than n.

use crate::signal::SampleRate;
use std::f64::consts::FRAC_PI_2;

/// The coverage factor of every uncertainty.
const COVERAGE: f64 = 2.0;
/// A standard deviation over the median distance from the middle, for normal values.
const NORMAL: f64 = 1.4826;
/// Fewer beats than this are too few for a robust spread.
const ENOUGH: usize = 10;

/// The expanded uncertainty (k = 2) of one interval from the gap between samples alone, in ms.
pub fn sampling_uncertainty(rate: SampleRate) -> f64 {
    COVERAGE * rate.interval().to_milliseconds().milliseconds() / 6.0_f64.sqrt()
}

/// That of the median of some values, each with an expanded uncertainty `sampling`; `deviation` is
/// their standard deviation.
pub(super) fn of_median(values: &[f64], median: f64, deviation: f64, sampling: f64) -> f64 {
    let n = values.len() as f64;
    let spread = if values.len() < ENOUGH {
        deviation
    } else {
        NORMAL * middle_distance(values, median) * n / (n - 0.8)
    };
    (FRAC_PI_2.sqrt() * of_scatter(spread, values.len())).hypot(sampling)
}

/// That of the mean of `n` values.
pub(super) fn of_mean(n: usize, deviation: f64, sampling: f64) -> f64 {
    of_scatter(deviation, n).hypot(sampling / (n.max(1) as f64).sqrt())
}

/// The expanded standard error of a mean; one value does not scatter.
fn of_scatter(spread: f64, n: usize) -> f64 {
    if n < 2 { 0.0 } else { coverage(n - 1) * spread / (n as f64).sqrt() }
}

/// The quantile of Student's t that holds 95.45 % on both sides, as k = 2 does of a normal
/// distribution: the expansion in 1/ν of Abramowitz & Stegun 26.7.5 at 2.
fn coverage(degrees_of_freedom: usize) -> f64 {
    const TERMS: [f64; 5] = [COVERAGE, 2.5, 3.0625, 2.859_375, 1.844_1];
    let part = (degrees_of_freedom as f64).recip();
    TERMS.iter().rev().fold(0.0, |sum, term| sum * part + term)
}

/// The median distance from the middle.
fn middle_distance(values: &[f64], middle: f64) -> f64 {
    let mut distances: Vec<f64> = values.iter().map(|value| (value - middle).abs()).collect();
    distances.sort_unstable_by(f64::total_cmp);
    middle_of(&distances).unwrap_or_default()
}

/// The median of values in order; `None` of none.
pub(super) fn middle_of(sorted: &[f64]) -> Option<f64> {
    let n = sorted.len();
    let upper = *sorted.get(n / 2)?;
    Some(if n.is_multiple_of(2) { f64::midpoint(sorted[n / 2 - 1], upper) } else { upper })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn assert_near(found: f64, right: f64) {
        assert!((found - right).abs() < 0.005 * right, "{found} for {right}");
    }

    #[test]
    fn one_beat_knows_only_the_gap_between_samples() {
        // 100 Hz: gap 10 ms, 10/√12 = 2.887 at each end, 4.082 for both, 8.165 expanded.
        let sampling = sampling_uncertainty(SampleRate::new(100.0).unwrap());
        assert_near(sampling, 8.165);
        assert_eq!(of_median(&[150.0], 150.0, 0.0, sampling), sampling);
        assert_eq!(of_mean(1, 0.0, sampling), sampling);
    }

    #[test]
    fn twelve_beats_by_hand() {
        // Distances from 150: 5 3 3 2 1 1 1 1 2 3 4 50, in order 1 1 1 1 2 2 3 3 3 4 5 50: median 2.5.
        // s = 1.4826 · 2.5 · 12/11.2 = 3.971; · 1.2533/√12 = 1.437; t of 11 = 2.255: 3.240.
        let values =
            [145.0, 147.0, 147.0, 148.0, 149.0, 149.0, 151.0, 151.0, 152.0, 153.0, 154.0, 200.0];
        assert_near(of_median(&values, 150.0, 99.0, 0.0), 3.240);
        // With 0.816 ms of sampling at 1 kHz: √(3.240² + 0.816²).
        assert_near(of_median(&values, 150.0, 99.0, 0.816), 3.341);
    }

    #[test]
    fn four_beats_by_hand() {
        // The Task Force's RR 800, 850, 790, 910: s 55.0; /√4 = 27.5; t of 3 = 3.307.
        let values = [790.0, 800.0, 850.0, 910.0];
        assert_near(of_mean(4, 55.0, 0.0), 90.9);
        assert_near(of_median(&values, 825.0, 55.0, 0.0), 90.9 * 1.2533);
    }

    #[test]
    fn few_values_need_the_factors_of_the_guide() {
        // JCGM 100:2008, table G.2, 95.45 %; the expansion falls short for two values only.
        for (degrees, right) in
            [(2, 4.53), (3, 3.31), (4, 2.87), (5, 2.65), (9, 2.32), (20, 2.13), (100, 2.025)]
        {
            assert!((coverage(degrees) - right).abs() < 0.01 * right, "{degrees}");
        }
        assert!((12.0..13.97).contains(&coverage(1)));
    }
}
