//! Which candidates are beats.
//!
//! The rules are those of Pan & Tompkins 1985 (IEEE Trans Biomed Eng 32:230) as Hamilton 2002
//! (Computers in Cardiology 29:101) restated them: a threshold between the typical beat and the
//! typical noise peak, no T waves, and a second look into long gaps ([`super::rules`]). They were
//! made for a monitor, which knows only the past. A stored trace has both sides: here "typical" is
//! the median of the nearest neighbours before and after, found again until nothing changes, so a
//! trace that begins with noise or grows in height needs no learning time.

use super::candidates::Candidate;
use super::{chain, likeness, rules};
use crate::analysis::neighbours::{median, nearest};
use crate::signal::{SampleRate, Seconds};

/// A beat this far away or less is always met, even at 25 a minute.
const LONGEST_WAIT: Seconds = Seconds::new(1.3);
/// How many of the steepest moments around make a first guess of the typical beat.
const LEADING: usize = 9;
/// How many neighbours make the typical beat and the typical noise peak (Hamilton 2002).
const NEIGHBOURS: usize = 8;
/// Where the threshold lies between typical noise and typical beat. Hamilton 2002 gives 0.31 to 0.48
/// for a threshold that lags; one that knows both sides can be lower.
const THRESHOLD: f32 = 0.26;
/// Rounds after which labels are taken as they are.
const ROUNDS: usize = 8;

/// The beats among the candidates, in order. `band` is the trace without wander and hum.
pub(super) fn decide(
    candidates: &[Candidate],
    band: &[f32],
    steepness: &[f32],
    rate: SampleRate,
) -> Vec<Candidate> {
    let mut beats = first_guess(candidates, rate);
    for _ in 0..ROUNDS {
        let thresholds = thresholds(candidates, &beats);
        let mut next: Vec<bool> =
            candidates.iter().zip(&thresholds).map(|(peak, &level)| peak.height > level).collect();
        rules::drop_t_waves(candidates, &mut next, rate);
        rules::drop_impossible_pairs(candidates, &mut next, rate);
        rules::search_gaps(candidates, &thresholds, &mut next, rate);
        if next == beats {
            break;
        }
        beats = next;
    }
    let kept = candidates.iter().zip(&beats).filter(|(_, is)| **is).map(|(peak, _)| *peak);
    let familiar = likeness::drop_strangers(kept.collect(), band, rate);
    chain::likeliest(familiar, band, steepness, rate)
}

/// Beats by the median of the steepest moments around, each the steepest for a beat's time.
fn first_guess(candidates: &[Candidate], rate: SampleRate) -> Vec<bool> {
    let wait = rate.count(LONGEST_WAIT);
    let leads = |i: &usize| {
        let peak = candidates[*i];
        let near = |other: &&Candidate| other.at.abs_diff(peak.at) <= wait;
        let higher = |other: &Candidate| other.height > peak.height;
        !candidates[..*i].iter().rev().take_while(near).any(higher)
            && !candidates[i + 1..].iter().take_while(near).any(higher)
    };
    let leading: Vec<usize> = (0..candidates.len()).filter(leads).collect();
    let steep = |i: usize| {
        let middle = leading.partition_point(|&other| other < i);
        let around = nearest(&leading, middle, LEADING).iter();
        let typical = median(around.map(|&other| candidates[other].height));
        typical.is_some_and(|typical| candidates[i].height > THRESHOLD * typical)
    };
    (0..candidates.len()).map(steep).collect()
}

/// The threshold at each candidate, from the other candidates around it.
fn thresholds(candidates: &[Candidate], beats: &[bool]) -> Vec<f32> {
    let of_kind =
        |kind: bool| (0..candidates.len()).filter(|&i| beats[i] == kind).collect::<Vec<usize>>();
    let (qrs, noise) = (of_kind(true), of_kind(false));
    let typical = |kind: &[usize], i: usize| {
        let middle = kind.partition_point(|&other| other < i);
        let others = nearest(kind, middle, NEIGHBOURS + 1).iter().filter(|&&other| other != i);
        median(others.map(|&other| candidates[other].height))
    };
    (0..candidates.len())
        .map(|i| {
            let noise = typical(&noise, i).unwrap_or(0.0);
            let beat = typical(&qrs, i).unwrap_or(candidates[i].height);
            noise + THRESHOLD * (beat - noise)
        })
        .collect()
}
