//! The rise and fall of the rate within one breath: its longest and its shortest RR interval.
//!
//! Peak to trough, breath by breath (Grossman and Taylor 2007, Biol Psychol 74:263, from memory). An interval
//! belongs to the breath that holds its middle. A breath counts only when every interval in it does: were one
//! left out, the longest or shortest could be the one that is missing. The longest and the shortest of a
//! few intervals are never the very top and bottom of a smooth wave: with n beats in a breath the mean of what
//! is seen of a sine is sin(π/n)/(π/n) of it, 90 % with four and 98 % with ten.

use super::LENGTHS;
use super::breath::Breath;
use super::no_breathing::WhyNoSwing;
use crate::inquiry::rate::{RateCourse, RatePoint};
use crate::signal::Seconds;

/// The fewest intervals of a breath that counts (common practice).
const FEWEST: usize = 3;

/// How the rate rose and fell in one breath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// The longest interval: the lowest rate.
    pub lowest: RatePoint,
    /// The shortest interval: the highest rate.
    pub highest: RatePoint,
    /// How many intervals the breath holds.
    pub intervals: usize,
}

impl Swing {
    /// The longest interval less the shortest, ms.
    pub fn rr_ms(&self) -> f64 {
        self.longest_ms() - self.shortest_ms()
    }

    /// The highest rate less the lowest, 1/min.
    pub fn rate(&self) -> f64 {
        self.highest.rate.per_minute() - self.lowest.rate.per_minute()
    }

    /// The longest interval, ms.
    pub fn longest_ms(&self) -> f64 {
        60_000.0 / self.lowest.rate.per_minute()
    }

    /// The shortest interval, ms.
    pub fn shortest_ms(&self) -> f64 {
        60_000.0 / self.highest.rate.per_minute()
    }

    /// The swing of a breath; `covered` is from the first beat to the last.
    pub(super) fn of(
        breath: Breath,
        course: &RateCourse,
        covered: (Seconds, Seconds),
    ) -> Result<Self, WhyNoSwing> {
        if !LENGTHS.contains(&breath.length().seconds()) {
            return Err(WhyNoSwing::Length);
        }
        if breath.start < covered.0 || breath.end > covered.1 {
            return Err(WhyNoSwing::NotRecorded);
        }
        let from = course.points.partition_point(|point| point.at < breath.start);
        let to = course.points.partition_point(|point| point.at < breath.end);
        let points = course.points.get(from..to).unwrap_or_default();
        if let Some(why) = points.iter().find_map(|point| point.left_out) {
            return Err(WhyNoSwing::LeftOut(why));
        }
        let by_rate =
            |a: &&RatePoint, b: &&RatePoint| a.rate.per_minute().total_cmp(&b.rate.per_minute());
        let ends = points.iter().min_by(by_rate).zip(points.iter().max_by(by_rate));
        match ends {
            Some((&lowest, &highest)) if points.len() >= FEWEST => {
                Ok(Self { lowest, highest, intervals: points.len() })
            }
            _ => Err(WhyNoSwing::FewIntervals),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{WhyLeftOut, WhySetAside};
    use crate::signal::BeatsPerMinute;

    fn course(intervals: &[f64]) -> RateCourse {
        let mut at = 0.0;
        let points = intervals.iter().map(|ms| {
            let middle = at + ms / 2000.0;
            at += ms / 1000.0;
            let rate = BeatsPerMinute::new(60_000.0 / ms);
            RatePoint { at: Seconds::new(middle), rate, left_out: None }
        });
        RateCourse::through(points.collect())
    }

    fn breath(start: f64, end: f64) -> Breath {
        Breath { start: Seconds::new(start), out: None, end: Seconds::new(end) }
    }

    const ALL: (Seconds, Seconds) = (Seconds::new(0.0), Seconds::new(99.0));

    #[test]
    fn the_longest_less_the_shortest() {
        let course = course(&[900.0, 800.0, 610.0, 700.0, 790.0, 1000.0]);
        // Middles at 0.45, 1.3, 2.005, 2.66, 3.405, 4.3 s.
        let swing = Swing::of(breath(1.0, 4.0), &course, ALL).unwrap();
        assert_eq!(swing.intervals, 4);
        assert!((swing.rr_ms() - 190.0).abs() < 1e-9);
        // `rsa-01`: 98.3607 - 75; the longest here is 800.
        assert!((swing.rate() - 23.3607).abs() < 1e-4);
    }

    #[test]
    fn what_can_not_be_told_says_why() {
        let mut course = course(&[800.0; 40]);
        let of = |course: &RateCourse, start, end| Swing::of(breath(start, end), course, ALL);
        assert_eq!(of(&course, 2.0, 3.6), Err(WhyNoSwing::FewIntervals));
        assert_eq!(of(&course, 2.0, 2.5), Err(WhyNoSwing::Length));
        assert_eq!(of(&course, 2.0, f64::NAN), Err(WhyNoSwing::Length));
        let covered = (Seconds::new(3.0), Seconds::new(9.0));
        for ends in [(2.0, 6.0), (5.0, 9.5)] {
            let found = Swing::of(breath(ends.0, ends.1), &course, covered);
            assert_eq!(found, Err(WhyNoSwing::NotRecorded));
        }
        let why = WhyLeftOut::Beat(WhySetAside::Early);
        course.points[4].left_out = Some(why);
        assert_eq!(of(&course, 2.0, 6.0), Err(WhyNoSwing::LeftOut(why)));
        assert!(of(&course, 4.0, 8.0).is_ok());
    }
}
