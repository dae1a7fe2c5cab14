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
//! Standard errors are those of the linearised problem, s²(JᵀJ)⁻¹, as `scipy.optimize.curve_fit` gives them.
//! Neighbouring beats resemble each other, so intervals are widened (`likeness.rs`): ± t times the
//! widened error, with as many degrees of freedom as there are independent blocks, less 3.
//! `tests/data/accuracy/recovery.md` shows how often they hold the truth.
//!
//! A single exponential is a teaching model: the first half minute, when the vagus takes hold again, is often
//! faster than the rest (from memory).

mod likeness;
#[cfg(test)]
mod tests;

use crate::inquiry::stats::{Estimate, coverage};
use likeness::Likeness;
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
