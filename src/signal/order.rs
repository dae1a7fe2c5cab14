//! Putting things in the order of a number, or of their keys.
//!
//! The numbers are sorted and the things then moved, so that there is one sort for all kinds of things: each
//! of its own would add 4 kB to the program.

use std::collections::BTreeMap;

/// Puts a list in the order of its numbers; what has the same number keeps its order.
pub fn put_in_order<T>(list: &mut [T], number: impl Fn(&T) -> usize) {
    let moves = moves(list.iter().map(number).collect());
    for (to, from) in moves.into_iter().enumerate() {
        list.swap(to, from);
    }
}

/// The places of such values in the order of the values; equal ones keep theirs.
pub fn places_in_order(values: impl Iterator<Item = f64>) -> Vec<usize> {
    let mut order: Vec<(f64, usize)> = values.zip(0..).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    order.into_iter().map(|(_, place)| place).collect()
}

/// A map of these entries. To collect one would sort them first, in a way of its own for each kind of entry.
pub fn map_of<K: Ord, V>(entries: impl Iterator<Item = (K, V)>) -> BTreeMap<K, V> {
    let mut map = BTreeMap::new();
    map.extend(entries);
    map
}

/// With which place each place is swapped, one after the other.
fn moves(numbers: Vec<usize>) -> Vec<usize> {
    let mut order: Vec<(usize, usize)> = numbers.into_iter().zip(0..).collect();
    order.sort_unstable();
    let mut from: Vec<usize> = order.into_iter().map(|(_, place)| place).collect();
    for place in 0..from.len() {
        // What was there before has gone where the swaps so far took it.
        while from[place] < place {
            from[place] = from[from[place]];
        }
    }
    from
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_is_a_stable_sort(numbers in proptest::collection::vec(0_usize..20, 0..60)) {
            let mut ours: Vec<(usize, usize)> = numbers.into_iter().zip(0..).collect();
            let mut theirs = ours.clone();
            put_in_order(&mut ours, |&(number, _)| number);
            theirs.sort_by_key(|&(number, _)| number);
            prop_assert_eq!(ours, theirs);
        }

        #[test]
        fn equal_values_keep_their_places(values in proptest::collection::vec(-3_i8..3, 0..60)) {
            let values: Vec<f64> = values.into_iter().map(f64::from).collect();
            let mut theirs: Vec<usize> = (0..values.len()).collect();
            theirs.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
            prop_assert_eq!(places_in_order(values.into_iter()), theirs);
        }
    }
}
