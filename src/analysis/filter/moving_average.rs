//! The centred moving average: each sample becomes the mean of itself and its neighbours.
//!
//! By two running sums, one that leads the window and one that trails it: neither the cost nor the room
//! grows with the window. Near an end the window shrinks to what fits on both sides, which keeps straight
//! lines and moves nothing.

/// The mean over `reach` samples to either side, as long as the trace.
pub(crate) fn moving_average(samples: &[f32], reach: usize) -> Vec<f32> {
    let n = samples.len();
    // Sums are taken from the first sample, so that a large offset costs no digits.
    let offset = samples.first().copied().map_or(0.0, f64::from);
    let (mut leading, mut trailing) = (Sum::new(samples, offset), Sum::new(samples, offset));
    (0..n)
        .map(|i| {
            let reach = reach.min(i).min(n - 1 - i);
            let total = leading.of_first(i + reach + 1) - trailing.of_first(i - reach);
            (offset + total / (2 * reach + 1) as f64) as f32
        })
        .collect()
}

/// The sum of the first samples, less an offset each, as it grows.
struct Sum<'a> {
    rest: std::slice::Iter<'a, f32>,
    offset: f64,
    sum: f64,
    count: usize,
}

impl<'a> Sum<'a> {
    fn new(samples: &'a [f32], offset: f64) -> Self {
        Self { rest: samples.iter(), offset, sum: 0.0, count: 0 }
    }

    /// The sum of so many samples, no fewer than before.
    fn of_first(&mut self, count: usize) -> f64 {
        for value in self.rest.by_ref().take(count.saturating_sub(self.count)) {
            self.sum += f64::from(*value) - self.offset;
            self.count += 1;
        }
        self.sum
    }
}
