//! Two groups that are not paired: the difference of their means, for different scatter.
//!
//! Welch 1947 (Biometrika 34:28): t = (mean₂ - mean₁)/√(s₁²/n₁ + s₂²/n₂), with the degrees of freedom of
//! Satterthwaite 1946 (Biometrics Bulletin 2:110). A group of one, or two groups without any scatter, have a
//! difference but no interval; fewer than [`FEWEST_FOR_A_TEST`] in either group get no test, as in a paired
//! comparison.

use super::paired::{FEWEST_FOR_A_TEST, TTest};
use super::student::{coverage, two_sided_p};
use super::{Estimate, Moments};
use serde::{Deserialize, Serialize};

/// What two groups come to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Independent {
    /// The first group.
    pub first: Moments,
    /// The second group.
    pub second: Moments,
    /// The mean of the second less that of the first.
    pub difference: f64,
    /// The same with its 95 % interval.
    pub interval: Option<Estimate>,
    /// Welch's t-test.
    pub t_test: Option<TTest>,
}

impl Independent {
    /// Compares two groups; `None` when one is empty.
    pub fn of(first: &[f64], second: &[f64]) -> Option<Self> {
        let (first, second) = (Moments::of(first)?, Moments::of(second)?);
        let difference = second.mean - first.mean;
        let error = || {
            let [a, b] =
                [first, second].map(|group| group.standard_error().map(|error| error.powi(2)));
            let (a, b) = (a?, b?);
            let freedom = |part: f64, n: usize| part.powi(2) / (n - 1) as f64;
            let degrees = (a + b).powi(2) / (freedom(a, first.n) + freedom(b, second.n));
            (a + b > 0.0).then_some(((a + b).sqrt(), degrees))
        };
        let error = error();
        let interval = error.and_then(|(error, degrees)| {
            Some(Estimate::around(difference, coverage(degrees)? * error))
        });
        let is_enough = first.n.min(second.n) >= FEWEST_FOR_A_TEST;
        let t_test = error.filter(|_| is_enough).and_then(|(error, degrees_of_freedom)| {
            let t = difference / error;
            Some(TTest { t, degrees_of_freedom, p: two_sided_p(t, degrees_of_freedom)? })
        });
        Some(Self { first, second, difference, interval, t_test })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_of_equal_size_and_scatter_have_all_degrees_of_freedom() {
        // Means 3.5 and 5.5, s² 3.5 each: error √(7/6) = 1.0801, t = 1.8516, 10 degrees of freedom.
        let first = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
        let second = first.map(|one| one + 2.0);
        let found = Independent::of(&first, &second).unwrap();
        let (t, interval) = (found.t_test.unwrap(), found.interval.unwrap());
        assert!((t.t - 1.8516).abs() < 1e-4 && (t.degrees_of_freedom - 10.0).abs() < 1e-9);
        assert!((interval.half_width() - 2.228 * 1.0801).abs() < 1e-3);
    }

    #[test]
    fn few_have_no_test_and_one_has_no_interval() {
        let found = Independent::of(&[1.0, 2.0], &[4.0, 5.0]).unwrap();
        assert!(found.interval.is_some() && found.t_test.is_none());
        let one = Independent::of(&[1.0], &[4.0, 5.0]).unwrap();
        assert_eq!((one.difference, one.interval), (3.5, None));
        assert_eq!(Independent::of(&[2.0; 7], &[2.0; 7]).unwrap().interval, None);
        assert_eq!(Independent::of(&[], &[1.0]), None);
    }
}
