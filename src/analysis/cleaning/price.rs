//! What a cleaned copy costs and what it buys, measured on the student's own beats.
//!
//! Heights are those of the typical beat: Q, R and S from the level just before the complex, as the CSE
//! takes QRS amplitudes (Eur Heart J 1985 6:815, from memory), T from the same level, P from the line
//! between its two ends. In the copy the top is looked for close to where it was. The noise is what is
//! left between T and the next P once a straight line is taken out, as a ratio of powers in decibels.

use crate::analysis::median::median_beat;
use crate::analysis::neighbours::median;
use crate::analysis::reading::{Beat, MedianBeat, Reading, Standing};
use crate::signal::{Landmark, Milliseconds, Recording, SampleIndex, SampleSpan, Seconds};

/// How long the line is before the complex from which heights are taken.
const LEVEL: Seconds = Seconds::new(0.016);
/// How far a top can move: in the steep complex, and in the slow waves.
const STEEP: Seconds = Seconds::new(0.01);
const SLOW: Seconds = Seconds::new(0.04);
/// The rest between two beats keeps this distance from T and P; shorter than the least is no rest.
const DISTANCE: Seconds = Seconds::new(0.02);
const LEAST_REST: Seconds = Seconds::new(0.08);
/// Without a P wave the rest ends this long before the complex.
const BEFORE_QRS: Seconds = Seconds::new(0.2);

/// What a cleaned copy costs and buys.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Price {
    /// The typical beat of the trace as it was; `None` when there are too few beats.
    pub typical: Option<MedianBeat>,
    /// The heights of P, Q, R, S and T; those of waves that could be measured.
    pub waves: Vec<WavePrice>,
    /// From QRS onset to QRS end in the trace and in the copy.
    pub qrs: Option<(Milliseconds, Milliseconds)>,
    /// By how much the noise between beats went down, in dB; negative when it grew.
    pub noise_removed_db: Option<f64>,
}

/// One wave before and after, in the unit of the recording.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WavePrice {
    /// Which wave, by its top.
    pub wave: Landmark,
    /// Its height in the trace; negative for a wave that points down.
    pub before: f64,
    /// Its height in the copy.
    pub after: f64,
}

impl WavePrice {
    /// The part that is left: 1 for all of it.
    pub fn kept(self) -> f64 {
        self.after / self.before
    }

    /// The change in millivolts or whatever the unit is; negative when the wave got smaller.
    pub fn change(self) -> f64 {
        self.after.abs() - self.before.abs()
    }
}

/// Compares a copy, with what was found in it, with the trace that it was made from.
pub fn price(trace: &Recording, copy: &Recording, reading: &Reading) -> Price {
    let noise_removed_db = noise_removed(trace, copy, &reading.beats);
    let before = median_beat(trace, &reading.beats, reading.polarity);
    let (Some(before), Some(after)) = (before, reading.median.as_ref()) else {
        return Price { noise_removed_db, ..Price::default() };
    };
    let waves = [Landmark::PPeak, Landmark::Q, Landmark::R, Landmark::S, Landmark::TPeak];
    Price {
        waves: waves.into_iter().filter_map(|wave| wave_price(wave, &before, after)).collect(),
        qrs: width(&before).zip(width(after)),
        noise_removed_db,
        typical: Some(before),
    }
}

/// The height at one place above the level just before the complex; `None` without an onset.
pub(super) fn height_at(beat: &MedianBeat, at: SampleIndex) -> Option<f64> {
    let value = f64::from(*beat.samples.get(at.get())?);
    Some(value - level(beat, beat.landmarks.at(Landmark::QrsOnset)?)?)
}

fn level(beat: &MedianBeat, onset: SampleIndex) -> Option<f64> {
    let start = onset.get().saturating_sub(beat.rate.count(LEVEL));
    let line = beat.samples.get(start..=onset.get())?;
    median(line.iter().copied()).map(f64::from)
}

fn wave_price(wave: Landmark, before: &MedianBeat, after: &MedianBeat) -> Option<WavePrice> {
    let at = before.landmarks.at(wave)?;
    let slow = matches!(wave, Landmark::PPeak | Landmark::TPeak);
    let reach = before.rate.count(if slow { SLOW } else { STEEP });
    // Both beats are cut alike, so a place in one is the same place in the other; and all places are
    // those of the trace, so that a boundary that moves does not pass for height.
    let height = |beat: &MedianBeat, at: usize| {
        let value = f64::from(*beat.samples.get(at)?);
        Some(value - reference(wave, before, beat, at)?)
    };
    let original = height(before, at.get()).filter(|height| *height != 0.0)?;
    let around = at.get().saturating_sub(reach)..=at.get() + reach;
    let heights = around.filter_map(|at| height(after, at));
    let furthest = heights.max_by(|a, b| (a * original).total_cmp(&(b * original)))?;
    Some(WavePrice { wave, before: original, after: furthest })
}

/// What a height is taken from: the line under P, else the level before the complex.
fn reference(wave: Landmark, places: &MedianBeat, beat: &MedianBeat, at: usize) -> Option<f64> {
    if wave != Landmark::PPeak {
        return level(beat, places.landmarks.at(Landmark::QrsOnset)?);
    }
    let (from, to) = (places.landmarks.at(Landmark::POnset)?, places.landmarks.at(Landmark::PEnd)?);
    let value = |at: SampleIndex| beat.samples.get(at.get()).copied().map(f64::from);
    let (start, end) = (value(from)?, value(to)?);
    let part = (at as f64 - from.get() as f64) / (to.minus(from) as f64).max(1.0);
    Some(start + (end - start) * part.clamp(0.0, 1.0))
}

fn width(beat: &MedianBeat) -> Option<Milliseconds> {
    let samples = beat.landmarks.between(Landmark::QrsOnset, Landmark::QrsEnd)?;
    Some(Milliseconds::new(samples as f64 * 1000.0 / beat.rate.hz()))
}

/// The ratio of the powers left between beats, in dB; `None` without rest or without noise.
fn noise_removed(trace: &Recording, copy: &Recording, beats: &[Beat]) -> Option<f64> {
    let (mut before, mut after) = (0.0, 0.0);
    for span in rests(trace, beats) {
        before += unevenness(trace.samples.get(span.range())?);
        after += unevenness(copy.samples.get(span.range())?);
    }
    (before > 0.0 && after > 0.0).then(|| 10.0 * (before / after).log10())
}

/// The stretches of rest between T and the next P of beats that count.
fn rests(trace: &Recording, beats: &[Beat]) -> Vec<SampleSpan> {
    let count = |time: Seconds| trace.rate.count(time);
    let rest = |pair: &[Beat]| {
        let [this, next] = pair else { return None };
        if [this, next].iter().any(|beat| beat.standing != Standing::Counts) {
            return None;
        }
        let start = this.landmarks.at(Landmark::TEnd)?.get() + count(DISTANCE);
        let end = match next.landmarks.at(Landmark::POnset) {
            Some(onset) => onset.get().checked_sub(count(DISTANCE))?,
            None => next.r.get().checked_sub(count(BEFORE_QRS))?,
        };
        let long = end >= start + count(LEAST_REST).max(3);
        let whole = !trace.is_broken_between(SampleIndex::new(start), SampleIndex::new(end));
        (long && whole).then(|| SampleSpan::new(start, end))
    };
    beats.windows(2).filter_map(rest).collect()
}

/// The sum of squares that a straight line leaves.
fn unevenness(samples: &[f32]) -> f64 {
    let n = samples.len() as f64;
    let middle = (n - 1.0) / 2.0;
    let mean = samples.iter().map(|&value| f64::from(value)).sum::<f64>() / n;
    let (mut rise, mut run, mut squares) = (0.0, 0.0, 0.0);
    for (k, &value) in samples.iter().enumerate() {
        let (t, y) = (k as f64 - middle, f64::from(value) - mean);
        rise += t * y;
        run += t * t;
        squares += y * y;
    }
    (squares - rise * rise / run).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_is_no_noise() {
        let line: Vec<f32> = (0..50).map(|i| 3.0 + 0.5 * i as f32).collect();
        assert!(unevenness(&line) < 1e-6);
        // ±1 in turn about a line: n squares of 1, less what the line takes up.
        let rough: Vec<f32> = (0..50).map(|i| if i % 2 == 0 { 1.0 } else { -1.0 }).collect();
        assert!((unevenness(&rough) - 50.0).abs() < 0.1);
    }
}
