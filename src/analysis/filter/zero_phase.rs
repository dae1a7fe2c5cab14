//! Second-order sections run forward and then back: twice the attenuation and no delay at all.
//!
//! Both ends are continued by the trace turned about its end point (odd reflection), which keeps
//! value and slope, and each pass starts in the state it would have after a constant input of its
//! first value, so there is no transient at the ends (Gustafsson 1996, IEEE Trans Signal Process
//! 44:988, for why the ends matter; the reflection is common practice). Sums run in `f64`.

use biquad::Coefficients;

/// How many sections run at once; their states stay in registers.
pub(super) const SECTIONS: usize = 2;

/// Several periods of the slowest frequency, by when an end has been forgotten.
const PERIODS: usize = 2;

/// How many samples are filtered at a time: what the first pass leaves takes twice the room of the
/// trace, and is let go block by block.
const BLOCK: usize = 1 << 14;

/// A filtered copy. `memory` is the period of the slowest frequency in samples.
pub(super) fn run(
    sections: &[Coefficients<f64>; SECTIONS],
    memory: usize,
    samples: &[f32],
) -> Vec<f32> {
    let (Some(&first), Some(&last)) = (samples.first(), samples.last()) else {
        return Vec::new();
    };
    let padding = (PERIODS * memory).min(samples.len() - 1);
    let turned = |about: f32, value: f32| 2.0 * f64::from(about) - f64::from(value);
    let before = samples[1..=padding].iter().rev().map(|&value| turned(first, value));
    let after = samples[samples.len() - 1 - padding..samples.len() - 1].iter().rev();
    let after = after.map(|&value| turned(last, value));

    let mut pass = Pass::settled(sections, before.clone().next().unwrap_or(first.into()));
    pass.through(before).for_each(drop);
    let blocks = samples.chunks(BLOCK).map(|block| block.iter().copied().map(f64::from));
    let mut blocks: Vec<Vec<f64>> = blocks.map(|block| pass.through(block).collect()).collect();
    let mut after: Vec<f64> = pass.through(after).collect();

    let end = after.last().or(blocks.last().and_then(|block| block.last())).copied();
    let mut pass = Pass::settled(sections, end.unwrap_or_default());
    pass.through(after.drain(..).rev()).for_each(drop);
    let mut filtered = vec![0.0; samples.len()];
    for part in filtered.chunks_mut(BLOCK).rev() {
        let Some(block) = blocks.pop() else { break };
        let values = pass.through(block.into_iter().rev());
        part.iter_mut().rev().zip(values).for_each(|(place, value)| *place = value as f32);
    }
    filtered
}

/// One pass through all sections.
struct Pass([Section; SECTIONS]);

impl Pass {
    /// As it would be after this input had gone on for ever.
    fn settled(sections: &[Coefficients<f64>; SECTIONS], input: f64) -> Self {
        let mut settled = input;
        Self(sections.map(|section| {
            let (state, output) = Section::settled(section, settled);
            settled = output;
            state
        }))
    }

    /// The values that come of some values.
    fn through(&mut self, values: impl Iterator<Item = f64>) -> impl Iterator<Item = f64> {
        values.map(|value| self.0.iter_mut().fold(value, |input, section| section.run(input)))
    }
}

/// One section in the transposed direct form, with the output put into the equations of its state: each
/// value then waits for one product and one difference of the value before it, and no more.
#[derive(Clone, Copy)]
struct Section {
    input: [f64; 3],
    back: [f64; 2],
    state: [f64; 2],
}

impl Section {
    /// The state and output after a constant input has gone on for ever.
    fn settled(section: Coefficients<f64>, input: f64) -> (Self, f64) {
        let Coefficients { a1, a2, b0, b1, b2 } = section;
        let output = input * (b0 + b1 + b2) / (1.0 + a1 + a2);
        let state = [output - b0 * input, b2 * input - a2 * output];
        (Self { input: [b0, b1 - a1 * b0, b2 - a2 * b0], back: [a1, a2], state }, output)
    }

    #[inline]
    fn run(&mut self, value: f64) -> f64 {
        let ([now, next, after], [a1, a2], [first, second]) = (self.input, self.back, self.state);
        self.state = [next * value + second - a1 * first, after * value - a2 * first];
        now * value + first
    }
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
