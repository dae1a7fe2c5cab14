//! Whether the steps of the converter are too coarse to show a P wave.

/// P is about a tenth of R: with fewer than five steps in it, its shape can't be seen (ours; equipment
/// is asked for 5 µV a step, IEC 60601-2-25, from memory).
const STEPS_IN_R: f32 = 50.0;
/// So many samples are enough to meet the smallest step.
const LOOKED_AT: usize = 100_000;

/// Whether the smallest step between neighbours is large beside the height of R.
pub(crate) fn is_coarse(samples: &[f32], height: f32) -> bool {
    let pairs = samples.windows(2).take(LOOKED_AT).map(|pair| (pair[1] - pair[0]).abs());
    let smallest = pairs.filter(|&step| step > 0.0).fold(f32::INFINITY, f32::min);
    smallest.is_finite() && smallest * STEPS_IN_R > height
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eight_steps_in_a_beat_are_coarse_and_a_hundred_are_not() {
        let wave = |steps: f32| -> Vec<f32> {
            (0..500).map(|i| ((i as f32 / 20.0).sin() * steps).round() / steps).collect()
        };
        assert!(is_coarse(&wave(8.0), 1.0));
        assert!(!is_coarse(&wave(100.0), 1.0));
        assert!(!is_coarse(&[1.0; 20], 1.0) && !is_coarse(&[], 0.0));
    }
}
