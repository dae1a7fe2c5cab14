//! Second-order sections run forward and then back: twice the attenuation and no delay at all.
//!
//! Both ends are continued by the trace turned about its end point (odd reflection), which keeps
//! value and slope, and each pass starts in the state it would have after a constant input of its
//! first value, so there is no transient at the ends (Gustafsson 1996, IEEE Trans Signal Process
//! 44:988, for why the ends matter; the reflection is common practice). Sums run in `f64`.

use biquad::{Biquad, Coefficients, DirectForm2Transposed};

/// Several periods of the slowest frequency, by when an end has been forgotten.
const PERIODS: usize = 2;

/// How many samples are filtered at a time: what the first pass leaves takes twice the room of the
/// trace, and is let go block by block.
const BLOCK: usize = 1 << 14;

/// A filtered copy. `memory` is the period of the slowest frequency in samples.
pub(super) fn run(sections: &[Coefficients<f64>], memory: usize, samples: &[f32]) -> Vec<f32> {
    let (Some(&first), Some(&last)) = (samples.first(), samples.last()) else {
        return Vec::new();
    };
    let padding = (PERIODS * memory).min(samples.len() - 1);
    let turned = |about: f32, value: f32| 2.0 * f64::from(about) - f64::from(value);
    let before = samples[1..=padding].iter().rev().map(|&value| turned(first, value));
    let after = samples[samples.len() - 1 - padding..samples.len() - 1].iter().rev();
    let signal = before
        .chain(samples.iter().copied().map(f64::from))
        .chain(after.map(|&value| turned(last, value)));
    let mut blocks = forward(sections, signal);
    let Some(&end) = blocks.last().and_then(|block| block.last()) else { return Vec::new() };
    let mut pass = Pass::settled(sections, end);
    let mut done: Vec<Vec<f32>> = Vec::with_capacity(blocks.len());
    while let Some(block) = blocks.pop() {
        done.push(block.iter().rev().map(|&value| pass.run(value) as f32).collect());
    }
    let mut filtered = Vec::with_capacity(samples.len());
    let mut skipped = 0;
    for block in done.iter().rev() {
        let before = padding.saturating_sub(skipped).min(block.len());
        let room = samples.len() - filtered.len();
        filtered.extend(block.iter().rev().skip(before).take(room));
        skipped += before;
    }
    filtered
}

/// The first pass.
fn forward(sections: &[Coefficients<f64>], signal: impl Iterator<Item = f64>) -> Vec<Vec<f64>> {
    let mut signal = signal.peekable();
    let Some(&start) = signal.peek() else { return Vec::new() };
    let mut pass = Pass::settled(sections, start);
    let mut blocks = Vec::new();
    while signal.peek().is_some() {
        blocks.push(signal.by_ref().take(BLOCK).map(|value| pass.run(value)).collect());
    }
    blocks
}

/// One pass through all sections.
struct Pass(Vec<DirectForm2Transposed<f64>>);

impl Pass {
    /// As it would be after this input had gone on for ever.
    fn settled(sections: &[Coefficients<f64>], input: f64) -> Self {
        let mut settled = input;
        let sections = sections.iter().map(|&section| {
            let (state, output) = steady(section, settled);
            settled = output;
            state
        });
        Self(sections.collect())
    }

    fn run(&mut self, value: f64) -> f64 {
        self.0.iter_mut().fold(value, |input, section| section.run(input))
    }
}

/// The state and output of a section after a constant input has gone on for ever.
fn steady(section: Coefficients<f64>, input: f64) -> (DirectForm2Transposed<f64>, f64) {
    let Coefficients { a1, a2, b0, b1, b2 } = section;
    let output = input * (b0 + b1 + b2) / (1.0 + a1 + a2);
    let mut state = DirectForm2Transposed::<f64>::new(section);
    state.s2 = b2 * input - a2 * output;
    state.s1 = b1 * input - a1 * output + state.s2;
    (state, output)
}

#[cfg(test)]
mod tests {
    use super::super::Filter;
    use crate::signal::{Hertz, SampleRate};
    use proptest::prelude::*;

    fn low_pass() -> Filter {
        Filter::low_pass(SampleRate::new(250.0).unwrap(), Hertz::new(40.0))
    }

    #[test]
    fn a_constant_and_a_straight_line_pass_a_low_pass_untouched() {
        let line: Vec<f32> = (0..400).map(|i| 5.0 + 0.25 * i as f32).collect();
        for (kept, was) in low_pass().apply(&line).iter().zip(&line) {
            assert!((kept - was).abs() < 1e-3, "{kept} {was}");
        }
        assert!(low_pass().apply(&[]).is_empty());
        assert_eq!(low_pass().apply(&[7.0]), [7.0]);
    }

    proptest! {
        #[test]
        fn turning_time_round_turns_the_result_round(
            samples in proptest::collection::vec(-2.0f32..2.0, 200..400),
        ) {
            let reversed: Vec<f32> = samples.iter().rev().copied().collect();
            let there = low_pass().apply(&samples);
            let back = low_pass().apply(&reversed);
            // Ends apart, where a pass begins in its settled state, the two agree.
            for i in 60..samples.len() - 60 {
                prop_assert!((there[i] - back[samples.len() - 1 - i]).abs() < 1e-4);
            }
        }
    }
}
