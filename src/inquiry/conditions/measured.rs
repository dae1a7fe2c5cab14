//! What is compared between conditions: one number of a recording, or one of each of its beats.
//!
//! Of a recording: the medians of the analysis over the beats that count, the rate of the mean interval, QTc of
//! the median QT with the median RR, SDNN and RMSSD after the Task Force (1996), and the height of R in the
//! typical beat, only in mV. Of single beats: intervals, rates and QTc, each with the RR that follows; what
//! needs many beats, or the level before the complex, has no value there.

use crate::analysis::{Beat, Intervals, Standing, corrected_qt, measure, median_beat, rhythm};
use crate::inquiry::stretch::Stretch;
use crate::lesson::Quantity;
use crate::signal::{Landmark, Milliseconds, VoltageUnit};
use crate::words::{Language, say};
use std::borrow::Cow;

/// A quantity that conditions are compared by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// One of the lesson.
    Of(Quantity),
    /// The standard deviation of the intervals that count, ms.
    Sdnn,
    /// The root of the mean square of the differences between neighbours, ms.
    Rmssd,
    /// The height of R above the line before the complex, mV.
    RHeight,
}

impl Measured {
    /// All of them.
    pub const ALL: [Self; 12] = {
        let [pr, qrs, qt, bazett, fridericia, framingham, hodges, rr, rate] = Quantity::ALL;
        [
            Self::Of(rate),
            Self::Of(rr),
            Self::Of(pr),
            Self::Of(qrs),
            Self::Of(qt),
            Self::Of(bazett),
            Self::Of(fridericia),
            Self::Of(framingham),
            Self::Of(hodges),
            Self::Sdnn,
            Self::Rmssd,
            Self::RHeight,
        ]
    };

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Of(quantity) => quantity.key(),
            Self::Sdnn => "sdnn",
            Self::Rmssd => "rmssd",
            Self::RHeight => "r_height",
        }
    }

    /// What it is called.
    pub fn name(self, language: Language) -> Cow<'static, str> {
        match self {
            Self::Of(quantity) => say(language, &quantity.name_key()),
            other => say(language, &format!("conditions.measured.{}", other.key())),
        }
    }

    /// The unit of its values.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Of(quantity) => quantity.unit(),
            Self::Sdnn | Self::Rmssd => "ms",
            Self::RHeight => "mV",
        }
    }

    /// How many decimals its values are shown with.
    pub const fn decimals(self) -> usize {
        match self {
            Self::RHeight => 2,
            _ => 1,
        }
    }

    /// The value of a whole stretch; `None` where it can't be measured.
    pub fn of(self, stretch: &Stretch<'_>) -> Option<f64> {
        let recording = stretch.evidence.recording;
        let beats = stretch.beats();
        let variability = || rhythm(stretch.series()).variability;
        match self {
            Self::Of(quantity) => of_intervals(quantity, measure(stretch.series())),
            Self::Sdnn => Some(variability()?.sdnn.milliseconds()),
            Self::Rmssd => Some(variability()?.rmssd?.milliseconds()),
            Self::RHeight => {
                let polarity = stretch.evidence.reading.polarity;
                let height = median_beat(recording, beats, polarity)?.height(Landmark::R);
                height.filter(|_| recording.unit == VoltageUnit::Millivolt)
            }
        }
    }

    /// The value of each single beat that counts, in order; empty for what no single beat has.
    pub fn of_beats(self, stretch: &Stretch<'_>) -> Vec<f64> {
        let Self::Of(quantity) = self else { return Vec::new() };
        let series = stretch.series();
        let (recording, beats) = (series.recording(), series.beats());
        let step = recording.rate.interval().to_milliseconds().milliseconds();
        let ms = |beat: &Beat, from, to| {
            let samples = beat.landmarks.between(from, to).filter(|&samples| samples > 0)?;
            let (from, to) = (beat.landmarks.at(from)?, beat.landmarks.at(to)?);
            (!series.is_broken_between(from, to)).then_some(samples as f64 * step)
        };
        let of_wave = |from, to| {
            let counted = beats.iter().filter(|beat| beat.standing == Standing::Counts);
            counted.filter_map(|beat| ms(beat, from, to)).collect()
        };
        let counted = || {
            let all = rhythm(series).intervals.into_iter();
            all.filter_map(|rr| Some((rr.from, rr.counted()?)))
        };
        match quantity {
            Quantity::Pr => of_wave(Landmark::POnset, Landmark::QrsOnset),
            Quantity::Qrs => of_wave(Landmark::QrsOnset, Landmark::QrsEnd),
            Quantity::Qt => of_wave(Landmark::QrsOnset, Landmark::TEnd),
            Quantity::Rr => counted().map(|(_, rr)| rr.milliseconds()).collect(),
            Quantity::Rate => counted().map(|(_, rr)| 60_000.0 / rr.milliseconds()).collect(),
            Quantity::Qtc(by) => counted()
                .filter_map(|(from, rr)| {
                    let place = beats.binary_search_by_key(&from, |beat| beat.r).ok()?;
                    let qt = ms(beats.get(place)?, Landmark::QrsOnset, Landmark::TEnd)?;
                    Some(corrected_qt(by, Milliseconds::new(qt), rr.to_seconds())?.milliseconds())
                })
                .collect(),
        }
    }
}

fn of_intervals(quantity: Quantity, found: Intervals) -> Option<f64> {
    let measured = match quantity {
        Quantity::Pr => found.pr_ms,
        Quantity::Qrs => found.qrs_ms,
        Quantity::Qt => found.qt_ms,
        Quantity::Rr => found.rr_ms,
        Quantity::Rate => found.rate_bpm,
        Quantity::Qtc(by) => {
            let qt = Milliseconds::new(found.qt_ms?.value);
            let rr = Milliseconds::new(found.rr_ms?.value).to_seconds();
            return Some(corrected_qt(by, qt, rr)?.milliseconds());
        }
    };
    Some(measured?.value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Evidence, example};

    #[test]
    fn every_quantity_of_the_worked_example() {
        let (recording, reading) = example::of_beats(6);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let stretch = Stretch::whole(evidence);
        let right = [75.0, 800.0, 140.0, 88.0, 360.0, 402.5, 387.8, 390.8, 386.25, 0.0, 0.0];
        for (measured, right) in Measured::ALL.into_iter().zip(right) {
            let found = measured.of(&stretch).unwrap();
            assert!((found - right).abs() < 0.05, "{measured:?}: {found}");
            if let Measured::Of(_) = measured {
                let beats = measured.of_beats(&stretch);
                assert!(beats.len() >= 5, "{measured:?}");
                assert!(beats.iter().all(|beat| (beat - right).abs() < 0.05), "{measured:?}");
            }
        }
        assert!(Measured::Sdnn.of_beats(&stretch).is_empty());
    }

    #[test]
    fn nothing_is_measured_of_no_beats() {
        let (recording, reading) = example::of_beats(0);
        let evidence = Evidence { recording: &recording, reading: &reading };
        for measured in Measured::ALL {
            assert_eq!(measured.of(&Stretch::whole(evidence)), None);
            assert!(measured.of_beats(&Stretch::whole(evidence)).is_empty());
        }
    }
}
