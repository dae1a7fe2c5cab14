//! The curve of recovery: rate(t) = resting + rise·exp(-t/τ), by least squares.
//!
//! For a given τ the curve is a straight line in exp(-t/τ), so resting and rise follow in closed form, and
//! only τ is searched for (separable least squares: Golub and Pereyra 1973, SIAM J Numer Anal 10:413): first
//! on a grid of [`GRID`] steps of equal ratio from [`SHORTEST`] to four times the time seen, then by golden
//! section. There is no start value to choose and no local minimum between grid points to fall into.
//!
//! One value far from the curve would bend it: after a first fit those further from it than [`FAR`] robust
//! standard deviations (1.4826 times the median distance) are left out, once, and counted.
//!
//! Standard errors are those of the linearised problem, s²(JᵀJ)⁻¹, as scipy.optimize.curve_fit gives them.
//! Neighbouring beats resemble each other, so n of them tell less than n. Intervals are therefore widened by
//! the method of batch means (from the statistics of simulation; from memory): residuals are summed over
//! blocks of [`BLOCK`], two breaths; errors grow by the root of how much larger the squares of those sums are
//! than the squares of the single residuals, and of (1 + ρ)/(1 - ρ) for a correlation ρ > 0 of neighbouring
//! blocks. They never shrink. The intervals are ± t times that, with as many degrees of freedom as there are
//! independent blocks, less 3. `tests/data/accuracy/recovery.md` shows how often they hold the truth.
//!
//! A single exponential is a teaching model: the first half minute, when the vagus takes hold again, is often
//! faster than the rest (from memory).

use crate::inquiry::stats::{Estimate, coverage};
use serde::{Deserialize, Serialize};

/// The fewest values that a curve is laid through (common practice).
pub(super) const FEWEST: usize = 8;
/// The shortest time constant that is looked for, s: about two beats.
pub(super) const SHORTEST: f64 = 1.5;
/// The longest, in times of what was seen.
const LONGEST: f64 = 4.0;
/// Steps of the grid.
const GRID: usize = 80;
/// Values further from the first curve than so many robust standard deviations are left out.
const FAR: f64 = 4.0;
/// Residuals are summed over blocks of this length, s: about two breaths.
const BLOCK: f64 = 8.0;

/// A curve of recovery and how well it is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exponential {
    /// Where the rate ends up, 1/min.
    pub resting: Fitted,
    /// How far above that it is at time 0, 1/min.
    pub rise: Fitted,
    /// After this time 37 % of the rise is left, s.
    pub time_constant: Fitted,
    /// How many values it was laid through.
    pub n: usize,
    /// How many were left out as too far from it.
    pub left_out: usize,
    /// The standard deviation of the residuals, 1/min, with n - 3.
    pub scatter: f64,
    /// The part of the squared scatter about the mean that the curve explains.
    pub r_squared: f64,
    /// How many times wider the intervals are than those of values that know nothing of each other.
    pub widened: f64,
}

/// One number of a fit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fitted {
    /// The number with its 95 % interval.
    pub estimate: Estimate,
    /// Its standard error by the linearised problem alone.
    pub standard_error: f64,
}

impl Exponential {
    /// The rate of the curve, 1/min, at a moment in s.
    pub fn rate_at(&self, seconds: f64) -> f64 {
        let part = (-seconds / self.time_constant.estimate.value).exp();
        self.resting.estimate.value + self.rise.estimate.value * part
    }

    /// The time in which half of the rise is gone: τ·ln 2, s.
    pub fn half_time(&self) -> f64 {
        self.time_constant.estimate.value * std::f64::consts::LN_2
    }

    /// The curve through moments in s and rates in 1/min; `None` when they are fewer than [`FEWEST`], lie at
    /// one moment, or hold nothing to fit.
    pub fn through(points: &[(f64, f64)]) -> Option<Self> {
        let first = Line::best(points)?;
        let near = near(points, &first);
        let left_out = points.len() - near.len();
        let best = if left_out > 0 { Line::best(&near)? } else { first };
        best.with_errors(&near, left_out)
    }
}

/// A curve with one τ: the straight line in exp(-t/τ).
#[derive(Clone, Copy)]
struct Line {
    resting: f64,
    rise: f64,
    tau: f64,
    squares: f64,
}

impl Line {
    fn residual(&self, (at, rate): (f64, f64)) -> f64 {
        rate - self.resting - self.rise * (-at / self.tau).exp()
    }

    /// The best line for a τ; `None` where exp(-t/τ) is the same at every moment.
    fn with(points: &[(f64, f64)], tau: f64) -> Option<Self> {
        let n = points.len() as f64;
        let part = |at: f64| (-at / tau).exp();
        let mean_part = points.iter().map(|point| part(point.0)).sum::<f64>() / n;
        let mean_rate = points.iter().map(|point| point.1).sum::<f64>() / n;
        let (mut across, mut both) = (0.0, 0.0);
        for &(at, rate) in points {
            across += (part(at) - mean_part).powi(2);
            both += (part(at) - mean_part) * (rate - mean_rate);
        }
        let rise = both / across;
        let line = Self { resting: mean_rate - rise * mean_part, rise, tau, squares: 0.0 };
        let squares: f64 = points.iter().map(|&point| line.residual(point).powi(2)).sum();
        (across > 0.0 && squares.is_finite()).then_some(Self { squares, ..line })
    }

    /// The best line for any τ.
    fn best(points: &[(f64, f64)]) -> Option<Self> {
        if points.len() < FEWEST {
            return None;
        }
        let (from, to) = points
            .iter()
            .fold((f64::MAX, f64::MIN), |(from, to), point| (from.min(point.0), to.max(point.0)));
        let longest = LONGEST * (to - from);
        if !(longest > SHORTEST && longest.is_finite()) {
            return None;
        }
        let ratio = (longest / SHORTEST).powf(1.0 / GRID as f64);
        let tau = |step: f64| SHORTEST * ratio.powf(step);
        let squares =
            |step: f64| Self::with(points, tau(step)).map_or(f64::INFINITY, |line| line.squares);
        let best = (0..=GRID)
            .map(|step| (step, squares(step as f64)))
            .min_by(|a, b| a.1.total_cmp(&b.1))?;
        let (low, high) = (best.0.saturating_sub(1) as f64, (best.0 + 1).min(GRID) as f64);
        Self::with(points, tau(lowest(squares, low, high)))
    }

    /// The numbers with their errors.
    fn with_errors(self, points: &[(f64, f64)], left_out: usize) -> Option<Exponential> {
        let n = points.len();
        let residuals: Vec<f64> = points.iter().map(|&point| self.residual(point)).collect();
        let scatter = (self.squares / n.checked_sub(3)? as f64).sqrt();
        let slopes = points.iter().map(|&(at, _)| {
            let part = (-at / self.tau).exp();
            [1.0, part, self.rise * part * at / self.tau.powi(2)]
        });
        let unit = diagonal_of_inverse(slopes)?;
        let likeness = Likeness::of(points, &residuals);
        let degrees_of_freedom = (likeness.independent - 3.0).max(1.0);
        let factor = likeness.widened * coverage(degrees_of_freedom)?;
        let fitted = |value: f64, unit: f64| {
            let standard_error = scatter * unit.sqrt();
            Fitted { estimate: Estimate::around(value, factor * standard_error), standard_error }
        };
        let mean = points.iter().map(|point| point.1).sum::<f64>() / n as f64;
        let all: f64 = points.iter().map(|point| (point.1 - mean).powi(2)).sum();
        Some(Exponential {
            resting: fitted(self.resting, unit[0]),
            rise: fitted(self.rise, unit[1]),
            time_constant: fitted(self.tau, unit[2]),
            n,
            left_out,
            scatter,
            r_squared: if all > 0.0 { 1.0 - self.squares / all } else { 0.0 },
            widened: likeness.widened,
        })
    }
}

/// Where a function of one hollow between two places is lowest, by golden section.
fn lowest(value: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut left, mut right) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_left, mut at_right) = (value(left), value(right));
    for _ in 0..60 {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - golden * (high - low);
            at_left = value(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + golden * (high - low);
            at_right = value(right);
        }
    }
    f64::midpoint(low, high)
}

/// The points that are not too far from a line.
fn near(points: &[(f64, f64)], line: &Line) -> Vec<(f64, f64)> {
    let mut distances: Vec<f64> = points.iter().map(|&point| line.residual(point).abs()).collect();
    distances.sort_unstable_by(f64::total_cmp);
    let middle = distances.get(distances.len() / 2).copied().unwrap_or_default();
    // Where most points lie on the curve to the last digit, rounding is no distance.
    let farthest = (FAR * 1.4826 * middle).max(1e-6);
    points.iter().copied().filter(|&point| line.residual(point).abs() <= farthest).collect()
}

/// How much neighbouring residuals resemble each other.
struct Likeness {
    /// How many times larger errors are than those of independent values.
    widened: f64,
    /// How many independent blocks there are.
    independent: f64,
}

impl Likeness {
    fn of(points: &[(f64, f64)], residuals: &[f64]) -> Self {
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

/// The diagonal of (JᵀJ)⁻¹ for the rows of J, by the adjugate; `None` where it has no inverse.
fn diagonal_of_inverse(rows: impl Iterator<Item = [f64; 3]>) -> Option<[f64; 3]> {
    let mut m = [[0.0; 3]; 3];
    for row in rows {
        for (to, a) in m.iter_mut().zip(row) {
            for (to, b) in to.iter_mut().zip(row) {
                *to += a * b;
            }
        }
    }
    let minor = |a: usize, b: usize| m[a][a] * m[b][b] - m[a][b] * m[b][a];
    let determinant = m[0][0] * minor(1, 2) - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    let diagonal = [minor(1, 2), minor(0, 2), minor(0, 1)].map(|minor| minor / determinant);
    diagonal.iter().all(|&part| part.is_finite() && part >= 0.0).then_some(diagonal)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TIMES: [f64; 10] = [0.0, 15.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0, 240.0, 300.0];

    fn assert_near(found: f64, right: f64, part: f64) {
        assert!((found - right).abs() <= part * right.abs(), "{found}, not {right}");
    }

    #[test]
    fn an_exact_curve_is_found() {
        // `hrr-01`: 75 + 95 exp(-t/60).
        let points = TIMES.map(|t| (t, 75.0 + 95.0 * (-t / 60.0).exp()));
        let found = Exponential::through(&points).unwrap();
        assert_near(found.resting.estimate.value, 75.0, 1e-6);
        assert_near(found.rise.estimate.value, 95.0, 1e-6);
        assert_near(found.time_constant.estimate.value, 60.0, 1e-6);
        assert_near(found.half_time(), 41.5888, 1e-5);
        assert_near(170.0 - found.rate_at(60.0), 60.0515, 1e-5);
        assert!(found.r_squared > 1.0 - 1e-9);
    }

    #[test]
    fn a_noisy_curve_has_the_errors_of_a_general_library() {
        // `hrr-02`.
        let rates = [168.0, 150.0, 133.0, 124.0, 109.0, 98.0, 88.0, 80.0, 78.0, 75.0];
        let points: Vec<(f64, f64)> = TIMES.into_iter().zip(rates).collect();
        let found = Exponential::through(&points).unwrap();
        for (fitted, (value, error)) in [found.resting, found.rise, found.time_constant]
            .into_iter()
            .zip([(74.5376, 1.18164), (94.2456, 1.57513), (63.9971, 2.72532)])
        {
            assert_near(fitted.estimate.value, value, 1e-4);
            assert_near(fitted.standard_error, error, 1e-4);
        }
        assert_near(found.scatter.powi(2) * 7.0, 18.433, 1e-4);
    }

    #[test]
    fn one_value_far_off_is_left_out_and_counted() {
        let mut points: Vec<(f64, f64)> = (0..120)
            .map(|beat| f64::from(beat))
            .map(|t| (t, 80.0 + 60.0 * (-t / 35.0).exp() + (2.1 * t).sin()))
            .collect();
        let clean = Exponential::through(&points).unwrap();
        points[40].1 = 30.0;
        let found = Exponential::through(&points).unwrap();
        assert_eq!((clean.left_out, found.left_out), (0, 1));
        assert_near(found.time_constant.estimate.value, 35.0, 0.02);
    }

    #[test]
    fn what_holds_no_curve_gives_none() {
        assert_eq!(Exponential::through(&[]), None);
        assert_eq!(Exponential::through(&[(3.0, 80.0); 20]), None);
        assert_eq!(Exponential::through(&TIMES.map(|t| (t, f64::NAN))), None);
    }

    proptest! {
        #[test]
        fn another_zero_and_another_unit_move_the_rates_alone(
            noise in proptest::collection::vec(-3.0f64..3.0, 90),
            up in -30.0f64..30.0,
            times in 0.5f64..3.0,
        ) {
            let points = |up: f64, times: f64| -> Vec<(f64, f64)> {
                let curve = |t: f64| 70.0 + 80.0 * (-t / 25.0).exp();
                let rates = noise.iter().enumerate();
                rates.map(|(t, noise)| (t as f64, up + times * (curve(t as f64) + noise))).collect()
            };
            let here = Exponential::through(&points(0.0, 1.0)).unwrap();
            let there = Exponential::through(&points(up, times)).unwrap();
            let of = |fit: &Exponential| [fit.resting, fit.rise, fit.time_constant].map(|one| one.estimate.value);
            let ([a, b, c], [d, e, f]) = (of(&here), of(&there));
            prop_assert!((d - up - times * a).abs() < 1e-3 && (e - times * b).abs() < 1e-3);
            prop_assert!((c - f).abs() < 1e-4 * c);
        }

        #[test]
        fn nothing_makes_it_panic(
            points in proptest::collection::vec((any::<f64>(), any::<f64>()), 0..30),
        ) {
            let _ = Exponential::through(&points);
        }
    }
}
