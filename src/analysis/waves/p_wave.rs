//! The P wave of each beat, where there is one.
//!
//! A P wave is small: noise, or the fibrillating atria, make hills of the same size. What tells it
//! from them is that it comes again before each complex. So it is first looked for in the average of
//! the beats, laid over each other at R, and counts only when the beats agree on it: when the energy
//! of the average is a large share of the energy of the single beats. Then each beat is asked
//! whether it holds the wave, and where.

use super::deflection::{Deflection, Towards, Wave, bell, best, deflections, foot};
use super::ensemble::{Ensemble, Fit};
use super::evidence::{Evidence, Trace};
use super::qrs::Complex;

/// The wavelet's scale, s: the paper's 2⁴ at 250 Hz lasts 64 ms.
const SCALE: f64 = 0.070;
/// How far before the complex it is looked for, s.
const EARLIEST: f64 = 0.34;
/// How far before R its peak is expected, and how far from there it may lie, s. PR is 120 to 200 ms
/// in adults (ELSA-Brasil, Arq Bras Cardiol 2017).
const EXPECTED: (f64, f64) = (0.16, 0.1);
/// How far its place may change from beat to beat, s: for beats to agree on it, and for one beat.
/// Waves of fibrillating atria, some seven a second, would all agree if they could be moved farther.
const JITTER: (f64, f64) = (0.03, 0.05);
/// How near to where it fits best the wave of one beat must lie, s.
const NEAR: f64 = 0.03;
/// What is no limb but the shoulder of one: a small wave has a bumpy side, and the steepest place counts.
const SHOULDER: f64 = 1.0;
/// Where its limbs have run out.
const FEET: (f64, f64) = (0.65, 0.9);
/// The least share of energy that beats have in common, when they are laid over each other at R.
const AGREEMENT: f64 = 0.52;
/// Where the interval from P to R changes from beat to beat: the least share as they are, and after
/// each was moved to where it fits best, which makes noise agree too.
const MOVED_AGREEMENT: (f64, f64) = (0.2, 0.75);
/// The share times the number of beats, an F ratio: what is always needed, and what is enough in noise.
const F_RATIO: (f64, f64) = (2.9, 10.0);
/// A share and an F ratio that are enough together. The ratio alone would be had from half a minute of
/// fibrillating atria, the share alone from a few noisy beats.
const TOGETHER: (f64, f64) = (0.4, 6.0);
/// The least height of the wave in one beat, against the average.
const LEAST_SHARE: f64 = 0.38;
/// How much larger than the wiggles around it the P wave of a lone beat must be.
const ABOVE_WIGGLES: f64 = 3.0;

/// The P wave of each beat; `None` where there is no complex, no wave, or one inside the T wave.
pub(super) fn p_waves(
    trace: &Trace,
    complexes: &[Option<Complex>],
    t_waves: &[Option<Wave>],
    smallest: f64,
) -> Vec<Option<Wave>> {
    let mut beats: Vec<(Option<Evidence>, bool)> = Vec::with_capacity(complexes.len());
    let mut free_from = 0;
    for (complex, t_wave) in complexes.iter().zip(t_waves) {
        let evidence = complex.map(|complex| {
            let earliest = complex.onset.saturating_sub(trace.count(EARLIEST));
            let start = free_from.min(complex.onset).max(earliest);
            trace.evidence(start, complex.onset + 1, SCALE, complex.anchor)
        });
        beats.push((evidence, complex.is_some_and(|complex| complex.is_usual)));
        let busy_until = t_wave.and_then(|t| t.end).or(complex.map(|complex| complex.end));
        free_from = busy_until.unwrap_or(0);
    }
    super::blocks(&beats).flat_map(|block| p_waves_of_block(trace, block, smallest)).collect()
}

fn p_waves_of_block(
    trace: &Trace,
    beats: &[(Option<Evidence>, bool)],
    smallest: f64,
) -> Vec<Option<Wave>> {
    let usual: Vec<&Evidence> =
        beats.iter().filter(|beat| beat.1).filter_map(|beat| beat.0.as_ref()).collect();
    let reach = trace.count(EARLIEST + 0.16) as isize;
    let Some(shared) = Ensemble::of(&usual, -reach, 0) else {
        let lone = |beat: &Evidence| lone_wave(trace, beat, smallest);
        return beats.iter().map(|(beat, _)| beat.as_ref().and_then(lone)).collect();
    };
    let pattern = Pattern::agreed(trace, shared, &usual, reach)
        .filter(|pattern| pattern.wave.size() >= smallest);
    let find = |beat: &Evidence| pattern.as_ref()?.find(trace, beat);
    beats.iter().map(|(beat, _)| beat.as_ref().and_then(find)).collect()
}

/// The P wave of a beat with no others to compare.
fn lone_wave(trace: &Trace, beat: &Evidence, smallest: f64) -> Option<Wave> {
    let (expected, width) = EXPECTED;
    let p = best(deflections(&beat.values, 0..beat.values.len(), SHOULDER), |wave| {
        let before_r = -beat.lag(wave.peak) as f64 / trace.rate;
        wave.size() * bell((before_r - expected) / width)
    })?;
    let wave = p_wave(beat, &p);
    let from = foot(&beat.values, p.first, 0.1, Towards::Earlier);
    let to = foot(&beat.values, p.second, 0.1, Towards::Later);
    let outside = beat.values.iter().enumerate().filter(|(at, _)| *at < from || *at > to);
    let (count, power) = outside.fold((0, 0.0), |(n, sum), (_, v)| (n + 1, sum + v * v));
    let wiggles = (power / f64::from(count.max(1))).sqrt();
    (wave.size >= smallest && wave.size > ABOVE_WIGGLES * wiggles).then_some(wave)
}

/// The wave from where its first limb begins to where its last one has run out.
fn p_wave(beat: &Evidence, p: &Deflection) -> Wave {
    let onset = foot(&beat.values, p.first, FEET.0, Towards::Earlier);
    let end = foot(&beat.values, p.second, FEET.1, Towards::Later);
    p.wave(beat, onset, Some(end))
}

/// The P wave that the beats share.
struct Pattern {
    shared: Ensemble,
    wave: Deflection,
    /// Where it begins, peaks and ends, in samples after R (below zero).
    from: isize,
    peak: isize,
    to: isize,
    /// The share of the beats' energy in it that they have in common.
    agreement: f64,
    /// The same times the number of beats.
    f_ratio: f64,
}

impl Pattern {
    /// The wave in the average of beats, or in their average after each was moved to fit; `None`
    /// where they do not agree on one.
    fn agreed(trace: &Trace, shared: Ensemble, beats: &[&Evidence], reach: isize) -> Option<Self> {
        let as_they_are = Self::of(trace, shared)?;
        let moved: Vec<Evidence> = beats
            .iter()
            .map(|beat| beat.shifted(as_they_are.fit(trace, beat, JITTER.0).shift))
            .collect();
        let moved = Ensemble::of(&moved.iter().collect::<Vec<_>>(), -reach, 0);
        let moved = moved.and_then(|shared| Self::of(trace, shared));
        let moved = moved.filter(|moved| moved.agreement > as_they_are.agreement);
        let (share, ratio) = (as_they_are.agreement, as_they_are.f_ratio);
        let is_agreed =
            share >= AGREEMENT || ratio >= F_RATIO.1 || share >= TOGETHER.0 && ratio >= TOGETHER.1;
        let is_moving = as_they_are.agreement >= MOVED_AGREEMENT.0
            && moved.as_ref().is_some_and(|moved| moved.agreement >= MOVED_AGREEMENT.1);
        let pattern = moved.unwrap_or(as_they_are);
        ((is_agreed || is_moving) && pattern.f_ratio >= F_RATIO.0).then_some(pattern)
    }

    fn of(trace: &Trace, shared: Ensemble) -> Option<Self> {
        let (expected, width) = EXPECTED;
        let mean = &shared.mean;
        let wave = best(deflections(mean, 0..mean.len(), SHOULDER), |wave| {
            let before_r = -(shared.first + wave.peak as isize) as f64 / trace.rate;
            wave.size() * bell((before_r - expected) / width)
        })?;
        let from = foot(mean, wave.first, 0.3, Towards::Earlier);
        let to = foot(mean, wave.second, 0.3, Towards::Later);
        let common: f64 = mean.get(from..=to)?.iter().map(|value| value * value).sum();
        let all: f64 = shared.power.get(from..=to)?.iter().sum();
        let count: usize = shared.count.get(from..=to)?.iter().sum();
        let agreement = if all > 0.0 { common / all } else { 0.0 };
        let lag = |at: usize| shared.first + at as isize;
        Some(Self {
            from: lag(from),
            peak: lag(wave.peak),
            to: lag(to),
            agreement,
            f_ratio: agreement * count as f64 / (to - from + 1) as f64,
            wave,
            shared,
        })
    }

    fn fit(&self, trace: &Trace, beat: &Evidence, jitter: f64) -> Fit {
        self.shared.fit(beat, self.from, self.to, trace.count(jitter) as isize)
    }

    /// The wave in one beat, if it is there.
    fn find(&self, trace: &Trace, beat: &Evidence) -> Option<Wave> {
        let Fit { shift, share, .. } = self.fit(trace, beat, JITTER.1);
        if share < LEAST_SHARE {
            return None;
        }
        let beat = self.shared.blend(&beat.shifted(shift));
        let p = best(deflections(&beat.values, 0..beat.values.len(), SHOULDER), |wave| {
            let distance = (beat.lag(wave.peak) - self.peak) as f64 / trace.rate;
            let same = if wave.points_like(&self.wave) { 1.0 } else { 0.1 };
            same * wave.size() * bell(distance / NEAR)
        })?;
        Some(p_wave(&beat, &p))
    }
}
