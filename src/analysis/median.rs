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

use super::reading::{Beat, MedianBeat, Polarity, Standing};
use super::waves;
use crate::signal::{Landmark, Landmarks, Recording, SampleIndex, Seconds, VoltageUnit};

/// The fewest beats that make a typical one.
const FEWEST: usize = 3;
/// The most, spread over the recording: more would not make the median steadier, only slower.
const MOST: usize = 500;
/// How much of a cycle lies before and after R, and the longest that can be, s.
const BEFORE: (f64, f64) = (0.4, 0.45);
const AFTER: (f64, f64) = (0.6, 0.75);
/// The cycle when no two beats follow each other, s.
const USUAL_RR: f64 = 0.9;
/// How far around R complexes are compared, and how far they may be moved, s.
const COMPARED: f64 = 0.06;
const MOVED: f64 = 0.012;
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
    let places = aligned(recording, &used);
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

/// Where one beat lies, to parts of a sample, and at what level.
#[derive(Clone, Copy, Debug)]
struct Place {
    r: f64,
    level: f64,
}

impl Place {
    fn value(self, samples: &[f32], after_r: f64) -> f64 {
        between(samples, self.r + after_r) - self.level
    }
}

/// Each beat moved to where its complex fits the average of all best.
fn aligned(recording: &Recording, beats: &[&Beat]) -> Vec<Place> {
    let samples = &recording.samples;
    // A thousand points a second show where a complex lies; between them a parabola does.
    let step = (recording.rate.hz() / 1000.0).max(1.0);
    let steps = |seconds: f64| (seconds * recording.rate.hz() / step).round() as i32;
    let lags = (-steps(COMPARED)..=steps(COMPARED)).map(|lag| f64::from(lag) * step);
    let lags: Vec<f64> = lags.collect();
    let mut places: Vec<Place> = beats
        .iter()
        .map(|beat| Place { r: beat.r.get() as f64, level: level(recording, beat) })
        .collect();
    let average: Vec<f64> = lags
        .iter()
        .map(|&lag| places.iter().map(|place| place.value(samples, lag)).sum::<f64>())
        .map(|sum| sum / places.len() as f64)
        .collect();
    for place in &mut places {
        let likeness = |shift: i32| {
            let shift = f64::from(shift) * step;
            let beat = lags.iter().map(|lag| place.value(samples, lag + shift));
            correlation(beat, &average)
        };
        place.r += step * highest(likeness, steps(MOVED));
    }
    places
}

/// The correlation of some values with others, up to a factor that depends on the others alone.
fn correlation(values: impl Iterator<Item = f64>, others: &[f64]) -> f64 {
    let n = others.len().max(1) as f64;
    let mean = others.iter().sum::<f64>() / n;
    let (mut product, mut squares, mut sum) = (0.0, 0.0, 0.0);
    for (value, other) in values.zip(others) {
        product += value * (other - mean);
        squares += value * value;
        sum += value;
    }
    let power = squares - sum * sum / n;
    if power > 0.0 { product / power.sqrt() } else { 0.0 }
}

/// The step within `reach` of 0 at which a value is highest, and by the parabola through it and its
/// neighbours the part of a step.
fn highest(value: impl Fn(i32) -> f64, reach: i32) -> f64 {
    let (best, top) = (-reach..=reach)
        .map(|step| (step, value(step)))
        .fold((0, value(0)), |best, one| if one.1 > best.1 { one } else { best });
    let (left, right) = (value(best - 1), value(best + 1));
    let bend = left - 2.0 * top + right;
    let part = if bend < 0.0 { (0.5 * (left - right) / bend).clamp(-0.5, 0.5) } else { 0.0 };
    f64::from(best) + part
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

/// The value between samples, on a cubic through the four around it; the nearest one at the ends.
fn between(samples: &[f32], at: f64) -> f64 {
    let floor = at.floor();
    let part = at - floor;
    let nearby = |offset: isize| {
        let last = samples.len().saturating_sub(1) as isize;
        let index = (floor as isize + offset).clamp(0, last) as usize;
        f64::from(samples.get(index).copied().unwrap_or(0.0))
    };
    let [before, left, right, after] = [-1, 0, 1, 2].map(nearby);
    let slope = right - before;
    let bend = 2.0 * before - 5.0 * left + 4.0 * right - after;
    let twist = 3.0 * (left - right) + after - before;
    left + 0.5 * part * (slope + part * (bend + part * twist))
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
mod tests {
    use super::*;
    use crate::analysis::WhySetAside;
    use crate::signal::SampleRate;
    use proptest::prelude::*;

    /// The waves of an invented beat: middle after R and width in s, height in mV.
    const WAVES: [(f64, f64, f64); 4] =
        [(-0.17, 0.02, 0.12), (0.0, 0.012, 1.0), (0.03, 0.009, -0.2), (0.27, 0.04, 0.3)];

    fn beat_at(after_r: f64) -> f64 {
        let bell = |(middle, width, height): (f64, f64, f64)| {
            height * (-0.5 * ((after_r - middle) / width).powi(2)).exp()
        };
        WAVES.into_iter().map(bell).sum()
    }

    /// Beats whose R fall between samples, on a line that wanders by 0.4 mV.
    fn heart(hz: f64, count: usize) -> (Recording, Vec<Beat>) {
        let r: Vec<f64> = (0..count).map(|beat| 0.7 + 0.8137 * beat as f64).collect();
        let samples = (0..((0.8137 * count as f64 + 1.0) * hz) as usize).map(|at| {
            let t = at as f64 / hz;
            (r.iter().map(|r| beat_at(t - r)).sum::<f64>() + 0.2 * (1.3 * t).sin()) as f32
        });
        let recording = Recording {
            name: String::new(),
            rate: SampleRate::new(hz).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: samples.collect(),
            holes: Vec::new(),
            marks: Vec::new(),
        };
        let r: Vec<SampleIndex> =
            r.into_iter().map(|r| recording.rate.nearest(Seconds::new(r))).collect();
        let points = waves::delineate(&recording, &r, Polarity::Upright);
        let beats = r.into_iter().zip(points);
        let beats =
            beats.map(|(r, landmarks)| Beat { r, landmarks, standing: Standing::Counts }).collect();
        (recording, beats)
    }

    #[test]
    fn waves_keep_their_height_where_r_falls_between_samples() {
        for (hz, lost) in [(100.0, 0.05), (250.0, 0.01), (1000.0, 0.01)] {
            let (recording, beats) = heart(hz, 20);
            let median = median_beat(&recording, &beats, Polarity::Upright).unwrap();
            let r = median.landmarks.at(Landmark::R).unwrap().get();
            assert!((f64::from(median.samples[r]) - 1.0).abs() < lost, "{}", median.samples[r]);
            let t = median.landmarks.at(Landmark::TPeak).unwrap().get();
            assert!((f64::from(median.samples[t]) - 0.3).abs() < 0.03, "{}", median.samples[t]);
            let p_to_r = median.landmarks.between(Landmark::PPeak, Landmark::R).unwrap();
            assert!((p_to_r as f64 / hz - 0.17).abs() <= 1.0 / hz + 0.004, "{p_to_r} at {hz} Hz");
        }
    }

    #[test]
    fn beats_set_aside_are_not_in_it_and_two_are_too_few() {
        let (mut recording, mut beats) = heart(250.0, 6);
        let whole = median_beat(&recording, &beats, Polarity::Upright).unwrap();
        assert_eq!(whole.n, 6);
        let odd = beats[3].r.get();
        let spoiled = recording.samples.iter().enumerate();
        recording.samples =
            spoiled.map(|(at, &value)| if at.abs_diff(odd) < 50 { 3.0 } else { value }).collect();
        beats[3].standing = Standing::SetAside(WhySetAside::OtherShape);
        let without = median_beat(&recording, &beats, Polarity::Upright).unwrap();
        assert_eq!(without.n, 5);
        assert!(without.samples.iter().all(|&value| value < 1.5));
        assert_eq!(median_beat(&recording, &beats[..2], Polarity::Upright), None);
    }

    #[test]
    fn a_wave_most_beats_lack_is_not_in_it() {
        let (recording, mut beats) = heart(250.0, 8);
        for beat in beats.iter_mut().take(5) {
            for landmark in [Landmark::POnset, Landmark::PPeak, Landmark::PEnd] {
                beat.landmarks.set(landmark, None);
            }
        }
        let median = median_beat(&recording, &beats, Polarity::Upright).unwrap();
        assert_eq!(median.landmarks.at(Landmark::PPeak), None);
        assert!(median.landmarks.at(Landmark::TPeak).is_some());
    }

    proptest! {
        #[test]
        fn any_trace_gives_a_beat_or_none(
            samples in proptest::collection::vec(-3.0f32..3.0, 0..900),
            r in proptest::collection::vec(0usize..1000, 0..8),
            hz in prop_oneof![Just(0.7), Just(100.0), Just(250.0), Just(1.0e6)],
        ) {
            let (mut recording, _) = heart(100.0, 1);
            recording.samples = samples.into();
            recording.rate = SampleRate::new(hz).unwrap();
            let beat = |r| Beat {
                r: SampleIndex::new(r),
                landmarks: Landmarks::default(),
                standing: Standing::Counts,
            };
            let beats: Vec<Beat> = r.into_iter().map(beat).collect();
            if let Some(median) = median_beat(&recording, &beats, Polarity::Unclear) {
                prop_assert!(median.landmarks.at(Landmark::R).is_some());
                let length = median.samples.len();
                prop_assert!(median.landmarks.iter().all(|(_, at)| at.get() < length));
            }
        }
    }
}
