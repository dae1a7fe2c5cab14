//! Which candidates are beats.
//!
//! The rules are those of Pan & Tompkins 1985 (IEEE Trans Biomed Eng 32:230) as Hamilton 2002
//! (Computers in Cardiology 29:101) restated them: a threshold between the typical beat and the
//! typical noise peak around it, a T wave is less than half as steep as the complex it follows, and
//! a long gap is searched again with half the threshold. They were made for a monitor, which knows
//! only the past. A stored trace has both sides: here "typical" is the median of the nearest
//! neighbours before and after, found again until nothing changes, so a trace that begins with noise
//! or grows in height needs no learning time.

use super::candidates::Candidate;
use crate::signal::{SampleRate, Seconds};

/// A beat this far away or less is always met, even at 25 a minute.
const LONGEST_WAIT: Seconds = Seconds::new(1.3);
/// How many of the steepest moments around make a first guess of the typical beat.
const LEADING: usize = 9;
/// How many neighbours on either side make the typical beat (8 in all: Hamilton 2002).
const NEIGHBOURS: usize = 4;
/// Where the threshold lies between typical noise and typical beat.
const THRESHOLD: f32 = 0.30;
/// A T wave comes within this time of its complex (Pan & Tompkins 1985).
const T_WAVE: Seconds = Seconds::new(0.360);
/// And is less steep than this part of it.
const T_WAVE_STEEPNESS: f32 = 0.5;
/// A gap this many times the usual interval is searched again (1.66: Pan & Tompkins 1985).
const LONG_GAP: f64 = 1.66;
/// With this part of the threshold.
const SEARCH_AGAIN: f32 = 0.5;
/// Rounds after which labels are taken as they are.
const ROUNDS: usize = 8;

/// For each candidate, whether it is a beat.
pub(crate) fn decide(candidates: &[Candidate], rate: SampleRate) -> Vec<bool> {
    let mut beats = first_guess(candidates, rate);
    for _ in 0..ROUNDS {
        let thresholds = thresholds(candidates, &beats);
        let mut next: Vec<bool> =
            candidates.iter().zip(&thresholds).map(|(peak, &level)| peak.height > level).collect();
        drop_t_waves(candidates, &mut next, rate);
        search_gaps(candidates, &thresholds, &mut next, rate);
        if next == beats {
            break;
        }
        beats = next;
    }
    beats
}

/// Beats by the median of the steepest moments around, each the steepest for a beat's time.
fn first_guess(candidates: &[Candidate], rate: SampleRate) -> Vec<bool> {
    let wait = rate.count(LONGEST_WAIT);
    let leading: Vec<usize> = (0..candidates.len())
        .filter(|&i| {
            let peak = candidates[i];
            let near = |other: &&Candidate| other.at.abs_diff(peak.at) <= wait;
            let higher = |other: &Candidate| other.height > peak.height;
            !candidates[..i].iter().rev().take_while(near).any(higher)
                && !candidates[i + 1..].iter().take_while(near).any(higher)
        })
        .collect();
    let mut around = Vec::with_capacity(LEADING);
    candidates
        .iter()
        .enumerate()
        .map(|(i, peak)| {
            let middle = leading.partition_point(|&other| other < i);
            let start =
                middle.saturating_sub(LEADING / 2).min(leading.len().saturating_sub(LEADING));
            around.clear();
            around.extend(leading.iter().skip(start).take(LEADING).map(|&l| candidates[l].height));
            peak.height > THRESHOLD * median(&mut around).unwrap_or(0.0)
        })
        .collect()
}

/// The threshold at each candidate.
fn thresholds(candidates: &[Candidate], beats: &[bool]) -> Vec<f32> {
    let of_kind = |kind: bool| {
        let all = candidates.iter().zip(beats).enumerate();
        all.filter(move |(_, (_, is))| **is == kind)
            .map(|(i, (peak, _))| (i, peak.height))
            .collect()
    };
    let (qrs, noise): (Vec<(usize, f32)>, Vec<(usize, f32)>) = (of_kind(true), of_kind(false));
    let mut around = Vec::with_capacity(2 * NEIGHBOURS);
    let mut typical = |kind: &[(usize, f32)], i: usize| {
        let middle = kind.partition_point(|&(other, _)| other < i);
        let start = middle.saturating_sub(NEIGHBOURS);
        let others = kind.iter().skip(start).filter(|&&(other, _)| other != i);
        around.clear();
        around.extend(others.take(2 * NEIGHBOURS).map(|&(_, height)| height));
        median(&mut around)
    };
    (0..candidates.len())
        .map(|i| {
            let noise = typical(&noise, i).unwrap_or(0.0);
            let beat = typical(&qrs, i).unwrap_or(candidates[i].height);
            noise + THRESHOLD * (beat - noise)
        })
        .collect()
}

/// Takes back peaks that follow a complex closely and are far less steep.
fn drop_t_waves(candidates: &[Candidate], beats: &mut [bool], rate: SampleRate) {
    let close = rate.count(T_WAVE);
    let mut last: Option<Candidate> = None;
    for (peak, is_beat) in candidates.iter().zip(beats) {
        if !*is_beat {
            continue;
        }
        match last {
            Some(complex)
                if peak.at - complex.at < close
                    && peak.height < T_WAVE_STEEPNESS * complex.height =>
            {
                *is_beat = false;
            }
            _ => last = Some(*peak),
        }
    }
}

/// Looks for a beat that was missed in each gap much longer than the intervals around it.
fn search_gaps(candidates: &[Candidate], thresholds: &[f32], beats: &mut [bool], rate: SampleRate) {
    let found: Vec<usize> = (0..beats.len()).filter(|&i| beats[i]).collect();
    let intervals: Vec<f32> =
        found.windows(2).map(|w| (candidates[w[1]].at - candidates[w[0]].at) as f32).collect();
    let close = rate.count(T_WAVE);
    let mut around = Vec::with_capacity(2 * NEIGHBOURS + 1);
    for (i, pair) in found.windows(2).enumerate() {
        let start = i.saturating_sub(NEIGHBOURS);
        around.clear();
        around.extend(intervals.iter().skip(start).take(2 * NEIGHBOURS + 1));
        let Some(usual) = median(&mut around) else { continue };
        if f64::from(intervals[i]) < LONG_GAP * f64::from(usual) {
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

/// The middle value; of an even number the mean of the middle two. Reorders what it is given.
fn median(values: &mut [f32]) -> Option<f32> {
    values.sort_by(f32::total_cmp);
    let n = values.len();
    let upper = *values.get(n / 2)?;
    Some(if n.is_multiple_of(2) { f32::midpoint(values[n / 2 - 1], upper) } else { upper })
}
