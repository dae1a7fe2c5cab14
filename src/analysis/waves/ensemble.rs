//! What neighbouring beats have in common.
//!
//! Averaging beats that are laid over each other keeps what they share and wears down what they do
//! not, as in the signal-averaged ECG. The mean leaves out the lowest and the highest quarter at each
//! point, so that an odd beat or a burst of noise does not spoil it.

use super::columns;
use super::evidence::Evidence;

/// The fewest beats worth averaging.
const FEWEST: usize = 3;

/// How much of a blended beat is what it shares with the others.
const SHARED: f64 = 0.6;

/// The mean transform of some beats by distance from their anchors.
#[derive(Clone, Debug)]
pub(super) struct Ensemble {
    /// The distance of the first entry.
    pub(super) first: isize,
    /// The mean of the middle half of the beats; 0 where too few reach.
    pub(super) mean: Vec<f64>,
    /// The mean square over all beats.
    pub(super) power: Vec<f64>,
    /// How many beats reach; 0 where fewer than half do.
    pub(super) count: Vec<usize>,
}

/// How well one beat fits an ensemble.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    /// How much later than its anchor says it lies.
    pub(super) shift: isize,
    /// Its height in units of the ensemble's.
    pub(super) share: f64,
    /// The correlation of the two, -1 to 1.
    pub(super) likeness: f64,
}

impl Ensemble {
    /// Averages beats from `first` to `last` samples after their anchors; `None` when they are few.
    pub(super) fn of(beats: &[&Evidence], first: isize, last: isize) -> Option<Self> {
        if beats.len() < FEWEST {
            return None;
        }
        let lags = usize::try_from(last - first + 1).unwrap_or(0);
        let mut rows: Vec<Vec<f64>> = beats.iter().map(|beat| beat.row(first, lags)).collect();
        let mut shared =
            Self { first, mean: vec![0.0; lags], power: vec![0.0; lags], count: vec![0; lags] };
        for row in &rows {
            let sums = shared.power.iter_mut().zip(&mut shared.count);
            for ((power, count), value) in sums.zip(row).filter(|(_, value)| value.is_finite()) {
                *power += value * value;
                *count += 1;
            }
        }
        for (power, count) in shared.power.iter_mut().zip(&mut shared.count) {
            if *count * 2 < beats.len() || *count < FEWEST {
                (*power, *count) = (0.0, 0);
            }
            *power /= (*count).max(1) as f64;
        }
        // What a beat does not reach comes last; where few reach, nothing is asked.
        let is_known = |count: &usize| *count > 0;
        let first_known = shared.count.iter().position(is_known).unwrap_or(0);
        let known = first_known..shared.count.iter().rposition(is_known).map_or(0, |last| last + 1);
        let known = rows.iter_mut().filter_map(|row| row.get_mut(known.clone()));
        columns::ascend(&mut known.collect::<Vec<_>>());
        for (place, row) in rows.iter().enumerate() {
            for ((mean, &count), value) in shared.mean.iter_mut().zip(&shared.count).zip(row) {
                if (count / 4..count - count / 4).contains(&place) {
                    *mean += value;
                }
            }
        }
        for (mean, &count) in shared.mean.iter_mut().zip(&shared.count) {
            *mean /= (count - 2 * (count / 4)).max(1) as f64;
        }
        Some(shared)
    }

    /// The mean at a distance, where enough beats reach.
    pub(super) fn at_lag(&self, lag: isize) -> Option<f64> {
        let index = usize::try_from(lag - self.first).ok()?;
        self.mean.get(index).copied().filter(|_| self.count.get(index).is_some_and(|&n| n > 0))
    }

    /// Where within `reach` a beat fits best, judged from `from` to `to` samples after the anchor.
    pub(super) fn fit(&self, beat: &Evidence, from: isize, to: isize, reach: isize) -> Fit {
        let mut best = Fit { shift: 0, share: f64::NEG_INFINITY, likeness: 0.0 };
        let mean: Vec<f64> = (from..=to).map(|lag| self.at_lag(lag).unwrap_or(0.0)).collect();
        let shared: f64 = mean.iter().map(|mean| mean * mean).sum();
        let lags = from - reach..=to + reach;
        let values: Vec<f64> = lags.map(|lag| beat.at_lag(lag).unwrap_or(0.0)).collect();
        // For each shift the product with the mean and the power; all shifts go through it together.
        let shifts = (values.len() + 1).saturating_sub(mean.len().max(1));
        let (mut products, mut powers) = (vec![0.0; shifts], vec![0.0; shifts]);
        for (mean, values) in mean.iter().zip(values.windows(shifts.max(1))) {
            for ((product, power), value) in products.iter_mut().zip(&mut powers).zip(values) {
                *product += mean * value;
                *power += value * value;
            }
        }
        for ((shift, product), power) in (-reach..=reach).zip(products).zip(powers) {
            let share = if shared > 0.0 { product / shared } else { 0.0 };
            if share > best.share {
                let power = power * shared;
                let likeness = if power > 0.0 { product / power.sqrt() } else { 0.0 };
                best = Fit { shift, share, likeness };
            }
        }
        best
    }

    /// A beat with [`SHARED`] of itself replaced by what it shares with the others.
    pub(super) fn blend(&self, beat: &Evidence) -> Evidence {
        let values = beat.values.iter().enumerate().map(|(index, &own)| {
            self.at_lag(beat.lag(index)).map_or(own, |shared| own + SHARED * (shared - own))
        });
        Evidence { values: values.collect(), ..beat.clone() }
    }
}
