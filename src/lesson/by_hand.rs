//! Measuring by hand on the paper grid: a pair of calipers, boxes counted, and three ways to a rate.
//!
//! At 25 mm/s and 10 mm/mV a small box is 40 ms by 0.1 mV and a large box 200 ms by 0.5 mV
//! (Kligfield 2007, Circulation 115:1306). The rules 300 over large boxes, 1500 over small boxes and ten
//! times the beats in six seconds follow from that; they are what teaching pages give. A hand counts
//! whole boxes, so each rule has an error of its own, which is told beside it.

use crate::analysis::BeatSeries;
use crate::signal::{
    BeatsPerMinute, Milliseconds, Millivolts, Recording, SampleIndex, SampleSpan, Seconds,
    VoltageUnit,
};

/// A small box across, ms.
const SMALL_BOX: f64 = 40.0;
/// A large box across, ms.
const LARGE_BOX: f64 = 200.0;
/// A small box up, mV.
const SMALL_BOX_UP: f64 = 0.1;
/// How long beats are counted, s.
const COUNTED: Seconds = Seconds::new(6.0);
/// How far a leg may stand from an R that is meant, s: further away it stands on another wave.
const ON_R: f64 = 0.1;

/// What a pair of calipers spans.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spanned {
    /// From leg to leg.
    pub time: Milliseconds,
    /// The same in small boxes.
    pub small_boxes: f64,
    /// The same in large boxes.
    pub large_boxes: f64,
    /// How much higher the trace is at the right leg; `None` without millivolts, or in a hole.
    pub height: Option<Millivolts>,
    /// The same in small boxes.
    pub height_boxes: Option<f64>,
}

/// Measures what a pair of calipers spans on a trace.
pub fn spanned(recording: &Recording, legs: SampleSpan) -> Spanned {
    let time = legs.len() as f64 * 1000.0 / recording.rate.hz();
    let value = |leg: SampleIndex| {
        let is_shown = recording.unit == VoltageUnit::Millivolt && recording.hole_at(leg).is_none();
        recording.samples.get(leg.get()).filter(|_| is_shown).map(|&value| f64::from(value))
    };
    let height = value(legs.end()).zip(value(legs.start())).map(|(right, left)| right - left);
    Spanned {
        time: Milliseconds::new(time),
        small_boxes: time / SMALL_BOX,
        large_boxes: time / LARGE_BOX,
        height: height.map(Millivolts::new),
        height_boxes: height.map(|height| height / SMALL_BOX_UP),
    }
}

/// A way to a rate with paper and pencil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandRule {
    /// 300 over the large boxes from R to R.
    LargeBoxes,
    /// 1500 over the small boxes from R to R.
    SmallBoxes,
    /// Ten times the beats in six seconds from the left leg.
    SixSeconds,
}

/// A rate by one of the rules, beside what is computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandRate {
    /// The rule.
    pub rule: HandRule,
    /// What was counted, in whole boxes or beats.
    pub counted: usize,
    /// The rate by the rule.
    pub rate: BeatsPerMinute,
    /// The lowest and the highest rate that give the same count; for beats, those of one beat less and more.
    pub between: (BeatsPerMinute, BeatsPerMinute),
    /// The rate that the app computes from the same beats.
    pub computed: BeatsPerMinute,
}

impl HandRate {
    /// How much the rule gives too much.
    pub fn error(&self) -> f64 {
        self.rate.per_minute() - self.computed.per_minute()
    }
}

/// Why a rule gives no rate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoHandRate {
    /// The legs do not stand on two R waves that follow each other.
    NotOnBeats,
    /// They do, but so near that not one whole box lies between them.
    TooNear,
    /// The recording ends, or breaks off, within the six seconds.
    TooShort,
    /// There are fewer than two beats in the six seconds.
    TooFewBeats,
}

/// The rate by a rule, for calipers on a trace whose beats are known.
///
/// # Errors
/// [`NoHandRate`] says why there is none.
pub fn rate_by_hand(
    rule: HandRule,
    series: BeatSeries<'_>,
    legs: SampleSpan,
) -> Result<HandRate, NoHandRate> {
    match rule {
        HandRule::LargeBoxes => by_boxes(rule, LARGE_BOX, series, legs),
        HandRule::SmallBoxes => by_boxes(rule, SMALL_BOX, series, legs),
        HandRule::SixSeconds => by_counting(series, legs.start()),
    }
}

fn by_boxes(
    rule: HandRule,
    width: f64,
    series: BeatSeries<'_>,
    legs: SampleSpan,
) -> Result<HandRate, NoHandRate> {
    let rr = rr_between(series, legs).ok_or(NoHandRate::NotOnBeats)?;
    let boxes = spanned(series.recording(), legs).time.milliseconds() / width;
    let counted = boxes.round();
    if counted < 1.0 {
        return Err(NoHandRate::TooNear);
    }
    let rate = |boxes: f64| BeatsPerMinute::new(60_000.0 / width / boxes);
    Ok(HandRate {
        rule,
        counted: counted as usize,
        rate: rate(counted),
        between: (rate(counted + 0.5), rate(counted - 0.5)),
        computed: BeatsPerMinute::new(60.0 / rr.seconds()),
    })
}

/// The RR interval whose two R waves the legs stand on.
fn rr_between(series: BeatSeries<'_>, legs: SampleSpan) -> Option<Seconds> {
    let rate = series.recording().rate;
    let near = |leg: SampleIndex| {
        let (place, beat) = series
            .beats()
            .iter()
            .enumerate()
            .min_by_key(|(_, beat)| beat.r.minus(leg).unsigned_abs())?;
        let away = beat.r.minus(leg).unsigned_abs() as f64 / rate.hz();
        (away <= ON_R).then_some((place, beat.r))
    };
    let ((first, from), (second, to)) = (near(legs.start())?, near(legs.end())?);
    let follows = series.next(first).is_some() && second == first + 1;
    follows.then(|| rate.time_of(to) - rate.time_of(from))
}

fn by_counting(series: BeatSeries<'_>, from: SampleIndex) -> Result<HandRate, NoHandRate> {
    let recording = series.recording();
    let to = SampleIndex::new(from.get() + recording.rate.count(COUNTED));
    if to.get() > recording.samples.len() || series.is_broken_between(from, to) {
        return Err(NoHandRate::TooShort);
    }
    let in_time: Vec<SampleIndex> =
        series.beats().iter().map(|beat| beat.r).filter(|r| (from..to).contains(r)).collect();
    let [first, .., last] = in_time.as_slice() else { return Err(NoHandRate::TooFewBeats) };
    let counted = in_time.len();
    let per_beat = 60.0 / COUNTED.seconds();
    let rate = |beats: usize| BeatsPerMinute::new(beats as f64 * per_beat);
    let seconds = (recording.rate.time_of(*last) - recording.rate.time_of(*first)).seconds();
    Ok(HandRate {
        rule: HandRule::SixSeconds,
        counted,
        rate: rate(counted),
        between: (rate(counted - 1), rate(counted + 1)),
        computed: BeatsPerMinute::new((counted - 1) as f64 * 60.0 / seconds),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Beat;
    use crate::signal::{Hole, HoleCause, SampleRate};

    fn recording(seconds: usize) -> Recording {
        Recording {
            name: "lead I".to_owned(),
            rate: SampleRate::new(500.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: (0..seconds * 500)
                .map(|at| (at % 100) as f32 / 100.0)
                .collect::<Vec<_>>()
                .into(),
            holes: Vec::new(),
            marks: Vec::new(),
        }
    }

    fn beats_every(samples: usize, count: usize) -> Vec<Beat> {
        let beat = |at: usize| Beat::at(SampleIndex::new(at));
        (1..=count).map(|number| beat(number * samples)).collect()
    }

    fn rate(rule: HandRule, rr_ms: usize) -> HandRate {
        let rr = rr_ms / 2;
        let legs = SampleSpan::new(rr, 2 * rr);
        let (recording, beats) = (recording(20), beats_every(rr, 9_999 / rr));
        rate_by_hand(rule, BeatSeries::new(&recording, &beats, &[]), legs).unwrap()
    }

    #[test]
    fn boxes_and_volts_are_counted() {
        let found = spanned(&recording(2), SampleSpan::new(110, 510));
        assert_eq!((found.time.milliseconds(), found.small_boxes), (800.0, 20.0));
        assert_eq!((found.large_boxes, found.height.unwrap().millivolts()), (4.0, 0.0));
        let up = spanned(&recording(2), SampleSpan::new(100, 150));
        assert!((up.height_boxes.unwrap() - 5.0).abs() < 1e-6);
    }

    /// Rules of teaching pages: 300 over large, 1500 over small boxes, ten times the beats in 6 s.
    #[test]
    fn the_rules_give_their_table() {
        for (rr, large, small) in [(200, 300.0, 300.0), (600, 100.0, 100.0), (680, 100.0, 88.24)] {
            assert!((rate(HandRule::LargeBoxes, rr).rate.per_minute() - large).abs() < 0.01);
            assert!((rate(HandRule::SmallBoxes, rr).rate.per_minute() - small).abs() < 0.01);
        }
        let counted = rate(HandRule::SixSeconds, 800);
        assert_eq!((counted.counted, counted.rate.per_minute()), (8, 80.0));
        assert!((counted.computed.per_minute() - 75.0).abs() < 1e-9);
        assert!((counted.error() - 5.0).abs() < 1e-9);
    }

    #[test]
    fn the_true_rate_lies_within_what_the_count_allows() {
        for rr in (300..2000).step_by(34) {
            for rule in [HandRule::LargeBoxes, HandRule::SmallBoxes, HandRule::SixSeconds] {
                let HandRate { between: (low, high), computed, .. } = rate(rule, rr);
                let range = low.per_minute() - 1e-9..=high.per_minute() + 1e-9;
                assert!(range.contains(&computed.per_minute()), "{rule:?} at {rr} ms");
            }
        }
    }

    #[test]
    fn there_is_no_rate_without_two_beats() {
        let (whole, beats) = (recording(10), beats_every(400, 10));
        let by = |rule, from, to| {
            let series = BeatSeries::new(&whole, &beats, &[]);
            rate_by_hand(rule, series, SampleSpan::new(from, to)).map(|_| ())
        };
        assert_eq!(by(HandRule::SmallBoxes, 400, 1200), Err(NoHandRate::NotOnBeats));
        assert_eq!(by(HandRule::SmallBoxes, 460, 800), Err(NoHandRate::NotOnBeats));
        assert_eq!(by(HandRule::SmallBoxes, 440, 770), Ok(()));
        assert_eq!(by(HandRule::SixSeconds, 2500, 2900), Err(NoHandRate::TooShort));
        let mut broken = recording(10);
        let (span, legs) = (SampleSpan::new(500, 600), SampleSpan::new(400, 800));
        broken.holes.push(Hole { span, cause: HoleCause::NoValue });
        let noisy = BeatSeries::new(&whole, &beats, std::slice::from_ref(&span));
        for series in [BeatSeries::new(&broken, &beats, &[]), noisy] {
            let none = rate_by_hand(HandRule::LargeBoxes, series, legs);
            assert_eq!(none, Err(NoHandRate::NotOnBeats));
            let none = rate_by_hand(HandRule::SixSeconds, series, legs);
            assert_eq!(none, Err(NoHandRate::TooShort));
        }
        let none = rate_by_hand(HandRule::SixSeconds, BeatSeries::new(&whole, &[], &[]), legs);
        assert_eq!(none, Err(NoHandRate::TooFewBeats));
    }
}
