//! Where a curve turns: tops and bottoms that are far enough apart to be meant.
//!
//! A turn counts once the curve has come back from it by at least a given height, so that ripples on the way
//! are passed over (common practice). The first one found may only be where the curve begins, and the last
//! where it ends: neither is given.

use super::breath::Breath;
use crate::signal::{SampleIndex, SampleRate};

/// How far a curve has to come back, as a part of the height that four fifths of it keep within.
const COMES_BACK: f64 = 0.3;

/// A turn of a curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Turn {
    at: usize,
    is_top: bool,
}

/// From bottom to bottom of a curve, each with the top between. A flat curve has none.
pub(super) fn breaths_of(curve: &[f32], rate: SampleRate) -> Vec<Breath> {
    let height = usual_height(curve);
    if height <= 0.0 {
        return Vec::new();
    }
    let moment = |turn: &Turn| rate.time_of(SampleIndex::new(turn.at));
    let turns = turns(curve, COMES_BACK * height);
    turns
        .windows(3)
        .filter_map(|three| match three {
            [start, top, end] if top.is_top => {
                Some(Breath { start: moment(start), out: Some(moment(top)), end: moment(end) })
            }
            _ => None,
        })
        .collect()
}

/// From the tenth to the ninetieth of a hundred values.
pub(super) fn usual_height(curve: &[f32]) -> f64 {
    let mut sorted = curve.to_vec();
    sorted.sort_unstable_by(f32::total_cmp);
    let last = sorted.len().saturating_sub(1);
    let part = |tenths: usize| sorted.get(last * tenths / 10).copied().map_or(0.0, f64::from);
    part(9) - part(1)
}

fn turns(curve: &[f32], least: f64) -> Vec<Turn> {
    let mut found = Vec::new();
    let Some(&first) = curve.first() else { return found };
    let (mut high, mut low) = ((0, f64::from(first)), (0, f64::from(first)));
    let mut rising = None;
    for (at, value) in curve.iter().map(|&value| f64::from(value)).enumerate() {
        if value > high.1 {
            high = (at, value);
        }
        if value < low.1 {
            low = (at, value);
        }
        if rising != Some(true) && value - low.1 >= least {
            if rising.is_some() {
                found.push(Turn { at: low.0, is_top: false });
            }
            (rising, high) = (Some(true), (at, value));
        } else if rising != Some(false) && high.1 - value >= least {
            if rising.is_some() {
                found.push(Turn { at: high.0, is_top: true });
            }
            (rising, low) = (Some(false), (at, value));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::TAU;

    #[test]
    fn a_wave_with_ripples_has_its_own_turns_only() {
        // Ten breaths of 4 s at 10 a second, bottoms at 1, 5, 9 … s; the ripple is 0.1 high.
        let wave = |i: u32| {
            let t = f64::from(i) / 10.0;
            -(TAU * t / 4.0).sin() + 0.1 * (TAU * t / 0.5).sin()
        };
        let curve: Vec<f32> = (0..400).map(|i| wave(i) as f32).collect();
        let breaths = breaths_of(&curve, SampleRate::new(10.0).unwrap());
        assert_eq!(breaths.len(), 9);
        for (number, breath) in breaths.iter().enumerate() {
            assert!((breath.start.seconds() - 1.0 - 4.0 * number as f64).abs() <= 0.3);
            assert!((breath.out.unwrap().seconds() - 3.0 - 4.0 * number as f64).abs() <= 0.3);
        }
    }

    #[test]
    fn a_flat_curve_and_an_empty_one_have_no_breath() {
        let rate = SampleRate::new(10.0).unwrap();
        assert!(breaths_of(&[0.5; 300], rate).is_empty());
        assert!(breaths_of(&[], rate).is_empty());
    }

    proptest! {
        #[test]
        fn breaths_follow_each_other(curve in proptest::collection::vec(any::<f32>(), 0..200)) {
            let breaths = breaths_of(&curve, SampleRate::new(4.0).unwrap());
            for breath in &breaths {
                prop_assert!(breath.start < breath.end);
                prop_assert!(breath.out.is_some_and(|out| breath.holds(out)));
            }
            prop_assert!(breaths.windows(2).all(|pair| pair[0].end <= pair[1].start));
        }
    }
}
