//! The intervals of the cycle over the beats that count.
//!
//! PR runs from P onset to QRS onset, also where there is no Q; QRS from its onset to its end; QT from
//! QRS onset to T end (AHA/ACCF/HRS 2009, J Am Coll Cardiol 53:976 and 53:982). RR runs from R to the
//! next R, and counts when both beats do and nothing is missing between them: what the Task Force
//! (1996, Eur Heart J 17:354) calls a normal-to-normal interval. The rate
//! is that of the mean RR: beats by the time they took, as counting them gives. The mean of the single
//! rates would be higher; only their spread is used.
//!
//! An interval across a hole, or a stretch that can't be used, is not measured ([`BeatSeries`]). No beats, or none that count, give no measurements.

use super::measurement::{Intervals, Measurement};
use super::reading::{Beat, Standing};
use super::rhythm::rhythm;
use super::series::BeatSeries;
use super::uncertainty::sampling_uncertainty;
use crate::signal::{Landmark, SampleIndex};

/// Measures the beats that count.
pub fn measure(series: BeatSeries<'_>) -> Intervals {
    let sampling = sampling_uncertainty(series.recording().rate);
    let between = |from: Landmark, to: Landmark| {
        let whole =
            |beat: &Beat| milliseconds(series, beat.landmarks.at(from)?, beat.landmarks.at(to)?);
        let beats = series.beats().iter();
        let values: Vec<f64> = beats.filter(|beat| counts(beat)).filter_map(whole).collect();
        Measurement::of(&values, sampling)
    };
    let rr = rr_intervals(series);
    Intervals {
        pr_ms: between(Landmark::POnset, Landmark::QrsOnset),
        qrs_ms: between(Landmark::QrsOnset, Landmark::QrsEnd),
        qt_ms: between(Landmark::QrsOnset, Landmark::TEnd),
        rr_ms: Measurement::of(&rr, sampling),
        rate_bpm: Measurement::rate_of(&rr, sampling),
    }
}

/// The RR intervals that count, in ms, in order.
fn rr_intervals(series: BeatSeries<'_>) -> Vec<f64> {
    let intervals = rhythm(series).intervals;
    intervals.iter().filter_map(|rr| Some(rr.counted()?.milliseconds())).collect()
}

fn counts(beat: &Beat) -> bool {
    beat.standing == Standing::Counts
}

/// From one sample to a later one, in ms; `None` across a hole, or when they are not in that order.
fn milliseconds(series: BeatSeries<'_>, from: SampleIndex, to: SampleIndex) -> Option<f64> {
    let samples = to.get().checked_sub(from.get()).filter(|&samples| samples > 0)?;
    let is_whole = !series.is_broken_between(from, to);
    is_whole.then(|| {
        samples as f64 * series.recording().rate.interval().to_milliseconds().milliseconds()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::WhySetAside;
    use crate::signal::{Hole, HoleCause, Recording, SampleRate, SampleSpan, VoltageUnit};

    fn recording(hole: Option<SampleSpan>) -> Recording {
        Recording {
            name: String::new(),
            rate: SampleRate::new(1000.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: vec![0.0; 6000].into(),
            holes: hole.map(|span| Hole { span, cause: HoleCause::NoRows }).into_iter().collect(),
            marks: Vec::new(),
        }
    }

    fn beat(r: usize) -> Beat {
        Beat::at(SampleIndex::new(r))
    }

    #[test]
    fn the_worked_example_of_invented_landmarks() {
        // `intervals-01`: R at 278 and 1078 ms; P onset 100, QRS 240 to 328, T end 600 ms.
        let mut first = beat(278);
        for (landmark, at) in [
            (Landmark::POnset, 100),
            (Landmark::QrsOnset, 240),
            (Landmark::QrsEnd, 328),
            (Landmark::TEnd, 600),
        ] {
            first.landmarks.set(landmark, Some(SampleIndex::new(at)));
        }
        let (recording, beats) = (recording(None), [first, beat(1078)]);
        let measured = measure(BeatSeries::new(&recording, &beats, &[]));
        let value = |measurement: Option<Measurement>| measurement.map(|m| (m.value, m.n));
        assert_eq!(value(measured.pr_ms), Some((140.0, 1)));
        assert_eq!(value(measured.qrs_ms), Some((88.0, 1)));
        assert_eq!(value(measured.qt_ms), Some((360.0, 1)));
        assert_eq!(value(measured.rr_ms), Some((800.0, 1)));
        assert_eq!(value(measured.rate_bpm), Some((75.0, 1)));
    }

    #[test]
    fn neither_a_hole_nor_a_beat_set_aside_is_bridged() {
        let mut beats = [beat(500), beat(1300), beat(2100), beat(3500), beat(4310)];
        beats[2].standing = Standing::SetAside(WhySetAside::OtherShape);
        let rr = |hole, unusable: &[SampleSpan]| {
            rr_intervals(BeatSeries::new(&recording(hole), &beats, unusable))
        };
        assert_eq!(
            rr(None, &[]),
            [800.0, 810.0],
            "1300 to 2100 and 2100 to 3500 touch the beat set aside"
        );
        let early = SampleSpan::new(900, 950);
        assert_eq!(rr(Some(early), &[]), [810.0]);
        assert_eq!(rr(None, &[early]), [810.0], "recorded, but of no use");
        assert_eq!(measure(BeatSeries::new(&recording(None), &[], &[])), Intervals::default());
    }
}
