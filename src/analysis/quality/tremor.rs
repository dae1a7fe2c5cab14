//! Where muscles tremble under the trace: fine fuzz between beats.
//!
//! Muscle has its power from about 20 Hz up (SENIAM: 10 or 20 to 500 Hz), where between two complexes
//! a heart has next to none. The spread of each second above [`ABOVE`] is taken from the median of the
//! absolute values over 0.6745 (that of a normal distribution), which a complex in it does not move.

use super::usable::merged;
use crate::analysis::filter::Filter;
use crate::signal::{Hertz, SampleRate, SampleSpan, Seconds};

/// Above P, T and most of QRS, below most of the power of muscle.
const ABOVE: Hertz = Hertz::new(25.0);
/// What is judged at a time, and how far apart.
const WINDOW: Seconds = Seconds::new(1.0);
const STEP: Seconds = Seconds::new(0.5);
/// Fuzz with a spread above this part of the height of R hides small waves: P is about an eighth (ours).
const FUZZ: f32 = 0.04;
/// The part of a normal distribution's spread that half of it lies within.
const HALF: f32 = 0.6745;

/// The trembling stretches outside those that can't be used, in order. `quiet` is the trace without hum,
/// `height` that of R.
pub(crate) fn tremor(
    quiet: &[f32],
    rate: SampleRate,
    height: f32,
    unusable: &[SampleSpan],
) -> Vec<SampleSpan> {
    let window = rate.count(WINDOW);
    // Below twice the corner there is no band to look into.
    if quiet.len() < window || rate.nyquist().hertz() < 1.5 * ABOVE.hertz() || height <= 0.0 {
        return Vec::new();
    }
    let fine = Filter::high_pass(rate, ABOVE).apply(quiet);
    // The median lies above a limit where more than half of the values do: nothing has to be ordered.
    let limit = FUZZ * height * HALF;
    let trembles = |span: &SampleSpan| {
        let above = |value: &&f32| value.abs() > limit;
        2 * fine[span.range()].iter().filter(above).count() > window
    };
    let starts = (0..=fine.len() - window).step_by(rate.count(STEP).max(1));
    let spans = starts
        .map(|start| SampleSpan::new(start, start + window))
        .filter(|span| !unusable.iter().any(|other| other.overlaps(*span)))
        .filter(trembles);
    merged(spans, quiet.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fuzz_between_beats_is_found_where_it_is() {
        let rate = SampleRate::new(500.0).unwrap();
        let beat = |i: usize| (-(((i % 400) as f32 - 200.0) / 6.0).powi(2)).exp();
        let mut seed = 1_u32;
        let mut noise = move || {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (seed >> 8) as f32 / 8_388_608.0 - 1.0
        };
        let still: Vec<f32> = (0..5000).map(beat).collect();
        assert_eq!(tremor(&still, rate, 1.0, &[]), []);
        let mut tense = still;
        tense[2000..3500].iter_mut().for_each(|value| *value += 0.2 * noise());
        let found = tremor(&tense, rate, 1.0, &[]);
        assert_eq!(found.len(), 1);
        assert!(
            found[0].start().get().abs_diff(2000) <= 250
                && found[0].end().get().abs_diff(3500) <= 250
        );
        assert_eq!(tremor(&[0.0; 10], rate, 1.0, &[]), []);
        assert_eq!(tremor(&tense, SampleRate::new(50.0).unwrap(), 1.0, &[]), []);
    }
}
