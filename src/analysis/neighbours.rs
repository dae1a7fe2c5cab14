//! What is usual around one place in a list: the median of the nearest entries on both sides.

/// The `count` entries around a place, fewer when the list is shorter; near an end all from one side.
pub(crate) fn nearest<T>(all: &[T], place: usize, count: usize) -> &[T] {
    let start = place.saturating_sub(count / 2).min(all.len().saturating_sub(count));
    &all[start..(start + count).min(all.len())]
}

/// The middle value; of an even number the mean of the middle two.
pub(crate) fn median(values: impl IntoIterator<Item = f32>) -> Option<f32> {
    let mut values: Vec<f32> = values.into_iter().collect();
    let n = values.len();
    if n == 0 {
        return None;
    }
    let (lower, &mut upper, _) = values.select_nth_unstable_by(n / 2, f32::total_cmp);
    let below = lower.iter().copied().max_by(f32::total_cmp).filter(|_| n.is_multiple_of(2));
    Some(below.map_or(upper, |below| f32::midpoint(below, upper)))
}

/// What a quarter of some values stay below, judged by about `looked_at` of them; `None` of none.
pub(crate) fn lower_quartile(values: &[f32], looked_at: usize) -> Option<f32> {
    let stride = values.len().div_ceil(looked_at).max(1);
    let mut looked_at: Vec<f32> = values.iter().step_by(stride).copied().collect();
    let quarter = looked_at.len() / 4;
    (!looked_at.is_empty()).then(|| *looked_at.select_nth_unstable_by(quarter, f32::total_cmp).1)
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
    fn a_quarter_lies_below_the_lower_quartile() {
        let all: Vec<f32> = (0..100_u8).rev().map(f32::from).collect();
        assert_eq!(lower_quartile(&all, 100), Some(25.0));
        // Every other value: 99, 97 … 1.
        assert_eq!(lower_quartile(&all, 50), Some(25.0));
        assert_eq!(lower_quartile(&[], 8), None);
    }

    #[test]
    fn the_median_of_an_even_number_is_between_two() {
        assert_eq!(median([3.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(median([4.0, 1.0, 2.0, 3.0]), Some(2.5));
        assert_eq!(median([]), None);
    }
}
