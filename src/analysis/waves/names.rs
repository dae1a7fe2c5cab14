//! Which deflections of a QRS complex are Q, R and S.
//!
//! Q is the first downward deflection before any upward one, R the first upward one, S the first
//! downward one after it (CSE Working Party 1985, Eur Heart J 6:815). Heights are taken from the level
//! just before the complex. A deflection counts from 30 µV and 6 ms on (IEC 60601-2-51 Annex GG, as
//! quoted in a manual), more than the line does before the complex, and a small share of the whole.
//! A complex that only goes down (QS) has neither Q nor S; its deepest point stands in for R.

use super::super::reading::Polarity;
use crate::signal::{Landmark, Landmarks, Recording, SampleIndex, VoltageUnit};

/// The least height where the unit is known, mV.
const LEAST_HEIGHT: f64 = 0.03;
/// The least height against the whole complex: common practice.
const LEAST_PART: f64 = 0.025;
/// The least duration, s.
const LEAST_DURATION: f64 = 0.006;
/// How long before the complex its level is taken, s.
const LEVEL: f64 = 0.02;

/// Places Q, R and S of a complex.
pub(super) fn name(
    recording: &Recording,
    r: SampleIndex,
    onset: SampleIndex,
    end: SampleIndex,
    polarity: Polarity,
    points: &mut Landmarks,
) {
    points.set(Landmark::R, Some(r));
    let up = if polarity == Polarity::LooksInverted { -1.0 } else { 1.0 };
    let before =
        onset.get().saturating_sub(recording.rate.count(crate::signal::Seconds::new(LEVEL)));
    // At a low rate the first sample of the complex can already be its Q.
    let after = onset.get().max(before + 1);
    let Some(line) = recording.samples.get(before..after) else { return };
    let Some(complex) = recording.samples.get(onset.get()..=end.get()) else { return };
    let level = line.iter().map(|&value| f64::from(value)).sum::<f64>() / line.len() as f64;
    let heights: Vec<f64> = complex.iter().map(|&value| up * (f64::from(value) - level)).collect();
    let wiggle = line.iter().map(|&value| (f64::from(value) - level).abs()).fold(0.0, f64::max);
    let (low, high) = heights
        .iter()
        .fold((0.0f64, 0.0f64), |(low, high), &height| (low.min(height), high.max(height)));
    let known = if recording.unit == VoltageUnit::Millivolt { LEAST_HEIGHT } else { 0.0 };
    let least = known.max(LEAST_PART * (high - low)).max(wiggle);
    let shortest = (LEAST_DURATION * recording.rate.hz()).max(1.0);
    let found = excursions(&heights, least, shortest);

    let at = |index: usize| Some(SampleIndex::new(onset.get() + index));
    let Some(first_up) = found.iter().position(|excursion| excursion.height > 0.0) else { return };
    let (earlier, later) = found.split_at(first_up);
    if let Some(first_down) = earlier.first() {
        points.set(Landmark::Q, at(first_down.peak));
    }
    if let Some(r_wave) = later.first() {
        points.set(Landmark::R, at(r_wave.peak));
    }
    if let Some(s_wave) = later.iter().find(|excursion| excursion.height < 0.0) {
        points.set(Landmark::S, at(s_wave.peak));
    }
}

/// A stretch on one side of the level.
#[derive(Clone, Copy, Debug)]
struct Excursion {
    peak: usize,
    height: f64,
}

/// The stretches that stay farther than `least` from the level for at least `shortest` samples.
fn excursions(heights: &[f64], least: f64, shortest: f64) -> Vec<Excursion> {
    let side = |height: f64| if height.abs() > least { height.signum() } else { 0.0 };
    let mut found = Vec::new();
    let mut start = 0;
    for part in heights.chunk_by(|a, b| side(*a) == side(*b)) {
        let top = part.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        if let Some((peak, &height)) = top
            && side(height) != 0.0
            && part.len() as f64 >= shortest
        {
            found.push(Excursion { peak: start + peak, height });
        }
        start += part.len();
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::SampleRate;

    /// Q, R and S of a complex that is a few triangles of the given heights in mV, 20 ms each.
    fn named(heights: &[f32], polarity: Polarity) -> [Option<usize>; 3] {
        let mut samples = vec![0.0; 100];
        for height in heights {
            samples.extend((0..20).map(|at| height * (1.0 - (at as f32 - 10.0).abs() / 10.0)));
        }
        let end = samples.len();
        samples.extend([0.0; 100]);
        let recording = Recording {
            name: String::new(),
            rate: SampleRate::new(1000.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: samples.into(),
            holes: Vec::new(),
            marks: Vec::new(),
        };
        let mut points = Landmarks::default();
        let at = SampleIndex::new;
        name(&recording, at(110), at(100), at(end), polarity, &mut points);
        [Landmark::Q, Landmark::R, Landmark::S].map(|which| points.at(which).map(SampleIndex::get))
    }

    #[test]
    fn deflections_have_the_names_of_the_textbook() {
        let upright = Polarity::Upright;
        assert_eq!(named(&[-0.1, 1.0, -0.3], upright), [Some(110), Some(130), Some(150)]);
        assert_eq!(named(&[1.0], upright), [None, Some(110), None]);
        assert_eq!(named(&[0.2, -1.0], upright), [None, Some(110), Some(130)], "rS");
        assert_eq!(named(&[1.0, -0.3, 0.4], upright), [None, Some(110), Some(130)], "Rsr'");
        assert_eq!(named(&[-1.0], upright), [None, Some(110), None], "QS: its deepest point");
        assert_eq!(named(&[-0.01, 1.0], upright), [None, Some(130), None], "10 µV are no q");
    }

    #[test]
    fn a_trace_upside_down_is_named_as_if_turned_over() {
        let found = named(&[0.1, -1.0, 0.3], Polarity::LooksInverted);
        assert_eq!(found, [Some(110), Some(130), Some(150)]);
    }
}
