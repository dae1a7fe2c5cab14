//! What timing says about peaks: T waves, two beats too close, beats missed in a long gap.

use super::candidates::Candidate;
use crate::analysis::neighbours::{median, nearest};
use crate::signal::{SampleRate, Seconds};

/// A T wave comes within this time of its complex (Pan & Tompkins 1985).
const T_WAVE: Seconds = Seconds::new(0.360);
/// And is less steep than this part of it (Pan & Tompkins 1985).
const T_WAVE_STEEPNESS: f32 = 0.5;

/// At an ordinary rate the ventricles can't be excited twice within this time, nor within
/// [`PAIR_PART`] of the usual interval at a fast one: the first peak is then a P wave, the second its
/// complex, or one of them is noise.
const PAIR: Seconds = Seconds::new(0.280);
const PAIR_PART: f64 = 0.65;
/// The first of a pair is taken back when it is less steep than this part of the second.
const PAIR_STEEPNESS: f32 = 0.85;

/// A gap this many times the usual interval is searched again (Pan & Tompkins 1985).
const LONG_GAP: f32 = 1.66;
/// With this part of the threshold (Pan & Tompkins 1985).
const SEARCH_AGAIN: f32 = 0.5;
/// How many intervals around make the usual one.
const INTERVALS: usize = 9;

/// Takes back peaks that follow a complex closely and are far less steep.
pub(super) fn drop_t_waves(candidates: &[Candidate], beats: &mut [bool], rate: SampleRate) {
    let close = rate.count(T_WAVE);
    let mut last: Option<Candidate> = None;
    for (&peak, is_beat) in candidates.iter().zip(beats).filter(|(_, is_beat)| **is_beat) {
        let t_wave = last.is_some_and(|complex| {
            peak.at - complex.at < close && peak.height < T_WAVE_STEEPNESS * complex.height
        });
        if t_wave {
            *is_beat = false;
        } else {
            last = Some(peak);
        }
    }
}

/// Takes back the less steep first one of two peaks that are too close to be two beats.
pub(super) fn drop_impossible_pairs(
    candidates: &[Candidate],
    beats: &mut [bool],
    rate: SampleRate,
) {
    let found = places(beats);
    let intervals = intervals(candidates, &found);
    let mut next: Option<Candidate> = None;
    for (i, &place) in found.iter().enumerate().rev() {
        let peak = candidates[place];
        // The mean, not the median: where every beat is marked twice, it is half the true interval.
        let around = nearest(&intervals, i, INTERVALS + 3);
        let usual = f64::from(around.iter().sum::<f32>()) / around.len() as f64;
        let close = (PAIR_PART * usual).min(PAIR.seconds() * rate.hz());
        let impossible = next.is_some_and(|complex| {
            ((complex.at - peak.at) as f64) < close && peak.height < PAIR_STEEPNESS * complex.height
        });
        if impossible {
            beats[place] = false;
        } else {
            next = Some(peak);
        }
    }
}

/// Looks for a beat that was missed in each gap much longer than the intervals around it.
pub(super) fn search_gaps(
    candidates: &[Candidate],
    thresholds: &[f32],
    beats: &mut [bool],
    rate: SampleRate,
) {
    let found = places(beats);
    let intervals = intervals(candidates, &found);
    let close = rate.count(T_WAVE);
    for (i, pair) in found.windows(2).enumerate() {
        let usual = median(nearest(&intervals, i, INTERVALS).iter().copied());
        if usual.is_none_or(|usual| intervals[i] < LONG_GAP * usual) {
            continue;
        }
        let (before, after) = (candidates[pair[0]].at, candidates[pair[1]].at);
        let missed = (pair[0] + 1..pair[1])
            .filter(|&j| {
                candidates[j].at - before >= close && after - candidates[j].at >= close / 2
            })
            .filter(|&j| candidates[j].height > SEARCH_AGAIN * thresholds[j])
            .max_by(|&a, &b| candidates[a].height.total_cmp(&candidates[b].height).then(b.cmp(&a)));
        if let Some(missed) = missed {
            beats[missed] = true;
        }
    }
}

fn places(beats: &[bool]) -> Vec<usize> {
    (0..beats.len()).filter(|&i| beats[i]).collect()
}

/// From each beat to the next, in samples.
fn intervals(candidates: &[Candidate], found: &[usize]) -> Vec<f32> {
    let between = |pair: &[usize]| (candidates[pair[1]].at - candidates[pair[0]].at) as f32;
    found.windows(2).map(between).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rate() -> SampleRate {
        SampleRate::new(100.0).unwrap()
    }

    fn peaks(all: &[(usize, f32)]) -> Vec<Candidate> {
        all.iter().map(|&(at, height)| Candidate { at, height }).collect()
    }

    #[test]
    fn a_t_wave_goes_and_a_close_beat_of_the_same_steepness_stays() {
        let peaks = peaks(&[(100, 1.0), (130, 0.4), (200, 1.0), (230, 0.9)]);
        let mut beats = [true; 4];
        drop_t_waves(&peaks, &mut beats, rate());
        assert_eq!(beats, [true, false, true, true]);
    }

    #[test]
    fn a_p_wave_goes_and_a_racing_heart_keeps_its_beats() {
        let with_p = peaks(&[(77, 0.7), (100, 1.0), (177, 0.7), (200, 1.0)]);
        let mut beats = [true; 4];
        drop_impossible_pairs(&with_p, &mut beats, rate());
        assert_eq!(beats, [false, true, false, true]);
        let racing: Vec<_> =
            (0..20).map(|i| (25 * i, if i % 2 == 0 { 1.0 } else { 0.8 })).collect();
        let mut beats = [true; 20];
        drop_impossible_pairs(&peaks(&racing), &mut beats, rate());
        assert_eq!(beats, [true; 20]);
    }

    #[test]
    fn a_weak_beat_is_found_in_a_long_gap() {
        let peaks =
            peaks(&[(100, 1.0), (200, 1.0), (300, 0.2), (350, 0.1), (400, 1.0), (500, 1.0)]);
        let mut beats = [true, true, false, false, true, true];
        search_gaps(&peaks, &[0.26; 6], &mut beats, rate());
        assert_eq!(beats, [true, true, true, false, true, true]);
    }
}
