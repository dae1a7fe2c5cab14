//! The T wave of each beat.
//!
//! It is the greatest hill or valley after the complex, greater by as much as it lies where a T wave
//! is expected at this rate: other waves, the next P above all, can be as tall, and so is the valley
//! between T and P, which does not leave the line. Its end is where the
//! tangent to its last limb meets the line (Lepeschkin and Surawicz 1952, Circulation 6:378): on the
//! annotated records it scatters no more than a threshold, and it can be drawn and explained. U waves are
//! left out.

use super::deflection::{Deflection, Towards, Wave, bell, best, deflections, foot, tangent_end};
use super::ensemble::Ensemble;
use super::evidence::{Evidence, Trace};
use super::qrs::Complex;

/// The wavelet's scale, s: between the paper's 2⁴ and 2⁵ at 250 Hz.
const SCALE: f64 = 0.080;
/// How soon after the complex a limb of T can lie, s.
const EARLIEST: f64 = 0.02;
/// How far after R it is looked for: a share of RR, within limits in s.
const LATEST: (f64, f64, f64) = (0.75, 0.25, 0.7);
/// Where its peak is expected after R at an RR of 1 s, the power of RR by which that changes, and how
/// far from there it may lie, s. From the records named in [`super::qrs`].
const EXPECTED: (f64, f64, f64) = (0.3, 0.6, 0.08);
/// What a valley between two hills counts for, against a wave that leaves the line.
const BETWEEN: f64 = 0.5;
/// How far from where the beats share it the wave of one beat may lie, s.
const NEAR: f64 = 0.05;
/// The least size of the wave in one beat, against the one that the beats share.
const LEAST_SHARE: f64 = 0.25;
/// What is no limb but the shoulder of one.
const SHOULDER: f64 = 0.3;
/// Where the first limb has run out, and where the line begins behind the last one. Martínez 2004 takes
/// T to begin at a share of 0.25.
const FEET: (f64, f64) = (0.45, 0.3);
/// The RR when there is but one beat, s.
const USUAL_RR: f64 = 0.9;

/// The T wave of each beat; `None` where there is no complex or no wave.
pub(super) fn t_waves(trace: &Trace, complexes: &[Option<Complex>]) -> Vec<Option<Wave>> {
    let rr = intervals(trace, complexes);
    let mut after: Vec<(Option<Evidence>, bool, f64)> = Vec::with_capacity(complexes.len());
    let mut waves = Vec::with_capacity(complexes.len());
    for (place, (complex, rr)) in complexes.iter().zip(rr).enumerate() {
        let next = complexes.get(place + 1).copied().flatten();
        let evidence = complex.map(|complex| after_complex(trace, &complex, next, rr));
        after.push((evidence, complex.is_some_and(|complex| complex.is_usual), rr));
    }
    for block in super::blocks(&after) {
        let usual: Vec<&Evidence> =
            block.iter().filter(|beat| beat.1).filter_map(|beat| beat.0.as_ref()).collect();
        let mut rr: Vec<f64> = block.iter().map(|beat| beat.2).collect();
        rr.sort_unstable_by(f64::total_cmp);
        let expected = expected_peak(rr.get(rr.len() / 2).copied().unwrap_or(USUAL_RR));
        let shared = Ensemble::of(&usual, 0, trace.count(0.8) as isize);
        let shared = shared.and_then(|shared| {
            let usual_wave = usual_wave(trace, &shared, expected)?;
            Some((shared, usual_wave))
        });
        waves.extend(block.iter().map(|(beat, is_usual, _)| {
            let beat = beat.as_ref()?;
            match &shared {
                Some((shared, usual)) if *is_usual => {
                    t_wave(trace, &shared.blend(beat), usual.0, NEAR, Some(&usual.1))
                }
                _ => t_wave(trace, beat, expected, EXPECTED.2, None),
            }
        }));
    }
    waves
}

/// When a T wave peaks after R at some RR, both in s.
fn expected_peak(rr: f64) -> f64 {
    EXPECTED.0 * rr.clamp(0.3, 1.5).powf(EXPECTED.1)
}

/// The T wave that beats share, and when it peaks, s after R.
fn usual_wave(trace: &Trace, shared: &Ensemble, expected: f64) -> Option<(f64, Deflection)> {
    let seconds = |wave: &Deflection| wave.peak as f64 / trace.rate;
    let all = deflections(&shared.mean, 0..shared.mean.len(), SHOULDER);
    let last = shared.count.iter().rposition(|&count| count > 0)?;
    let mean = shared.mean.get(..=last)?;
    let wave = best(all, |wave| {
        let leaves_the_line = wave.lift(mean).clamp(BETWEEN, 1.0);
        wave.size() * leaves_the_line * bell((seconds(wave) - expected) / EXPECTED.2)
    })?;
    Some((seconds(&wave), wave))
}

/// From each complex to the next one, s; the last one has the median of the others.
fn intervals(trace: &Trace, complexes: &[Option<Complex>]) -> Vec<f64> {
    let next = complexes.iter().skip(1).chain([&None]);
    let known: Vec<Option<f64>> = complexes
        .iter()
        .zip(next)
        .map(|(one, next)| Some(((*next)?.anchor - (*one)?.anchor) as f64 / trace.rate))
        .collect();
    let mut sorted: Vec<f64> = known.iter().copied().flatten().collect();
    sorted.sort_unstable_by(f64::total_cmp);
    let usual = sorted.get(sorted.len() / 2).copied().unwrap_or(USUAL_RR);
    known.into_iter().map(|rr| rr.unwrap_or(usual)).collect()
}

/// The trace between a complex and the next, with the limit up to which a T wave is looked for.
fn after_complex(trace: &Trace, complex: &Complex, next: Option<Complex>, rr: f64) -> Evidence {
    let farthest = complex.end + trace.count(0.9);
    let stop = next.map_or(farthest, |next| next.onset.min(farthest));
    let latest = trace.count((LATEST.0 * rr).clamp(LATEST.1, LATEST.2));
    let mut after = trace.evidence(complex.end, stop, SCALE, complex.anchor);
    after.limit = after.limit.min(usize::try_from(complex.anchor).unwrap_or(0) + latest);
    after
}

/// The wave of one beat: the greatest near to where it is expected, and pointing as it should.
fn t_wave(
    trace: &Trace,
    beat: &Evidence,
    expected: f64,
    width: f64,
    like: Option<&Deflection>,
) -> Option<Wave> {
    let found = deflections(&beat.values, trace.count(EARLIEST)..beat.searched(), SHOULDER);
    let alike = |wave: &Deflection| {
        let same = like.is_none_or(|like| wave.points_like(like));
        if same { wave.size() } else { 0.3 * wave.size() }
    };
    let t = best(found, |wave| {
        let peak = beat.lag(wave.peak) as f64 / trace.rate;
        alike(wave) * bell((peak - expected) / width)
    })?;
    if like.is_some_and(|like| alike(&t) < LEAST_SHARE * like.size()) {
        return None;
    }
    let onset = foot(&beat.values, t.first, FEET.0, Towards::Earlier);
    let end = tangent_end(&beat.values, t.second, FEET.1);
    // Where the next complex follows before the line is reached, T ends there at the latest.
    let is_cut = beat.from + beat.values.len() >= trace.len();
    let end = end.or((!is_cut).then(|| beat.values.len().saturating_sub(1)));
    Some(t.wave(beat, onset, end))
}
