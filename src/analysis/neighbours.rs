//! What is usual around one place in a list: the median of the nearest entries on both sides.

/// The `count` entries around a place, fewer when the list is shorter; near an end all from one side.
pub(crate) fn nearest<T>(all: &[T], place: usize, count: usize) -> &[T] {
    let start = place.saturating_sub(count / 2).min(all.len().saturating_sub(count));
    &all[start..(start + count).min(all.len())]
}

/// The middle value; of an even number the mean of the middle two.
pub(crate) fn median(values: impl IntoIterator<Item = f32>) -> Option<f32> {
    let mut values: Vec<f32> = values.into_iter().collect();
    values.sort_unstable_by(f32::total_cmp);
    let n = values.len();
    let upper = *values.get(n / 2)?;
    Some(if n.is_multiple_of(2) { f32::midpoint(values[n / 2 - 1], upper) } else { upper })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_an_end_the_neighbours_are_all_on_one_side() {
        let all = [0, 1, 2, 3, 4, 5];
        assert_eq!(nearest(&all, 0, 3), [0, 1, 2]);
        assert_eq!(nearest(&all, 3, 3), [2, 3, 4]);
        assert_eq!(nearest(&all, 6, 3), [3, 4, 5]);
        assert_eq!(nearest(&all, 2, 9), all);
        assert!(nearest::<u8>(&[], 0, 3).is_empty());
    }

    #[test]
    fn the_median_of_an_even_number_is_between_two() {
        assert_eq!(median([3.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(median([4.0, 1.0, 2.0, 3.0]), Some(2.5));
        assert_eq!(median([]), None);
    }
}
