//! Second-order sections run forward and then back: twice the attenuation and no delay at all.
//!
//! Both ends are continued by the trace turned about its end point (odd reflection), which keeps
//! value and slope, and each pass starts in the state it would have after a constant input of its
//! first value, so there is no transient at the ends (Gustafsson 1996, IEEE Trans Signal Process
//! 44:988, for why the ends matter; the reflection is common practice). Sums run in `f64`.
//!
//! A long trace is filtered piece by piece, so that little room is needed. A section waits for its last
//! value before it can take the next; so each piece is cut into [`LANES`] stretches that go through side
//! by side. Pieces and stretches set out early enough to have forgotten where they began.

use biquad::Coefficients;
use std::array::from_fn;

/// Several periods of the slowest frequency, by when an end has been forgotten.
const PERIODS: usize = 2;

/// How many samples are filtered at a time: what fits into a cache.
const PIECE: usize = 1 << 17;

/// How many stretches go through side by side.
const LANES: usize = 4;

/// How many periods of the slowest frequency early one sets out. In each a start shrinks to a
/// twentieth or less (exp -3.6 at a high-pass, exp -π at a notch): eight leave less than an `f32` tells.
const EARLY: usize = 8;

/// A filtered copy. `memory` is the period of the slowest frequency in samples.
pub(super) fn run(sections: &[Coefficients<f64>], memory: usize, samples: &[f32]) -> Vec<f32> {
    let (Some(&first), Some(&last)) = (samples.first(), samples.last()) else {
        return Vec::new();
    };
    let padding = (PERIODS * memory).min(samples.len() - 1);
    let turned = |about: f32, value: f32| 2.0 * f64::from(about) - f64::from(value);
    let before = samples[1..=padding].iter().rev().map(|&value| turned(first, value));
    let after = samples[samples.len() - 1 - padding..samples.len() - 1].iter().rev();
    let after = after.map(|&value| turned(last, value));
    let early = EARLY * memory;
    let (mut filtered, mut signal) = (vec![0.0; samples.len()], Vec::new());
    let (mut start, piece) = (0_usize, PIECE.max(4 * early));
    for part in filtered.chunks_mut(piece) {
        let (from, to) =
            (start.saturating_sub(early), (start + part.len() + early).min(samples.len()));
        signal.clear();
        if from == 0 {
            signal.extend(before.clone());
        }
        let skipped = signal.len() + start - from;
        signal.extend(samples[from..to].iter().copied().map(f64::from));
        if to == samples.len() {
            signal.extend(after.clone());
        }
        pass(sections, early, &mut signal);
        signal.reverse();
        pass(sections, early, &mut signal);
        let values = signal.iter().rev().skip(skipped);
        part.iter_mut().zip(values).for_each(|(place, &value)| *place = value as f32);
        start += part.len();
    }
    filtered
}

/// Runs a signal through all sections, each value in its place.
fn pass(sections: &[Coefficients<f64>], early: usize, signal: &mut [f64]) {
    let Some(&start) = signal.first() else { return };
    let stretch = Some(signal.len() / LANES).filter(|&stretch| stretch > early).unwrap_or(0);
    let early = early.min(stretch);
    let ahead = |step: usize| {
        from_fn(|lane| if lane == 0 { start } else { signal[lane * stretch - early + step] })
    };
    let mut sections = settled(sections, if stretch == 0 { [start; LANES] } else { ahead(0) });
    for step in 0..early {
        through(&mut sections, ahead(step));
    }
    let (side_by_side, rest) = signal.split_at_mut(LANES * stretch);
    let mut lanes = side_by_side.chunks_exact_mut(stretch.max(1));
    if let [Some(a), Some(b), Some(c), Some(d)] = from_fn(|_| lanes.next()) {
        for (((a, b), c), d) in a.iter_mut().zip(b).zip(c).zip(d) {
            [*a, *b, *c, *d] = through(&mut sections, [*a, *b, *c, *d]);
        }
    }
    for value in rest {
        [.., *value] = through(&mut sections, [*value; LANES]);
    }
}

/// All sections as they would be after these inputs had gone on for ever.
fn settled(sections: &[Coefficients<f64>], mut inputs: [f64; LANES]) -> Vec<Section> {
    let section = |&section: &Coefficients<f64>| {
        let (state, outputs) = Section::settled(section, inputs);
        inputs = outputs;
        state
    };
    sections.iter().map(section).collect()
}

#[inline]
fn through(sections: &mut [Section], values: [f64; LANES]) -> [f64; LANES] {
    sections.iter_mut().fold(values, |values, section| section.run(values))
}

/// One section in the transposed direct form, with the output put into the equations of its state: each
/// state then waits for one product and one difference of the state before it, and no more.
struct Section {
    forward: [f64; 3],
    back: [f64; 2],
    first: [f64; LANES],
    second: [f64; LANES],
}

impl Section {
    /// The state and outputs after constant inputs have gone on for ever.
    fn settled(section: Coefficients<f64>, inputs: [f64; LANES]) -> (Self, [f64; LANES]) {
        let Coefficients { a1, a2, b0, b1, b2 } = section;
        let outputs = inputs.map(|input| input * (b0 + b1 + b2) / (1.0 + a1 + a2));
        let settled = Self {
            forward: [b0, b1 - a1 * b0, b2 - a2 * b0],
            back: [a1, a2],
            first: from_fn(|lane| outputs[lane] - b0 * inputs[lane]),
            second: from_fn(|lane| b2 * inputs[lane] - a2 * outputs[lane]),
        };
        (settled, outputs)
    }

    #[inline]
    fn run(&mut self, values: [f64; LANES]) -> [f64; LANES] {
        let ([now, next, after], [a1, a2]) = (self.forward, self.back);
        let (first, second) = (self.first, self.second);
        self.first = from_fn(|lane| next * values[lane] + second[lane] - a1 * first[lane]);
        self.second = from_fn(|lane| after * values[lane] - a2 * first[lane]);
        from_fn(|lane| now * values[lane] + first[lane])
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

    #[test]
    fn a_long_trace_is_filtered_as_if_in_one_piece() {
        let rate = SampleRate::new(250.0).unwrap();
        let filter = Filter::band_pass(rate, Hertz::new(0.5), Hertz::new(40.0));
        let mut random = oorandom::Rand32::new(7);
        let noise: Vec<f32> = (0..300_000).map(|_| 100.0 + random.rand_float()).collect();
        let whole = filter.apply(&noise);
        // A part too short to be cut up, with room on both sides for its ends to be forgotten.
        for start in [0, 60_000, 124_000, 200_000, 285_000] {
            let part = filter.apply(&noise[start..start + 15_000]);
            for at in 6000..9000 {
                assert!((part[at] - whole[start + at]).abs() < 2e-6, "{start} {at}");
            }
        }
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
