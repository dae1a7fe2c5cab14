//! Where the line jumps: somebody moved, or a cable did.
//!
//! Breathing carries the line up and down over several beats; a movement takes it away from one beat to
//! the next, in the very band of the waves (1 to 10 Hz, from memory), where no filter can part the two.
//! The line of a beat is the median of the trace from its R to the next: over a whole cycle, so that
//! neither QRS nor T moves it, at any rate.

use super::usable::merged;
use crate::analysis::neighbours::median;
use crate::signal::{SampleRate, SampleSpan, Seconds, put_in_order};

/// A line that goes this part of the height of R from one beat to the next jumps (ours; breathing that
/// carries it by a whole R every four seconds goes by six tenths from beat to beat).
const JUMP: f32 = 0.75;
/// Beside a jump the line moves by less than this part of it.
const LEVEL: f32 = 0.25;
/// Beats farther apart than this are no neighbours.
const FARTHEST: Seconds = Seconds::new(2.5);
/// How many samples of a cycle are looked at.
const LOOKED_AT: usize = 61;

/// The stretches around jumps outside those that can't be used, in order. `r`: the samples of R.
pub(crate) fn motion(
    samples: &[f32],
    r: &[usize],
    rate: SampleRate,
    height: f32,
    unusable: &[SampleSpan],
) -> Vec<SampleSpan> {
    let cycles: Vec<(SampleSpan, f32)> = r
        .windows(2)
        .filter_map(|pair| {
            let cycle = samples.get(pair[0]..pair[1])?;
            let stride = cycle.len().div_ceil(LOOKED_AT).max(1);
            Some((
                SampleSpan::new(pair[0], pair[1]),
                median(cycle.iter().step_by(stride).copied())?,
            ))
        })
        .collect();
    let usable = |span: SampleSpan| {
        span.len() <= 3 * rate.count(FARTHEST) && !unusable.iter().any(|other| other.overlaps(span))
    };
    let spanning = |cycles: &[(SampleSpan, f32)]| {
        let (first, last) = (cycles.first()?.0, cycles.last()?.0);
        let span = SampleSpan::new(first.start().get(), last.end().get());
        usable(span).then_some(span)
    };
    let at_once = cycles.windows(2).filter_map(|pair| {
        let jumps = (pair[1].1 - pair[0].1).abs() > JUMP * height;
        jumps.then(|| spanning(pair)).flatten()
    });
    // A jump within a cycle shares itself out over two lines; beyond them the line is level again.
    let shared = cycles.windows(5).filter_map(|five| {
        let rise = (five[3].1 - five[1].1).abs();
        let level = |a: usize, b: usize| (five[a].1 - five[b].1).abs() < LEVEL * rise;
        let jumps = rise > JUMP * height && level(0, 1) && level(3, 4);
        jumps.then(|| spanning(&five[1..4])).flatten()
    });
    let mut jumps: Vec<SampleSpan> = at_once.chain(shared).collect();
    put_in_order(&mut jumps, |span| span.start().get());
    merged(jumps, samples.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f32::consts::TAU;

    #[test]
    fn a_jump_of_the_line_is_motion_and_breathing_is_not() {
        let rate = SampleRate::new(100.0).unwrap();
        for cycle in [32, 80, 150] {
            let trace = |extra: &dyn Fn(usize) -> f32| -> Vec<f32> {
                let beat = |i: usize| match i % cycle {
                    0..8 => 1.0,
                    10..26 => 0.3,
                    _ => 0.0,
                };
                (0..3000).map(|i| beat(i) + extra(i)).collect()
            };
            let r: Vec<usize> = (4..3000).step_by(cycle).collect();
            let found = |trace: &[f32]| motion(trace, &r, rate, 1.0, &[]);
            assert_eq!(found(&trace(&|i| 0.4 * (i as f32 * TAU / 400.0).sin())), [], "{cycle}");
            let jump = found(&trace(&|i| if i < 1500 { 0.0 } else { 0.9 }));
            assert_eq!(jump.len(), 1, "{cycle}");
            assert!(jump[0].start().get() < 1500 && jump[0].end().get() > 1500);
        }
        assert_eq!(motion(&[], &[], rate, 1.0, &[]), []);
    }
}
