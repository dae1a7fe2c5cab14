//! Several comparisons at once: p values made so much larger that chance finds something among them no more
//! often than in one (Holm 1979, Scand J Stat 6:65).
//!
//! The smallest of m is multiplied by m, the next by m - 1 and so on; none becomes smaller than the one
//! before it, nor larger than 1.

use crate::signal::places_in_order;

/// The p values adjusted for being several, in the order in which they came.
pub fn holm(ps: &[f64]) -> Vec<f64> {
    let order = places_in_order(ps.iter().copied());
    let mut adjusted = vec![0.0; ps.len()];
    let mut so_far = 0.0_f64;
    for (rank, place) in order.into_iter().enumerate() {
        so_far = so_far.max((ps[place] * (ps.len() - rank) as f64).min(1.0));
        adjusted[place] = so_far;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_by_hand() {
        // In order 0.01 · 3, 0.03 · 2, 0.04 · 1: the last may not be below the one before it.
        assert_eq!(holm(&[0.04, 0.01, 0.03]), [0.06, 0.03, 0.06]);
        assert_eq!(holm(&[0.7, 0.9]), [1.0, 1.0]);
        assert!(holm(&[]).is_empty());
    }
}
