//! Wilcoxon's signed-rank test (Wilcoxon 1945, Biometrics Bulletin 1:80): are differences more often, and
//! further, on one side of zero?
//!
//! Rules: differences of zero are dropped, as Wilcoxon did, and counted. Equal distances share the mean of
//! their ranks; "equal" is within a billionth of the largest, so that sums of fractions do not part what is
//! the same. With at most fifty differences p is exact, also with ties: each of the 2ⁿ ways to give the signs
//! is counted, rank by rank. Beyond, the normal approximation with its corrections for ties and continuity
//! (Hollander and Wolfe, Nonparametric Statistical Methods, from memory). p is two-sided: twice the smaller
//! tail, at most 1. Without a difference there is no test.

use crate::signal::places_in_order;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, Normal};

/// Up to so many differences the test is exact.
const EXACT_UP_TO: usize = 50;
/// Distances nearer than this part of the largest share a rank.
const SAME: f64 = 1e-9;

/// What the test came to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SignedRank {
    /// How many differences were ranked.
    pub n: usize,
    /// How many were zero and dropped.
    pub zeros: usize,
    /// The sum of the ranks of those above zero.
    pub above: f64,
    /// The sum of the ranks of those below zero.
    pub below: f64,
    /// How often chance alone gives sums so uneven.
    pub p: f64,
    /// Whether p was counted, not approximated.
    pub is_exact: bool,
}

/// Tests differences; `None` when all of them are zero or there are none.
pub fn signed_rank(differences: &[f64]) -> Option<SignedRank> {
    let mut finite: Vec<f64> =
        differences.iter().copied().filter(|difference| difference.is_finite()).collect();
    let all = finite.len();
    let largest = finite.iter().fold(0.0_f64, |largest, one| largest.max(one.abs()));
    finite.retain(|difference| difference.abs() > SAME * largest);
    let order = places_in_order(finite.iter().map(|difference| difference.abs()));
    let finite: Vec<f64> = order.into_iter().map(|place| finite[place]).collect();
    let n = finite.len();
    if n == 0 {
        return None;
    }
    let ties: Vec<usize> =
        finite.chunk_by(|a, b| b.abs() - a.abs() <= SAME * largest).map(<[f64]>::len).collect();
    let doubled = doubled_ranks(&ties);
    let sum = |is_above: bool| -> usize {
        let signed = finite.iter().zip(&doubled);
        signed.filter(|(one, _)| (**one > 0.0) == is_above).map(|(_, rank)| rank).sum()
    };
    let (above, below) = (sum(true), sum(false));
    let is_exact = n <= EXACT_UP_TO;
    let smaller = above.min(below);
    let p = if is_exact { exact(&doubled, smaller) } else { approximate(&ties, n, smaller) };
    let half = |doubled: usize| doubled as f64 / 2.0;
    Some(SignedRank { n, zeros: all - n, above: half(above), below: half(below), p, is_exact })
}

/// Twice the rank of each difference, a whole number also where some share one.
fn doubled_ranks(ties: &[usize]) -> Vec<usize> {
    let mut before = 0;
    let mut ranks = Vec::new();
    for &tied in ties {
        ranks.extend(std::iter::repeat_n(2 * before + tied + 1, tied));
        before += tied;
    }
    ranks
}

/// Twice the part of all ways to give the signs in which the doubled ranks above zero sum to at most so
/// much; by symmetry the other tail is the same.
fn exact(doubled: &[usize], at_most: usize) -> f64 {
    let mut chance = vec![0.0; doubled.iter().sum::<usize>() + 1];
    chance[0] = 1.0;
    for &rank in doubled {
        for sum in (0..chance.len()).rev() {
            let without: f64 = chance[sum];
            let with = sum.checked_sub(rank).map_or(0.0, |rest| chance[rest]);
            chance[sum] = f64::midpoint(without, with);
        }
    }
    (2.0 * chance.iter().take(at_most + 1).sum::<f64>()).min(1.0)
}

fn approximate(ties: &[usize], n: usize, doubled: usize) -> f64 {
    let count = n as f64;
    let cubes: f64 = ties.iter().map(|&tied| (tied as f64).powi(3) - tied as f64).sum();
    let variance = count * (count + 1.0) * (2.0 * count + 1.0) / 24.0 - cubes / 48.0;
    let distance = count * (count + 1.0) / 4.0 - doubled as f64 / 2.0;
    let z = (distance - 0.5).max(0.0) / variance.sqrt();
    2.0 * Normal::standard().sf(z)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn six_on_one_side_are_the_fewest_that_reach_five_percent() {
        let five = signed_rank(&[1.0, 2.0, 3.0, 4.0, 5.0]).unwrap();
        let six = signed_rank(&[1.0, 2.0, 3.0, 4.0, 5.0, 6.0]).unwrap();
        assert_eq!((five.p, six.p), (2.0 / 32.0, 2.0 / 64.0));
        assert_eq!((six.above, six.below, six.is_exact), (21.0, 0.0, true));
    }

    #[test]
    fn ties_share_ranks_and_zeros_are_dropped() {
        // Distances 0.1, 0.1 (as 0.3 - 0.2), 0.4: ranks 1.5, 1.5, 3. Sums of the below: 1.5.
        let found = signed_rank(&[0.1, 0.2 - 0.3, 0.4, 0.0]).unwrap();
        assert_eq!((found.n, found.zeros, found.above, found.below), (3, 1, 4.5, 1.5));
        // Of 8 ways, sums 0, 1.5, 1.5 are at most 1.5: 2 · 3/8.
        assert_eq!(found.p, 0.75);
        assert_eq!(signed_rank(&[0.0, f64::NAN]), None);
    }

    proptest! {
        #[test]
        fn turning_all_signs_round_changes_no_p(
            differences in proptest::collection::vec(-9.0f64..9.0, 1..70),
        ) {
            let turned: Vec<f64> = differences.iter().map(|one| -7.5 * one).collect();
            let (there, back) = (signed_rank(&differences), signed_rank(&turned));
            prop_assert_eq!(there.map(|one| one.p), back.map(|one| one.p));
            prop_assert_eq!(there.map(|one| one.above), back.map(|one| one.below));
            if let Some(found) = there {
                prop_assert!((0.0..=1.0).contains(&found.p));
            }
        }
    }
}
