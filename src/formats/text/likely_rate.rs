//! Which sampling rates would make a trace of unknown rate a heart at 40 to 200 beats a minute.
//!
//! Beats repeat: the squared slope of the trace is compared with itself at every delay
//! (autocorrelation), and the shortest delay that fits nearly as well as the best is one beat. An RR
//! interval of `n` samples at 40 and 200 a minute means `n * 40 / 60` and `n * 200 / 60` Hz. This only
//! narrows a question to the student; nothing is measured with it.

/// How many samples are looked at.
const LOOK: usize = 16_384;
/// The longest delay looked at.
const LONGEST: usize = 4096;
/// The shortest beat taken for one, in samples: 0.3 s at 40 Hz.
const SHORTEST: usize = 12;

/// The lowest and highest rate in Hz; `None` when nothing repeats clearly. Every sample is finite.
pub(super) fn likely_rates(samples: &[f32]) -> Option<(f64, f64)> {
    let samples = samples.get(..samples.len().min(LOOK))?;
    let mut slope: Vec<f32> = samples
        .windows(3)
        .map(|three| match three {
            [a, _, c] => (c - a) * (c - a),
            _ => 0.0,
        })
        .collect();
    // One wild step must not outweigh all beats.
    let mut sorted = slope.clone();
    sorted.sort_unstable_by(f32::total_cmp);
    let limit = *sorted.get(sorted.len().checked_sub(1 + sorted.len() / 200)?)?;
    let mean = slope.iter().map(|value| value.min(limit)).sum::<f32>() / slope.len() as f32;
    slope.iter_mut().for_each(|value| *value = value.min(limit) - mean);
    let smooth: Vec<f32> = slope.windows(9).map(|part| part.iter().sum()).collect();
    let longest = LONGEST.min(smooth.len() / 2);
    let likeness = |delay: usize| {
        let later = smooth.get(delay..).unwrap_or_default();
        let sum: f32 = smooth.iter().zip(later).map(|(a, b)| a * b).sum();
        sum / later.len().max(1) as f32
    };
    let itself = likeness(0);
    let all: Vec<f32> = (0..longest).map(likeness).collect();
    let best = all.iter().copied().skip(SHORTEST).fold(0.0, f32::max);
    if best < 0.2 * itself || itself <= 0.0 {
        return None;
    }
    let is_peak =
        |three: &[f32]| matches!(three, [a, b, c] if *b >= *a && *b >= *c && *b >= 0.75 * best);
    let beat = 1 + all.windows(3).enumerate().skip(SHORTEST).find(|(_, three)| is_peak(three))?.0;
    Some((beat as f64 * 40.0 / 60.0, beat as f64 * 200.0 / 60.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_beat_every_two_hundred_samples() {
        let trace: Vec<f32> =
            (0..2500).map(|at| (-((at % 200) as f32 - 90.0).powi(2) / 20.0).exp()).collect();
        let (low, high) = likely_rates(&trace).unwrap();
        assert!((low - 133.3).abs() < 1.5 && (high - 666.7).abs() < 7.0, "{low} {high}");
        assert_eq!(likely_rates(&[0.0; 500]), None);
        assert_eq!(likely_rates(&[]), None);
    }
}
