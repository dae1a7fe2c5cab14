//! The course of the heart rate: one value for each interval, and a smooth line through those that count.
//!
//! Each RR interval gives 60 / RR at its middle. Which of them count is decided by the rhythm's artefact
//! rule ([`crate::analysis::rhythm`]): both beats do, and nothing is missing between them. The smooth line
//! is a running median of five values, which one odd beat can't move (fewer near an end, evenly on both
//! sides), and then at each moment the straight line by least squares through [`SPAN`] about it, some two
//! breaths (common practice). In the middle that is the mean; near an end, where the span reaches to one side
//! only, a falling rate is not flattened as a mean would. Where no interval counts for longer
//! than [`LONGEST_PAUSE`] the line is cut, and nothing is said of the rate in between.

use crate::analysis::{BeatSeries, WhyLeftOut, rhythm};
use crate::signal::{BeatsPerMinute, Seconds};

/// What the smooth line is laid through at each moment, s.
pub const SPAN: f64 = 10.0;
/// Without an interval that counts for longer than this, s, the line is cut.
const LONGEST_PAUSE: f64 = 5.0;
/// So near an end, s, the line still says what the rate is.
const NEAR_END: f64 = 1.5;
/// How many values on both sides the running median looks at.
const ASIDE: usize = 2;

/// The rate of one interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatePoint {
    /// The middle of the interval, counted from the origin of the course.
    pub at: Seconds,
    /// 60 / RR.
    pub rate: BeatsPerMinute,
    /// Why it does not count, if it does not.
    pub left_out: Option<WhyLeftOut>,
}

/// A point of the smooth line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SmoothRate {
    /// When.
    pub at: Seconds,
    /// The rate.
    pub rate: BeatsPerMinute,
    /// How far it may be off through the scatter of the single rates (k = 2).
    pub expanded_uncertainty: f64,
}

/// How the rate went.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RateCourse {
    /// Every interval, in order.
    pub points: Vec<RatePoint>,
    /// The smooth line, in runs without a gap.
    pub runs: Vec<Vec<SmoothRate>>,
}

impl RateCourse {
    /// The course of some beats, told from `origin`, a moment of the recording.
    pub fn of(series: BeatSeries<'_>, origin: Seconds) -> Self {
        let time = |at| series.recording().rate.time_of(at).seconds();
        let points = rhythm(series).intervals.into_iter().map(|rr| RatePoint {
            at: Seconds::new(f64::midpoint(time(rr.from), time(rr.to))) - origin,
            rate: rr.rate(),
            left_out: rr.left_out,
        });
        Self::through(points.collect())
    }

    /// The course through points that are known already, in order of time.
    pub fn through(points: Vec<RatePoint>) -> Self {
        let counted: Vec<(f64, f64)> = points.iter().filter_map(RatePoint::counted).collect();
        let runs = counted.chunk_by(|a, b| b.0 - a.0 <= LONGEST_PAUSE).map(smooth).collect();
        Self { points, runs }
    }

    /// The intervals that count: their middle, s, and their rate, 1/min.
    pub fn counted(&self) -> Vec<(f64, f64)> {
        self.points.iter().filter_map(RatePoint::counted).collect()
    }

    /// The smooth line at a moment; `None` in a gap and beyond the ends. Within a beat of an end
    /// ([`NEAR_END`]) it is what it is there: the middle of the last interval lies before its last beat.
    pub fn at(&self, moment: Seconds) -> Option<SmoothRate> {
        let (run, moment) = self.runs.iter().find_map(|run| {
            let (first, last) = (run.first()?.at.seconds(), run.last()?.at.seconds());
            let within = moment.seconds().clamp(first, last);
            let is_near = (moment.seconds() - within).abs() <= NEAR_END;
            is_near.then(|| (run, Seconds::new(within)))
        })?;
        let place = run.partition_point(|point| point.at < moment);
        let after = *run.get(place)?;
        let before = *run.get(place.saturating_sub(1))?;
        let length = (after.at - before.at).seconds();
        let part = if length > 0.0 { (moment - before.at).seconds() / length } else { 1.0 };
        let between = |a: f64, b: f64| a + (b - a) * part;
        let (a, b) = (before.rate.per_minute(), after.rate.per_minute());
        Some(SmoothRate {
            at: moment,
            rate: BeatsPerMinute::new(between(a, b)),
            expanded_uncertainty: between(before.expanded_uncertainty, after.expanded_uncertainty),
        })
    }

    /// The highest point of the smooth line from one moment to another.
    pub fn highest(&self, from: Seconds, to: Seconds) -> Option<SmoothRate> {
        let within = |point: &&SmoothRate| from <= point.at && point.at <= to;
        let points = self.runs.iter().flatten().filter(within);
        points.max_by(|a, b| a.rate.per_minute().total_cmp(&b.rate.per_minute())).copied()
    }

    /// The first and the last moment at which an interval counts.
    pub fn ends(&self) -> Option<(Seconds, Seconds)> {
        let first = self.runs.first()?.first()?.at;
        Some((first, self.runs.last()?.last()?.at))
    }
}

impl RatePoint {
    fn counted(&self) -> Option<(f64, f64)> {
        let point = (self.at.seconds(), self.rate.per_minute());
        (self.left_out.is_none() && point.0.is_finite() && point.1.is_finite()).then_some(point)
    }
}

/// The smooth line through a run without a gap.
fn smooth(run: &[(f64, f64)]) -> Vec<SmoothRate> {
    let steady = running_median(run);
    let line = run.iter().map(|&(at, _)| {
        // A hair more than the half, so that the ends of the span do not hang on rounding.
        let half = SPAN / 2.0 + 1e-9;
        let from = run.partition_point(|point| point.0 < at - half);
        let to = run.partition_point(|point| point.0 <= at + half);
        straight(steady.get(from..to).unwrap_or_default(), at)
    });
    let line: Vec<(f64, f64)> = line.collect();
    let off = run.iter().zip(&line).map(|(point, smooth)| (point.1 - smooth.0).powi(2));
    let scatter = (off.sum::<f64>() / run.len().saturating_sub(1).max(1) as f64).sqrt();
    let point = |(&(at, _), (rate, error)): (&(f64, f64), (f64, f64))| SmoothRate {
        at: Seconds::new(at),
        rate: BeatsPerMinute::new(rate),
        expanded_uncertainty: 2.0 * scatter * error,
    };
    run.iter().zip(line).map(point).collect()
}

/// The straight line by least squares through some points at one moment, and its standard error in standard
/// deviations of a single value.
fn straight(points: &[(f64, f64)], moment: f64) -> (f64, f64) {
    let n = points.len().max(1) as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
    let (middle, level) = (mean(|point| point.0), mean(|point| point.1));
    let across: f64 = points.iter().map(|point| (point.0 - middle).powi(2)).sum();
    let both: f64 = points.iter().map(|point| (point.0 - middle) * (point.1 - level)).sum();
    if across <= 0.0 {
        return (level, n.sqrt().recip());
    }
    let aside = moment - middle;
    (level + both / across * aside, (n.recip() + aside * aside / across).sqrt())
}

/// The times with the median of each value and its nearest.
fn running_median(run: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let last = run.len().saturating_sub(1);
    let median = |place: usize| {
        let aside = ASIDE.min(place).min(last - place);
        let window = run.get(place - aside..=place + aside).unwrap_or_default();
        let mut near: Vec<f64> = window.iter().map(|point| point.1).collect();
        near.sort_unstable_by(f64::total_cmp);
        near.get(aside).copied().unwrap_or_default()
    };
    run.iter().enumerate().map(|(place, point)| (point.0, median(place))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::WhySetAside;
    use proptest::prelude::*;

    fn point(at: f64, rate: f64) -> RatePoint {
        let (at, rate) = (Seconds::new(at), BeatsPerMinute::new(rate));
        RatePoint { at, rate, left_out: None }
    }

    #[test]
    fn a_straight_fall_stays_straight_to_its_ends() {
        let fall = (0..60).map(|beat| point(f64::from(beat), 160.0 - f64::from(beat)));
        let course = RateCourse::through(fall.collect());
        for smooth in &course.runs[0] {
            assert!((smooth.rate.per_minute() - (160.0 - smooth.at.seconds())).abs() < 1e-9);
        }
        let half = course.at(Seconds::new(30.5)).unwrap();
        assert!((half.rate.per_minute() - 129.5).abs() < 1e-9);
        let highest = course.highest(Seconds::new(10.0), Seconds::new(40.0)).unwrap();
        assert_eq!(highest.at, Seconds::new(10.0));
    }

    #[test]
    fn one_odd_beat_moves_nothing_and_one_left_out_is_not_seen() {
        let mut points: Vec<RatePoint> = (0..40).map(|beat| point(f64::from(beat), 80.0)).collect();
        points[20].rate = BeatsPerMinute::new(180.0);
        points[10].rate = BeatsPerMinute::new(30.0);
        points[10].left_out = Some(WhyLeftOut::Beat(WhySetAside::Early));
        let course = RateCourse::through(points);
        assert_eq!(course.points.len(), 40);
        assert_eq!(course.counted().len(), 39);
        assert!(course.runs[0].iter().all(|smooth| (smooth.rate.per_minute() - 80.0).abs() < 1e-9));
    }

    #[test]
    fn a_gap_cuts_the_line() {
        let points = (0..20).map(|beat| point(f64::from(beat + beat / 10 * 30), 70.0));
        let course = RateCourse::through(points.collect());
        assert_eq!(course.runs.iter().map(Vec::len).collect::<Vec<_>>(), [10, 10]);
        assert!(course.at(Seconds::new(20.0)).is_none() && course.at(Seconds::new(-2.0)).is_none());
        let near = course.at(Seconds::new(50.0)).unwrap();
        assert_eq!((near.at, near.rate), (Seconds::new(49.0), BeatsPerMinute::new(70.0)));
        assert_eq!(course.ends(), Some((Seconds::new(0.0), Seconds::new(49.0))));
        assert_eq!(RateCourse::through(Vec::new()), RateCourse::default());
    }

    proptest! {
        #[test]
        fn the_line_moves_with_the_values(
            rates in proptest::collection::vec(30.0f64..220.0, 1..120),
            up in -20.0f64..20.0,
        ) {
            let course = |up: f64| RateCourse::through(
                rates.iter().enumerate().map(|(at, rate)| point(at as f64 * 0.7, rate + up)).collect(),
            );
            let (here, there) = (course(0.0), course(up));
            for (a, b) in here.runs.iter().flatten().zip(there.runs.iter().flatten()) {
                let rate = a.rate.per_minute();
                prop_assert!((b.rate.per_minute() - rate - up).abs() < 1e-7);
            }
        }
    }
}
