//! R on its peak: the largest deflection of each complex in the direction this trace prefers.
//!
//! Measured on a copy without wander, hum and muscle (0.67 … 40 Hz, AHA 2007 for zero-phase filters),
//! from the median of the 500 ms around, so a drifting line does not move it. Most complexes decide
//! which way is up; a single one that goes the other way, as an early beat may, is marked there.

use crate::analysis::neighbours::median;
use crate::signal::{SampleRate, SampleSpan, Seconds};
use std::ops::Range;

/// R lies within this of the steepest moment.
const REACH: Seconds = Seconds::new(0.080);
/// The line that heights are measured from is the median of this much on either side.
const AROUND: Seconds = Seconds::new(0.250);
/// How many samples of it are looked at.
const LOOKED_AT: usize = 51;
/// Downward deflections must be this much larger before a trace counts as pointing down: where both
/// are alike, R is the upward one by definition.
const DOWN: f32 = 1.2;
/// A complex with less than this part of its height in the usual direction is marked in the other.
const OTHER_WAY: f32 = 0.4;

/// How far one complex goes up and down, and where.
#[derive(Clone, Copy, Debug)]
struct Swing {
    up: f32,
    top: usize,
    down: f32,
    bottom: usize,
}

/// The beats of a trace on their peaks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Placed {
    /// The sample of each R, rising.
    pub(crate) r: Vec<usize>,
    /// The median height of R over the line around it, in units of the trace.
    pub(crate) height: f32,
    /// Whether most complexes point down.
    pub(crate) downward: bool,
}

/// Moves each mark onto its peak, never into a stretch that can't be used. `light` is the trace
/// without wander, hum and muscle.
pub(crate) fn place(
    light: &[f32],
    marks: &[usize],
    rate: SampleRate,
    unusable: &[SampleSpan],
) -> Placed {
    let swings = swings(light, marks, rate, unusable);
    let (height, downward) = usual(&swings);
    let peak = |swing: &Swing| {
        let (usual, other) = ((swing.up, swing.top), (swing.down, swing.bottom));
        let (usual, other) = if downward { (other, usual) } else { (usual, other) };
        if usual.0 < OTHER_WAY * other.0 { other.1 } else { usual.1 }
    };
    let mut r: Vec<usize> = swings.iter().map(peak).collect();
    r.sort_unstable();
    r.dedup();
    Placed { r, height, downward }
}

/// The same for beats that stay exactly where they are.
pub(crate) fn stay(
    light: &[f32],
    r: Vec<usize>,
    rate: SampleRate,
    unusable: &[SampleSpan],
) -> Placed {
    let (height, downward) = usual(&swings(light, &r, rate, unusable));
    Placed { r, height, downward }
}

fn swings(light: &[f32], at: &[usize], rate: SampleRate, unusable: &[SampleSpan]) -> Vec<Swing> {
    at.iter()
        .filter_map(|&at| swing(light, at, rate, usable_around(at, unusable, light.len())))
        .collect()
}

/// The usual height of R, and whether it points down.
fn usual(swings: &[Swing]) -> (f32, bool) {
    let up = median(swings.iter().map(|swing| swing.up)).unwrap_or(0.0);
    let down = median(swings.iter().map(|swing| swing.down)).unwrap_or(0.0);
    let downward = down > DOWN * up;
    (if downward { down } else { up }, downward)
}

/// The unbroken stretch that a mark lies in.
fn usable_around(at: usize, unusable: &[SampleSpan], samples: usize) -> Range<usize> {
    let after = unusable.partition_point(|span| span.end().get() <= at);
    let start = after.checked_sub(1).and_then(|before| unusable.get(before));
    let end = unusable.get(after);
    start.map_or(0, |span| span.end().get())..end.map_or(samples, |span| span.start().get())
}

fn swing(light: &[f32], at: usize, rate: SampleRate, usable: Range<usize>) -> Option<Swing> {
    let (reach, around) = (rate.count(REACH).max(1), rate.count(AROUND).max(1));
    let stretch =
        light.get(at.saturating_sub(around)..light.len().min(at.saturating_add(around + 1)))?;
    let line = median(stretch.iter().step_by(stretch.len().div_ceil(LOOKED_AT)).copied())?;
    let places =
        at.saturating_sub(reach).max(usable.start)..light.len().min(at + reach + 1).min(usable.end);
    let top = places.clone().max_by(|&a, &b| light[a].total_cmp(&light[b]).then(b.cmp(&a)))?;
    let bottom = places.min_by(|&a, &b| light[a].total_cmp(&light[b]).then(a.cmp(&b)))?;
    Some(Swing { up: light[top] - line, top, down: line - light[bottom], bottom })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mark_goes_to_the_big_wave_whichever_way_it_points() {
        let rate = SampleRate::new(250.0).unwrap();
        let wave = |sign: f32| {
            let mut light = vec![0.0; 1000];
            for at in [200, 400, 600, 800] {
                (light[at - 6], light[at], light[at + 6]) = (-0.1 * sign, sign, -0.3 * sign);
            }
            light
        };
        for sign in [1.0, -1.0] {
            let placed = place(&wave(sign), &[196, 405, 598, 806], rate, &[]);
            assert_eq!(placed.r, [200, 400, 600, 800]);
            assert_eq!((placed.height, placed.downward), (1.0, sign < 0.0));
        }
        assert!(place(&[], &[], rate, &[]).r.is_empty());
    }

    #[test]
    fn a_mark_beside_a_hole_stays_out_of_it() {
        let rate = SampleRate::new(250.0).unwrap();
        let mut light = vec![0.0; 400];
        (light[203], light[206]) = (1.0, 2.0);
        let hole = [SampleSpan::new(0, 90), SampleSpan::new(205, 300)];
        assert_eq!(place(&light, &[200], rate, &hole).r, [203]);
        assert_eq!(place(&light, &[200], rate, &[]).r, [206]);
    }
}
