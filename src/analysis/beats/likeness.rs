//! Which beats look like other beats, and which stand between two that do.
//!
//! A burst of noise gives peaks as steep as a beat. But between two beats that look alike and are one
//! usual interval apart, a less steep peak that looks like nothing around it is no beat. A beat with a
//! twin among its neighbours is no stranger, so runs of any shape stay.

use super::candidates::Candidate;
use super::shapes::Shapes;
use crate::analysis::neighbours::{median, nearest};
use crate::signal::{SampleRate, put_in_order};

/// Two shapes with at least this correlation are alike.
const ALIKE: f32 = 0.8;
/// Among how many neighbours a twin is looked for.
const AMONG: usize = 17;
/// What stands between two beats up to this many usual intervals apart is in question.
const ONE_INTERVAL: f32 = 1.25;
/// A peak at least this part as steep as the beats around it is taken for a beat, whatever its shape.
const STEEP_ENOUGH: f32 = 0.8;
/// How many intervals and beats around are the usual ones.
const USUAL: usize = 11;

/// The beats without the strangers.
pub(super) fn drop_strangers(
    beats: Vec<Candidate>,
    band: &[f32],
    rate: SampleRate,
) -> Vec<Candidate> {
    let familiar = familiar(&beats, band, rate);
    let known: Vec<usize> = (0..beats.len()).filter(|&i| familiar[i]).collect();
    let interval = |pair: &[usize]| (beats[pair[1]].at - beats[pair[0]].at) as f32;
    let intervals: Vec<f32> = known.windows(2).map(interval).collect();
    let mut keep = vec![true; beats.len()];
    for (i, pair) in known.windows(2).enumerate() {
        let usual = median(nearest(&intervals, i, USUAL).iter().copied());
        let around = nearest(&known, i, USUAL + 1).iter();
        let steep = median(around.map(|&other| beats[other].height));
        let (Some(usual), Some(steep)) = (usual, steep) else { continue };
        if intervals[i] < ONE_INTERVAL * usual {
            for between in pair[0] + 1..pair[1] {
                keep[between] = beats[between].height >= STEEP_ENOUGH * steep;
            }
        }
    }
    beats.into_iter().zip(keep).filter(|(_, keep)| *keep).map(|(beat, _)| beat).collect()
}

/// For each beat, whether another one near it looks like it.
fn familiar(beats: &[Candidate], band: &[f32], rate: SampleRate) -> Vec<bool> {
    let shapes = Shapes::of(beats, band, rate);
    (0..beats.len())
        .map(|i| {
            let place = i.saturating_sub(AMONG / 2).min(beats.len().saturating_sub(AMONG));
            let others = place..(place + AMONG).min(beats.len());
            // The nearest are the likeliest twins.
            let mut others: Vec<usize> = others.filter(|&other| other != i).collect();
            put_in_order(&mut others, |other| other.abs_diff(i));
            others.is_empty() || others.into_iter().any(|other| shapes.likeness(i, other) > ALIKE)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_between_two_like_beats_goes_and_an_odd_beat_of_full_height_stays() {
        let rate = SampleRate::new(200.0).unwrap();
        let mut band = vec![0.0f32; 2000];
        let beats: Vec<usize> = (1..9).map(|i| 200 * i).collect();
        for &at in &beats {
            for (k, value) in [-0.2, 0.5, 1.0, 0.5, -0.2].into_iter().enumerate() {
                band[at - 2 + k] = value;
            }
        }
        for (k, value) in [0.6, -0.6, 0.6, -0.6, 0.6, -0.6, 0.6].into_iter().enumerate() {
            band[1097 + k] = value;
        }
        let with = |height: f32| {
            let mut all: Vec<_> = beats.iter().map(|&at| Candidate { at, height: 1.0 }).collect();
            all.insert(5, Candidate { at: 1100, height });
            drop_strangers(all, &band, rate).len()
        };
        assert_eq!(with(0.6), 8);
        assert_eq!(with(0.9), 9);
        assert_eq!(drop_strangers(Vec::new(), &[], rate), []);
    }
}
