//! Which beats make the likeliest chain through a noisy stretch.
//!
//! Movement gives peaks as steep as a beat and, by chance, shaped like one; but a false beat also splits
//! an interval in two that a heart would not make. So where the trace is noisy, beats are not judged
//! one by one: of all ways to go from the last sure beat before the noise to the first one after it,
//! the one is kept whose beats look most like the others and whose intervals are most usual. This is
//! beat tracking by dynamic programming (Ellis 2007, J New Music Research 36:51). That signal quality
//! comes first, and shape and timing are asked only where it is bad, follows Li, Mark and Clifford 2008
//! (Physiol Meas 29:15) and Zhao and Zhang 2018 (Front Physiol 9:727); all three are cited from memory.
//! The weights were chosen on the development records of the accuracy tables.
//!
//! A beat in a quiet place is sure, whatever its shape and time: ectopic beats stay. So is one in
//! noise that is clearly like its neighbours. With too few sure beats nothing is refused.

use super::candidates::Candidate;
use super::shapes::Shapes;
use crate::analysis::neighbours::{lower_quartile, median, nearest};
use crate::signal::{SampleRate, Seconds};

/// How far around a beat its noise is measured.
const AROUND: Seconds = Seconds::new(1.0);
/// How many samples of that are looked at.
const LOOKED_AT: usize = 64;
/// The lower quartile of the steepness, against a usual beat, from which a place is noisy. At
/// most beats of quiet development records it is below 0.05.
const NOISY: f32 = 0.08;
/// How many neighbours make the usual height, and are asked how much they look like a beat.
const NEIGHBOURS: usize = 31;
/// A beat in noise is sure when it is this much like a quarter of its neighbours, and this high.
const SURE: (f32, f32) = (0.85, 0.75);
/// From how many sure intervals the usual one is taken, and how many there must be at least.
const INTERVALS: (usize, usize) = (12, 5);
/// By which factor (as a logarithm) an interval may differ from the usual one at no cost, and the
/// same in units of the spread of the intervals around: an irregular heart is free to be one.
const FREE: (f32, f32) = (0.18, 2.5);
/// What a greater difference costs: its square by this, up to that.
const COST: (f32, f32) = (8.0, 3.0);
/// What a beat is worth: its likeness above [`UNLIKE`] by this, and the logarithm of a height below
/// the usual by that.
const WORTH: (f32, f32) = (4.0, 0.5);
const UNLIKE: f32 = 0.5;
/// How many peaks in a row can be refused.
const LONGEST: usize = 40;

/// The beats of the likeliest chain, in order.
pub(super) fn likeliest(
    beats: Vec<Candidate>,
    band: &[f32],
    steepness: &[f32],
    rate: SampleRate,
) -> Vec<Candidate> {
    let worth = worths(&beats, band, steepness, rate);
    let Some(rhythm) = Rhythm::of(&beats, &worth) else { return beats };
    // The value of the best chain that ends with each beat, counted from the last sure one, and the
    // beat before it in that chain.
    let mut best: Vec<(f32, Option<usize>)> = Vec::with_capacity(beats.len());
    for (this, own) in worth.iter().enumerate() {
        let earliest = this.saturating_sub(LONGEST);
        let sure = (earliest..this).rev().find(|&before| worth[before].is_none());
        // Through the last sure beat every chain has to go; before the first, one may begin.
        let beginning = sure.is_none().then_some((0.0, None));
        let following = (sure.unwrap_or(earliest)..this)
            .map(|before| (best[before].0 - rhythm.cost(&beats, before, this), Some(before)));
        let (value, before) = beginning
            .into_iter()
            .chain(following)
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap_or((0.0, None));
        best.push((own.map_or(0.0, |own| value + own), before));
    }
    let last_sure = worth.iter().rposition(Option::is_none).unwrap_or(0);
    let last = (last_sure..beats.len()).max_by(|&a, &b| best[a].0.total_cmp(&best[b].0));
    let mut chain: Vec<Candidate> =
        std::iter::successors(last, |&beat| best[beat].1).map(|beat| beats[beat]).collect();
    chain.reverse();
    chain
}

/// What each beat adds to a chain; `None` for the sure ones, which are in every chain.
fn worths(
    beats: &[Candidate],
    band: &[f32],
    steepness: &[f32],
    rate: SampleRate,
) -> Vec<Option<f32>> {
    let shapes = Shapes::of(beats, band, rate);
    let places: Vec<usize> = (0..beats.len()).collect();
    (0..beats.len())
        .map(|this| {
            let others = nearest(&places, this, NEIGHBOURS);
            let usual = median(others.iter().map(|&other| beats[other].height))?;
            if noise(steepness, beats[this].at, rate) < NOISY * usual {
                return None;
            }
            let mut likeness: Vec<f32> = others
                .iter()
                .filter(|&&other| other != this)
                .map(|&other| shapes.likeness(this, other))
                .collect();
            let upper = likeness.len() * 3 / 4;
            likeness.sort_unstable_by(f32::total_cmp);
            let alike = *likeness.get(upper)?;
            let height = beats[this].height / usual;
            let is_sure = alike >= SURE.0 && height >= SURE.1;
            (!is_sure).then(|| WORTH.0 * (alike - UNLIKE) + WORTH.1 * height.min(1.0).ln())
        })
        .collect()
}

/// The lower quartile of the steepness around a place.
fn noise(steepness: &[f32], at: usize, rate: SampleRate) -> f32 {
    let reach = rate.count(AROUND);
    let around = &steepness[at.saturating_sub(reach)..(at + reach + 1).min(steepness.len())];
    lower_quartile(around, LOOKED_AT).unwrap_or(0.0)
}

/// What intervals are usual at each beat, as logarithms of samples.
struct Rhythm {
    usual: Vec<f32>,
    free: Vec<f32>,
}

impl Rhythm {
    /// From the intervals between sure beats; `None` when they are few.
    fn of(beats: &[Candidate], worth: &[Option<f32>]) -> Option<Self> {
        let sure = |&place: &usize| worth[place - 1].is_none() && worth[place].is_none();
        let places: Vec<usize> = (1..beats.len()).filter(sure).collect();
        let log = |&place: &usize| ((beats[place].at - beats[place - 1].at) as f32).ln();
        let intervals: Vec<f32> = places.iter().map(log).collect();
        if intervals.len() < INTERVALS.1 {
            return None;
        }
        let (mut usual, mut free) = (Vec::new(), Vec::new());
        for place in 0..beats.len() {
            let middle = places.partition_point(|&other| other < place);
            let around = nearest(&intervals, middle, INTERVALS.0);
            let typical = median(around.iter().copied())?;
            let spread = median(around.iter().map(|interval| (interval - typical).abs()))?;
            usual.push(typical);
            free.push(FREE.0.max(FREE.1 * spread));
        }
        Some(Self { usual, free })
    }

    /// What it costs to have one beat follow another.
    fn cost(&self, beats: &[Candidate], from: usize, to: usize) -> f32 {
        let interval = ((beats[to].at - beats[from].at) as f32).ln();
        let off = ((interval - self.usual[to]).abs() - self.free[to]).max(0.0);
        (COST.0 * off * off).min(COST.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ten beats a second apart in a band and its steepness, and noise around some of them.
    fn trace(noisy: std::ops::Range<usize>) -> (Vec<f32>, Vec<f32>) {
        let (mut band, mut steep) = (vec![0.0f32; 2200], vec![0.0f32; 2200]);
        steep[noisy].fill(0.2);
        for at in (1..=10).map(|beat| 200 * beat) {
            for (k, value) in [-0.2, 0.5, 1.0, 0.5, -0.2].into_iter().enumerate() {
                band[at - 2 + k] = value;
            }
            steep[at - 8..at + 8].fill(1.0);
        }
        (band, steep)
    }

    fn beats(extra: usize) -> Vec<Candidate> {
        let mut all: Vec<usize> = (1..=10).map(|beat| 200 * beat).chain([extra]).collect();
        all.sort_unstable();
        all.into_iter().map(|at| Candidate { at, height: 1.0 }).collect()
    }

    #[test]
    fn an_odd_beat_at_an_odd_time_goes_in_noise_and_stays_in_quiet() {
        let rate = SampleRate::new(200.0).unwrap();
        let (band, steep) = trace(850..1350);
        assert_eq!(likeliest(beats(1100), &band, &steep, rate).len(), 10);
        let (band, quiet) = trace(0..0);
        assert_eq!(likeliest(beats(1100), &band, &quiet, rate).len(), 11);
    }

    #[test]
    fn where_nothing_is_sure_nothing_is_refused() {
        let rate = SampleRate::new(200.0).unwrap();
        let (_, steep) = trace(0..2200);
        assert_eq!(likeliest(beats(1100), &[0.0; 2200], &steep, rate).len(), 11);
        assert_eq!(likeliest(Vec::new(), &[], &[], rate), []);
    }
}
