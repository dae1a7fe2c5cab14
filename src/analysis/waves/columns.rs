//! Puts every column of some rows in order, all columns at once.
//!
//! Which two rows are compared next does not depend on their values (Batcher's odd-even merge exchange,
//! 1968; Knuth, The Art of Computer Programming 3, 5.2.2 M). So whole rows go through one comparison after
//! the other, several columns at a time and without a guess, where sorting each column by itself would
//! guess wrong at every other step. Values are numbers, infinity among them; no rows are no work.

/// Orders each column, the smallest value in the first row. All rows are of one length.
pub(super) fn ascend(rows: &mut [&mut [f64]]) {
    let largest = rows.len().next_power_of_two() / 2;
    let mut step = largest;
    while step > 0 {
        let (mut reach, mut apart, mut phase) = (largest, step, 0);
        loop {
            for upper in (0..rows.len().saturating_sub(apart)).filter(|row| row & step == phase) {
                let (above, below) = rows.split_at_mut(upper + apart);
                if let (Some(low), Some(high)) = (above.get_mut(upper), below.first_mut()) {
                    exchange(low, high);
                }
            }
            if reach == step {
                break;
            }
            (apart, phase) = (reach - step, step);
            reach /= 2;
        }
        step /= 2;
    }
}

/// The smaller values into one row, the larger ones into the other.
fn exchange(low: &mut [f64], high: &mut [f64]) {
    for (low, high) in low.iter_mut().zip(high) {
        let (one, other) = (*low, *high);
        (*low, *high) = if one < other { (one, other) } else { (other, one) };
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn columns_are_as_if_each_were_sorted(
            mut rows in proptest::collection::vec(proptest::collection::vec(-9.0..9.0, 3), 0..40),
        ) {
            let column = |rows: &[Vec<f64>], at: usize| -> Vec<f64> {
                rows.iter().map(|row| row[at]).collect()
            };
            let mut right = [0, 1, 2].map(|at| column(&rows, at));
            right.iter_mut().for_each(|column| column.sort_unstable_by(f64::total_cmp));
            ascend(&mut rows.iter_mut().map(Vec::as_mut_slice).collect::<Vec<_>>());
            prop_assert_eq!([0, 1, 2].map(|at| column(&rows, at)), right);
        }
    }
}
