//! The typical beat: sample by sample the median of the beats that count.
//!
//! Beats are laid over each other at R, each moved by up to a few milliseconds, and by parts of a
//! sample, to where its complex correlates best with the average of all; values between samples come
//! from a cubic through the four around them (Catmull and Rom 1974). Before that each beat is brought to
//! zero just before its complex, so that a wandering line does not blur them: heights read from
//! there, as the CSE takes QRS amplitudes (Eur Heart J 1985 6:815). The median, unlike the mean, is
//! not moved by a few beats with noise. It is delineated by the code that does single beats.
//!
//! It spans one cycle at the usual rate, two fifths of it before R. Beats that reach over an end of
//! the trace or touch a hole are left out; with fewer than three there is no typical beat.

mod alignment;

use super::reading::{Beat, MedianBeat, Polarity, Standing};
use super::waves;
use crate::signal::{Landmark, Landmarks, Recording, SampleIndex, Seconds, VoltageUnit};
use alignment::{Place, aligned};

/// The fewest beats that make a typical one.
const FEWEST: usize = 3;
/// The most, spread over the recording: more would not make the median steadier, only slower.
const MOST: usize = 500;
/// How much of a cycle lies before and after R, and the longest that can be, s.
const BEFORE: (f64, f64) = (0.4, 0.45);
const AFTER: (f64, f64) = (0.6, 0.75);
/// The cycle when no two beats follow each other, s.
const USUAL_RR: f64 = 0.9;
/// How long before R the level is taken where the onset is not known, and for how long, s.
const LEVEL_BEFORE_R: f64 = 0.06;
const LEVEL: f64 = 0.016;

/// The typical beat of those that count; `None` when they are few.
pub fn median_beat(
    recording: &Recording,
    beats: &[Beat],
    polarity: Polarity,
) -> Option<MedianBeat> {
    let (before, after) = reach(recording, beats);
    let whole: Vec<&Beat> = beats
        .iter()
        .filter(|beat| beat.standing == Standing::Counts)
        .filter(|beat| {
            let (start, end) = (beat.r.get().checked_sub(before + 2), beat.r.get() + after + 2);
            start.is_some_and(|start| {
                let (start, end) = (SampleIndex::new(start), SampleIndex::new(end));
                end.get() < recording.samples.len() && !recording.is_broken_between(start, end)
            })
        })
        .collect();
    if whole.len() < FEWEST {
        return None;
    }
    let step = whole.len().div_ceil(MOST);
    let used: Vec<&Beat> = whole.into_iter().step_by(step).collect();
    let places: Vec<Place> = used
        .iter()
        .map(|beat| Place { r: beat.r.get() as f64, level: level(recording, beat) })
        .collect();
    let places = aligned(recording, places);
    let mut column = Vec::with_capacity(places.len());
    let samples: Vec<f32> = (0..=before + after)
        .map(|at| {
            column.clear();
            column.extend(
                places
                    .iter()
                    .map(|place| place.value(&recording.samples, at as f64 - before as f64)),
            );
            median(&mut column) as f32
        })
        .collect();
    let landmarks = points(recording, &samples, before, &used, polarity);
    Some(MedianBeat { samples, rate: recording.rate, landmarks, n: used.len() })
}

/// How many samples before and after R belong to the typical beat.
fn reach(recording: &Recording, beats: &[Beat]) -> (usize, usize) {
    let mut rr: Vec<f64> = beats
        .windows(2)
        .map(|pair| pair[1].r.minus(pair[0].r) as f64 / recording.rate.hz())
        .filter(|&rr| rr > 0.0)
        .collect();
    let rr = if rr.is_empty() { USUAL_RR } else { median(&mut rr) };
    let samples =
        |(share, most): (f64, f64)| recording.rate.count(Seconds::new((share * rr).min(most)));
    (samples(BEFORE), samples(AFTER))
}

/// The level of the line just before a complex.
fn level(recording: &Recording, beat: &Beat) -> f64 {
    let count = |seconds: f64| recording.rate.count(Seconds::new(seconds));
    let known = beat.landmarks.at(Landmark::QrsOnset).map(SampleIndex::get);
    let end = known.unwrap_or(beat.r.get().saturating_sub(count(LEVEL_BEFORE_R)));
    let start = end.saturating_sub(count(LEVEL));
    let mut line: Vec<f64> = recording
        .samples
        .get(start..=end)
        .unwrap_or_default()
        .iter()
        .map(|&value| f64::from(value))
        .collect();
    median(&mut line)
}

/// The points of the typical beat; a wave that most beats do not have is not looked for in it.
fn points(
    recording: &Recording,
    samples: &[f32],
    r: usize,
    beats: &[&Beat],
    polarity: Polarity,
) -> Landmarks {
    let alone = Recording {
        name: String::new(),
        rate: recording.rate,
        unit: if recording.unit == VoltageUnit::Millivolt {
            recording.unit
        } else {
            VoltageUnit::Unstated
        },
        samples: samples.into(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let found = waves::delineate(&alone, &[SampleIndex::new(r)], polarity);
    let mut points = found.into_iter().next().unwrap_or_default();
    for wave in [
        [Landmark::POnset, Landmark::PPeak, Landmark::PEnd],
        [Landmark::TOnset, Landmark::TPeak, Landmark::TEnd],
    ] {
        let with = beats.iter().filter(|beat| beat.landmarks.at(wave[1]).is_some()).count();
        if with * 2 < beats.len() {
            wave.into_iter().for_each(|landmark| points.set(landmark, None));
        }
    }
    if points.at(Landmark::R).is_none() {
        points.set(Landmark::R, Some(SampleIndex::new(r)));
    }
    points
}

/// The median of some values, in any order; 0 of none.
fn median(values: &mut [f64]) -> f64 {
    let middle = values.len() / 2;
    if values.is_empty() {
        return 0.0;
    }
    let is_even = values.len().is_multiple_of(2);
    let (lower, upper, _) = values.select_nth_unstable_by(middle, f64::total_cmp);
    if !is_even {
        return *upper;
    }
    let below = lower.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    f64::midpoint(below, *upper)
}

#[cfg(test)]
mod tests;
