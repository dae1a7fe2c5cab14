//! The centred moving average: each sample becomes the mean of itself and its neighbours.
//!
//! By running sums, so that its cost does not grow with the window. Near an end the window shrinks to
//! what fits on both sides, which keeps straight lines and moves nothing.

/// The mean over `reach` samples to either side, as long as the trace.
pub(crate) fn moving_average(samples: &[f32], reach: usize) -> Vec<f32> {
    let n = samples.len();
    // Sums are taken from the first sample, so that a large offset costs no digits.
    let offset = samples.first().copied().map_or(0.0, f64::from);
    let mut sums = Vec::with_capacity(n + 1);
    let mut sum = 0.0;
    sums.push(sum);
    for &value in samples {
        sum += f64::from(value) - offset;
        sums.push(sum);
    }
    (0..n)
        .map(|i| {
            let reach = reach.min(i).min(n - 1 - i);
            let total = sums[i + reach + 1] - sums[i - reach];
            (offset + total / (2 * reach + 1) as f64) as f32
        })
        .collect()
}
