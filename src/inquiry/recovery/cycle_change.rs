//! What shortens in the cycle: the typical beat at rest beside that of early recovery.
//!
//! At rest all beats that count are laid over each other, in recovery those of the first [`EARLY`] only: later
//! ones belong to another rate. PR, QRS and QT are read from these median beats; RR is the median of the same
//! beats' intervals; TP, from T end to the next P onset, is what they leave of it: RR - PR - QT. QTc takes
//! that RR. An uncertainty is that of the median of the single beats (`analysis/uncertainty.rs`: sampling and
//! scatter, k = 2), and those of what is computed follow by the law of propagation (JCGM 100:2008, 5.1.2). A
//! wave that can't be found, as P at a fast rate that runs into T, leaves its intervals without a value.

use super::no_number::{NoNumber, Side};
use crate::analysis::{
    Beat, BeatSeries, Intervals, Measurement, MedianBeat, QtCorrection, Standing, corrected_qt,
    measure, median_beat, sampling_uncertainty,
};
use crate::inquiry::stretch::Stretch;
use crate::lesson::{Quantity, Sampled};
use crate::signal::{Landmark, Milliseconds, Seconds, VoltageUnit};
use crate::words::{Language, say};
use std::borrow::Cow;

/// How much of recovery the typical beat is made from: some thirty beats, and the rate is still near its
/// highest (common practice).
pub const EARLY: Seconds = Seconds::new(20.0);

/// A quantity of the cycle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CycleQuantity {
    /// One of the lesson.
    Of(Quantity),
    /// From T end to the next P onset, ms: the pause in which nothing is seen.
    Tp,
}

/// The typical beat of one condition.
#[derive(Clone, Debug, PartialEq)]
pub struct TypicalBeat {
    /// Its samples and points.
    pub beat: MedianBeat,
    /// What the samples are.
    pub unit: VoltageUnit,
    /// From the first to the last of the beats it is made of, in the time of their recording.
    pub from: Seconds,
    /// See `from`.
    pub to: Seconds,
    /// The values, in the order of [`CycleQuantity::ALL`]; `None` is not measurable.
    values: [Option<Sampled>; 10],
}

/// One quantity at rest and in recovery.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Which.
    pub quantity: CycleQuantity,
    /// At rest.
    pub rest: Option<Sampled>,
    /// In early recovery.
    pub recovery: Option<Sampled>,
    /// Recovery less rest.
    pub difference: Option<Sampled>,
    /// The difference in percent of the value at rest.
    pub percent: Option<f64>,
}

impl CycleQuantity {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 10] = [
        Self::Of(Quantity::Rr),
        Self::Of(Quantity::Rate),
        Self::Of(Quantity::Pr),
        Self::Of(Quantity::Qrs),
        Self::Of(Quantity::Qt),
        Self::Tp,
        Self::Of(Quantity::Qtc(QtCorrection::Bazett)),
        Self::Of(Quantity::Qtc(QtCorrection::Fridericia)),
        Self::Of(Quantity::Qtc(QtCorrection::Framingham)),
        Self::Of(Quantity::Qtc(QtCorrection::Hodges)),
    ];
    /// The parts of a cycle that are asked which shortened most.
    pub const PARTS: [Self; 4] =
        [Self::Of(Quantity::Pr), Self::Of(Quantity::Qrs), Self::Of(Quantity::Qt), Self::Tp];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Of(quantity) => quantity.key(),
            Self::Tp => "tp",
        }
    }

    /// What it is called.
    pub fn name(self, language: Language) -> Cow<'static, str> {
        match self {
            Self::Of(quantity) => say(language, &quantity.name_key()),
            Self::Tp => say(language, "recovery.tp"),
        }
    }

    /// The unit of its values.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Of(quantity) => quantity.unit(),
            Self::Tp => "ms",
        }
    }
}

impl TypicalBeat {
    /// The typical beat of a condition: of all of it at rest, of its first [`EARLY`] in recovery.
    ///
    /// # Errors
    /// [`NoNumber`] when there is none.
    pub fn of(stretch: &Stretch<'_>, side: Side) -> Result<Self, NoNumber> {
        let recording = stretch.evidence.recording;
        let all = stretch.beats();
        let beats = match side {
            Side::Rest => all,
            Side::Recovery => {
                let end = recording.rate.nearest(stretch.start() + EARLY);
                all.get(..all.partition_point(|beat| beat.r < end)).unwrap_or_default()
            }
        };
        let counted = beats.iter().filter(|beat| beat.standing == Standing::Counts);
        let (first, last) = (counted.clone().next(), counted.clone().next_back());
        let (Some(first), Some(last)) = (first, last) else {
            return Err(NoNumber::Empty(side));
        };
        let beat = median_beat(recording, beats, stretch.evidence.reading.polarity)
            .ok_or(NoNumber::TooFewBeats { side, found: counted.count(), needed: 3 })?;
        let time = |beat: &Beat| recording.rate.time_of(beat.r);
        let series = BeatSeries::new(recording, beats, &stretch.evidence.reading.unusable);
        let values = values(&beat, measure(series));
        Ok(Self { values, beat, unit: recording.unit, from: time(first), to: time(last) })
    }

    /// One of its values; `None` is not measurable.
    pub fn value(&self, quantity: CycleQuantity) -> Option<Sampled> {
        let place = CycleQuantity::ALL.iter().position(|one| *one == quantity)?;
        self.values.get(place).copied().flatten()
    }
}

/// All values of a median beat, with the uncertainties of the single beats.
fn values(beat: &MedianBeat, single: Intervals) -> [Option<Sampled>; 10] {
    let sampling = sampling_uncertainty(beat.rate);
    let between = |from, to, single: Option<Measurement>| {
        let samples = beat.landmarks.between(from, to).filter(|&samples| samples > 0)?;
        let value = samples as f64 * beat.rate.interval().to_milliseconds().milliseconds();
        let expanded_uncertainty = single.map_or(sampling, |single| single.expanded_uncertainty);
        Some(Sampled { value, expanded_uncertainty })
    };
    let of = |measured: Option<Measurement>| {
        let Measurement { value, expanded_uncertainty, .. } = measured?;
        Some(Sampled { value, expanded_uncertainty })
    };
    let pr = between(Landmark::POnset, Landmark::QrsOnset, single.pr_ms);
    let qrs = between(Landmark::QrsOnset, Landmark::QrsEnd, single.qrs_ms);
    let qt = between(Landmark::QrsOnset, Landmark::TEnd, single.qt_ms);
    let (rr, rate) = (of(single.rr_ms), of(single.rate_bpm));
    let corrected = |by: QtCorrection| {
        let (qt, rr) = (qt?, rr?);
        let (qt_ms, rr_s) = (Milliseconds::new(qt.value), Milliseconds::new(rr.value).to_seconds());
        let (by_qt, by_rr) = by.sensitivities(qt_ms, rr_s);
        let (from_qt, from_rr) = (by_qt * qt.expanded_uncertainty, by_rr * rr.expanded_uncertainty);
        let value = corrected_qt(by, qt_ms, rr_s)?.milliseconds();
        Some(Sampled { value, expanded_uncertainty: from_qt.hypot(from_rr) })
    };
    CycleQuantity::ALL.map(|quantity| match quantity {
        CycleQuantity::Of(Quantity::Rr) => rr,
        CycleQuantity::Of(Quantity::Rate) => rate,
        CycleQuantity::Of(Quantity::Pr) => pr,
        CycleQuantity::Of(Quantity::Qrs) => qrs,
        CycleQuantity::Of(Quantity::Qt) => qt,
        CycleQuantity::Of(Quantity::Qtc(by)) => corrected(by),
        CycleQuantity::Tp => {
            let (rr, pr, qt) = (rr?, pr?, qt?);
            let value = rr.value - pr.value - qt.value;
            let expanded_uncertainty = rr
                .expanded_uncertainty
                .hypot(pr.expanded_uncertainty)
                .hypot(qt.expanded_uncertainty);
            (value > 0.0).then_some(Sampled { value, expanded_uncertainty })
        }
    })
}

/// Every quantity at rest and in recovery, in the order of the table.
pub fn changes(rest: &TypicalBeat, recovery: &TypicalBeat) -> Vec<Change> {
    let change = |quantity| {
        let (rest, recovery) = (rest.value(quantity), recovery.value(quantity));
        let difference = rest.zip(recovery).map(|(rest, recovery)| Sampled {
            value: recovery.value - rest.value,
            expanded_uncertainty: rest.expanded_uncertainty.hypot(recovery.expanded_uncertainty),
        });
        let percent = difference.zip(rest).map(|(by, rest)| 100.0 * by.value / rest.value);
        Change { quantity, rest, recovery, difference, percent }
    };
    CycleQuantity::ALL.into_iter().map(change).collect()
}

impl Change {
    /// Whether it got shorter by more than the difference may be off.
    pub fn is_shorter(&self) -> bool {
        self.difference.is_some_and(|by| by.value < -by.expanded_uncertainty)
    }
}

/// The part of the cycle that shortened most, first in ms, then in percent; `None` where none surely did.
pub fn shortened_most(changes: &[Change]) -> Option<(Change, Change)> {
    let parts = || {
        let is_part = |change: &&Change| CycleQuantity::PARTS.contains(&change.quantity);
        changes.iter().filter(is_part).filter(|change| change.is_shorter())
    };
    let by = |change: &Change| change.difference.map_or(0.0, |by| by.value);
    let percent = |change: &Change| change.percent.unwrap_or_default();
    let in_ms = parts().min_by(|a, b| by(a).total_cmp(&by(b)))?;
    let in_percent = parts().min_by(|a, b| percent(a).total_cmp(&percent(b)))?;
    Some((*in_ms, *in_percent))
}
