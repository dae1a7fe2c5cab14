//! Rest and recovery after exercise: how the rate comes down, and what in the cycle had shortened.
//!
//! Moments count from the end of exercise: the mark that parts one long file, or the first sample of a
//! recording of its own, less the seconds that somebody waited before it began. The peak is the highest of
//! the smooth line in the first [`PEAK_WITHIN`]; a drop is the peak less the smooth line so many seconds after
//! the end of exercise (as in Cole 1999, N Engl J Med 341:1351, whose limit for adult patients is not for a
//! class and is not shown). The resting rate is that of the mean interval, its spread that of the single
//! rates. The curve goes through every interval that counts from the peak on.
//!
//! What can't be said is a [`NoNumber`] with the reason; the rest of the results stands.

mod curve;
mod cycle_change;
mod exponential;
mod no_number;
mod plan;
mod told;

pub use curve::recovery_curve;
pub use cycle_change::{Change, CycleQuantity, EARLY, TypicalBeat, changes, shortened_most};
pub use exponential::{Exponential, Fitted};
pub use no_number::{NoNumber, Side};
pub use plan::RecoveryPlan;
pub use told::{ChangeLine, overlay_summary};

use super::rate::{RateCourse, SmoothRate};
use super::stats::Estimate;
use super::stretch::Stretch;
use crate::analysis::{Measurement, measure};
use crate::signal::{BeatsPerMinute, Seconds};

/// The peak is looked for in so much of recovery.
pub const PEAK_WITHIN: Seconds = Seconds::new(30.0);
/// When the drop is told, s after the end of exercise.
pub const DROPS_AFTER: [f64; 3] = [30.0, 60.0, 120.0];
/// The fewest intervals that make a resting rate (common practice).
const NEEDED_AT_REST: usize = 10;

/// How a heart came down after exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Recovery {
    /// The resting rate with its spread, 1/min.
    pub resting: Result<Measurement, NoNumber>,
    /// How the rate went, from the end of exercise.
    pub course: RateCourse,
    /// The highest smooth rate soon after exercise.
    pub peak: Result<SmoothRate, NoNumber>,
    /// How far below the peak the rate was after 30, 60 and 120 s.
    pub drops: [RateDrop; 3],
    /// The curve through recovery.
    pub curve: Result<Exponential, NoNumber>,
    /// The typical beat at rest.
    pub rest_beat: Result<TypicalBeat, NoNumber>,
    /// The typical beat of early recovery.
    pub recovery_beat: Result<TypicalBeat, NoNumber>,
}

/// How far the rate fell by some moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RateDrop {
    /// The moment after the end of exercise.
    pub after: Seconds,
    /// The smooth rate then, and the drop from the peak with its uncertainty (k = 2), 1/min.
    pub drop: Result<(BeatsPerMinute, Estimate), NoNumber>,
}

impl Recovery {
    /// Compares rest with recovery; `waited` is how long after the end of exercise the stretch begins, 0 for
    /// one that begins with the mark.
    pub fn of(rest: &Stretch<'_>, recovery: &Stretch<'_>, waited: Seconds) -> Self {
        let origin = recovery.start() - waited;
        let course = RateCourse::of(recovery.series(), origin);
        let peak = peak(&course);
        let counted = course.counted();
        let falling = counted.partition_point(|point| point.0 < falls_from(peak));
        Self {
            resting: resting(rest),
            drops: DROPS_AFTER.map(|after| drop_after(&course, peak, Seconds::new(after))),
            peak,
            curve: recovery_curve(counted.get(falling..).unwrap_or_default()),
            rest_beat: TypicalBeat::of(rest, Side::Rest),
            recovery_beat: TypicalBeat::of(recovery, Side::Recovery),
            course,
        }
    }

    /// What each interval that counts lies above the curve: moment, s, and distance, 1/min. Empty without a
    /// curve.
    pub fn residuals(&self) -> Vec<(f64, f64)> {
        let Ok(curve) = &self.curve else { return Vec::new() };
        let from = falls_from(self.peak);
        let on = self.course.counted().into_iter().filter(|point| point.0 >= from);
        on.map(|(at, rate)| (at, rate - curve.rate_at(at))).collect()
    }

    /// Every quantity of the cycle at rest and in recovery.
    ///
    /// # Errors
    /// [`NoNumber`] when one of the conditions has no typical beat.
    pub fn changes(&self) -> Result<Vec<Change>, NoNumber> {
        let rest = self.rest_beat.as_ref().map_err(|why| *why)?;
        let recovery = self.recovery_beat.as_ref().map_err(|why| *why)?;
        Ok(changes(rest, recovery))
    }
}

/// From when on the curve is laid, s: from the peak, or from the start where that was missed.
fn falls_from(peak: Result<SmoothRate, NoNumber>) -> f64 {
    peak.map_or(f64::NEG_INFINITY, |peak| peak.at.seconds())
}

fn resting(rest: &Stretch<'_>) -> Result<Measurement, NoNumber> {
    let rate = measure(rest.series()).rate_bpm;
    let rate = rate.ok_or(NoNumber::Empty(Side::Rest))?;
    if rate.n < NEEDED_AT_REST {
        let (found, needed) = (rate.n, NEEDED_AT_REST);
        return Err(NoNumber::TooFewBeats { side: Side::Rest, found, needed });
    }
    Ok(rate)
}

fn peak(course: &RateCourse) -> Result<SmoothRate, NoNumber> {
    let (first, _) = course.ends().ok_or(NoNumber::Empty(Side::Recovery))?;
    let peak = course.highest(first, PEAK_WITHIN);
    peak.ok_or(NoNumber::NotRecorded { after: PEAK_WITHIN.seconds() })
}

fn drop_after(course: &RateCourse, peak: Result<SmoothRate, NoNumber>, after: Seconds) -> RateDrop {
    let drop = peak.and_then(|peak| {
        let then = course.at(after).ok_or_else(|| {
            let recorded = course.ends().is_some_and(|(from, to)| from <= after && after <= to);
            let after = after.seconds();
            if recorded { NoNumber::Gap { after } } else { NoNumber::NotRecorded { after } }
        })?;
        let fall = peak.rate.per_minute() - then.rate.per_minute();
        let off = peak.expanded_uncertainty.hypot(then.expanded_uncertainty);
        Ok((then.rate, Estimate::around(fall, off)))
    });
    RateDrop { after, drop }
}
