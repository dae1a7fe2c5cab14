//! The centred moving average: each sample becomes the mean of itself and its neighbours.
//!
//! By running sums, of which only those in reach are kept: neither its cost nor its room grows with the
//! trace times the window. Near an end the window shrinks to
//! what fits on both sides, which keeps straight lines and moves nothing.

use std::collections::VecDeque;

/// The mean over `reach` samples to either side, as long as the trace.
pub(crate) fn moving_average(samples: &[f32], reach: usize) -> Vec<f32> {
    let n = samples.len();
    // Sums are taken from the first sample, so that a large offset costs no digits.
    let offset = samples.first().copied().map_or(0.0, f64::from);
    let mut rest = samples.iter();
    // The sums of the first `first`, `first + 1`, … samples.
    let (mut first, mut sums) = (0, VecDeque::from([0.0]));
    let mut sum = 0.0;
    (0..n)
        .map(|i| {
            while first + sums.len() <= i.saturating_add(reach).saturating_add(1) {
                let Some(&value) = rest.next() else { break };
                sum += f64::from(value) - offset;
                sums.push_back(sum);
            }
            while first < i.saturating_sub(reach) {
                sums.pop_front();
                first += 1;
            }
            let reach = reach.min(i).min(n - 1 - i);
            let total = sums[i + reach + 1 - first] - sums[i - reach - first];
            (offset + total / (2 * reach + 1) as f64) as f32
        })
        .collect()
}
