//! A paired comparison: each volunteer against themself.
//!
//! The mean difference with its 95 % interval; `d_z` = mean / SD of the differences as a standardised effect
//! (Cohen 1988, Statistical Power Analysis; the name after Lakens 2013, Front Psychol 4:863); the paired
//! t-test and Wilcoxon's signed-rank test. With fewer than six pairs no test is given: of five differences
//! even all on one side give Wilcoxon's p = 1/16, above 5 %, and a t-test would have to lean on a normal
//! distribution that nobody can see in five values. Differences that are all the same have no t.

use super::signed_rank::{SignedRank, signed_rank};
use super::student::two_sided_p;
use super::{Estimate, Moments};
use serde::{Deserialize, Serialize};

/// The fewest pairs that a test is given for.
pub const FEWEST_FOR_A_TEST: usize = 6;

/// What the differences of some pairs come to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Paired {
    /// How many pairs, the mean of their differences and how far those scatter.
    pub difference: Moments,
    /// The mean difference with its 95 % interval; `None` of a single pair.
    pub interval: Option<Estimate>,
    /// `d_z`, the mean difference in standard deviations of the differences.
    pub effect: Option<f64>,
    /// The paired t-test; `None` with fewer than six pairs.
    pub t_test: Option<TTest>,
    /// The signed-rank test; `None` with fewer than six pairs.
    pub signed_rank: Option<SignedRank>,
}

/// What a t-test came to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TTest {
    /// The mean difference in standard errors.
    pub t: f64,
    /// Pairs less one.
    pub degrees_of_freedom: f64,
    /// How often chance alone gives a t so far from 0.
    pub p: f64,
}

impl Paired {
    /// Compares by the difference of each pair; `None` of none.
    pub fn of(differences: &[f64]) -> Option<Self> {
        let difference = Moments::of(differences)?;
        let scatter = difference.deviation.filter(|&deviation| deviation > 0.0);
        let is_enough = difference.n >= FEWEST_FOR_A_TEST;
        let t_test = || {
            let degrees_of_freedom = (difference.n - 1) as f64;
            let t = difference.mean * (difference.n as f64).sqrt() / scatter?;
            Some(TTest { t, degrees_of_freedom, p: two_sided_p(t, degrees_of_freedom)? })
        };
        Some(Self {
            difference,
            interval: difference.mean_interval(),
            effect: scatter.map(|scatter| difference.mean / scatter),
            t_test: is_enough.then(t_test).flatten(),
            signed_rank: is_enough.then(|| signed_rank(differences)).flatten(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_worked_example_of_a_class() {
        // `class-paired`: before less after.
        let before = [72.0, 68.0, 80.0, 75.0, 66.0, 78.0, 71.0, 84.0];
        let after = [69.0, 66.0, 74.0, 73.0, 66.0, 71.0, 70.0, 77.0];
        let differences: Vec<f64> = before.iter().zip(after).map(|(a, b)| a - b).collect();
        let paired = Paired::of(&differences).unwrap();
        let (interval, t) = (paired.interval.unwrap(), paired.t_test.unwrap());
        let found = [interval.value, interval.low, interval.high, t.t, t.p, paired.effect.unwrap()];
        let right = [3.5, 1.177_99, 5.822_01, 3.564_23, 0.009_167_45, 1.260_14];
        for (found, right) in found.into_iter().zip(right) {
            assert!((found - right).abs() < 1e-4, "{found}, not {right}");
        }
        assert_eq!(t.degrees_of_freedom, 7.0);
    }

    #[test]
    fn few_pairs_have_a_difference_and_no_test() {
        let five = Paired::of(&[1.0, 2.0, 3.0, 4.0, 5.0]).unwrap();
        assert!(five.interval.is_some() && five.t_test.is_none() && five.signed_rank.is_none());
        let one = Paired::of(&[1.0]).unwrap();
        assert_eq!((one.difference.n, one.interval, one.effect), (1, None, None));
        assert_eq!(Paired::of(&[]), None);
    }

    #[test]
    fn differences_that_are_all_the_same_have_no_t() {
        let same = Paired::of(&[2.0; 7]).unwrap();
        assert_eq!((same.t_test, same.effect), (None, None));
        assert_eq!(same.signed_rank.unwrap().p, 2.0 / 128.0);
    }

    proptest! {
        #[test]
        fn another_unit_changes_no_effect_and_no_p(
            differences in proptest::collection::vec(-50.0f64..50.0, 6..40),
            unit in 0.001f64..1000.0,
        ) {
            let scaled: Vec<f64> = differences.iter().map(|one| one * unit).collect();
            let (here, there) = (Paired::of(&differences).unwrap(), Paired::of(&scaled).unwrap());
            let effects = here.effect.zip(there.effect);
            prop_assert!(effects.is_none_or(|(a, b)| (a - b).abs() < 1e-6 * a.abs().max(1.0)));
            let ps = here.t_test.zip(there.t_test);
            prop_assert!(ps.is_none_or(|(a, b)| (a.p - b.p).abs() < 1e-6));
        }

        #[test]
        fn nothing_makes_it_panic(differences in proptest::collection::vec(any::<f64>(), 0..20)) {
            let _ = Paired::of(&differences);
        }
    }
}
