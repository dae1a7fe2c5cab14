//! Breathing: how the heart rate rises with breathing in and falls with breathing out.
//!
//! Called respiratory sinus arrhythmia; usual, and larger in the young. Its size is told breath by breath: the
//! longest RR interval less the shortest, and the highest rate less the lowest ([`Swing`]), as means over the
//! breaths with their 95 % intervals. The ratio is that of the mean longest to the mean shortest interval (as
//! in Ewing's test of deep breathing; from memory). Breaths come from marks, from a timer, from a channel of
//! their own, or as an estimate from the trace ([`BreathSource`]).
//!
//! Even without any breathing the longest of a few intervals is longer than the shortest, so a size is never
//! zero. A rhythm of which more than a fifth is left out, or fewer than three breaths, give no number but a
//! [`NoBreathing`].

mod breath;
mod channel;
mod estimate;
mod no_breathing;
mod plan;
mod sine;
mod swing;
mod told;
mod turns;

pub use breath::{Breath, BreathMarks, Paced};
pub use estimate::{BreathEstimate, Trail};
pub use no_breathing::{NoBreathing, WhyNoSwing};
pub use plan::BreathingPlan;
pub use swing::Swing;
pub use told::BreathLine;

use super::rate::RateCourse;
use super::stats::{Estimate, Moments};
use super::stretch::Stretch;
use crate::signal::{Recording, Seconds};
use std::ops::RangeInclusive;

/// The fewest breaths that make a mean (common practice).
pub const FEWEST_BREATHS: usize = 3;
/// How long a breath may take, s: 3 to 40 a minute (common practice).
const LENGTHS: RangeInclusive<f64> = 1.5..=20.0;
/// The most of the intervals that may be left out.
const MOST_LEFT_OUT: f64 = 0.2;

/// Where breaths come from.
#[derive(Clone, Copy, Debug)]
pub enum BreathSource<'a> {
    /// Marks in the recording.
    Marks(&'a BreathMarks),
    /// A timer that was followed.
    Timer(Paced),
    /// Another trace that began with this one, at any rate.
    Channel(&'a Recording),
    /// The trace itself: its complexes grow and shrink as the chest moves.
    Estimate,
}

/// How breaths were told, to be said beside each result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToldBy {
    /// Marks in the recording.
    Marks,
    /// A timer that was followed.
    Timer,
    /// A breathing channel.
    Channel,
    /// An estimate from the trace.
    Estimate(BreathEstimate),
}

/// How the rate went with breathing.
#[derive(Clone, Debug, PartialEq)]
pub struct Breathing {
    /// How breaths were told.
    pub told_by: ToldBy,
    /// How the rate went; moments count from the first sample of the recording.
    pub course: RateCourse,
    /// Every breath, with its swing or why it is left out.
    pub breaths: Vec<(Breath, Result<Swing, WhyNoSwing>)>,
    /// The longest interval less the shortest, ms, over the breaths that count.
    pub rr_ms: Moments,
    /// The highest rate less the lowest, 1/min, over the breaths that count.
    pub rate: Moments,
    /// The mean of the longest intervals, ms.
    pub longest_ms: f64,
    /// The mean of the shortest intervals, ms.
    pub shortest_ms: f64,
    /// What the gap between samples does to one size (k = 2), ms.
    sampling_ms: f64,
    /// How many intervals a breath holds in the mean.
    pub beats_per_breath: f64,
    /// How long a breath takes, s, over the breaths that count.
    pub length_s: Moments,
    /// How many intervals the artefact rule leaves out.
    pub intervals_left_out: usize,
}

impl Breathing {
    /// The rise and fall of the rate in a part of a recording.
    ///
    /// # Errors
    /// [`NoBreathing`] when it can't be told.
    pub fn of(stretch: &Stretch<'_>, source: BreathSource<'_>) -> Result<Self, NoBreathing> {
        let recording = stretch.evidence.recording;
        let beats = stretch.beats();
        let time = |beat: &crate::analysis::Beat| recording.rate.time_of(beat.r);
        let covered = beats.first().map(time).zip(beats.last().map(time));
        let covered = covered.filter(|_| beats.len() > 1).ok_or(NoBreathing::NoBeats)?;
        let course = RateCourse::of(stretch.series(), Seconds::new(0.0));
        let left_out = course.points.iter().filter(|point| point.left_out.is_some()).count();
        let intervals = course.points.len();
        if left_out as f64 > MOST_LEFT_OUT * intervals as f64 {
            return Err(NoBreathing::Irregular { left_out, intervals });
        }
        let (told_by, breaths) = told(stretch, source)?;
        let has_out = told_by == ToldBy::Marks && breaths.iter().any(|one| one.out.is_some());
        let measured = breaths.into_iter().map(|breath| {
            let swing = Swing::of(breath, &course, covered);
            let is_unmarked = has_out && breath.out.is_none();
            (breath, if is_unmarked { Err(WhyNoSwing::MarkMissing) } else { swing })
        });
        let measured = measured.collect();
        let step = recording.rate.interval().to_milliseconds().milliseconds();
        let sampling_ms = 2.0 * (4.0_f64 / 12.0).sqrt() * step;
        Self::through(told_by, course, measured, (left_out, sampling_ms))
    }

    fn through(
        told_by: ToldBy,
        course: RateCourse,
        breaths: Vec<(Breath, Result<Swing, WhyNoSwing>)>,
        (intervals_left_out, sampling_ms): (usize, f64),
    ) -> Result<Self, NoBreathing> {
        let counted: Vec<(Breath, Swing)> =
            breaths.iter().filter_map(|&(breath, swing)| Some((breath, swing.ok()?))).collect();
        let (found, needed) = (counted.len(), FEWEST_BREATHS);
        let too_few = NoBreathing::TooFewBreaths { found, needed, left_out: breaths.len() - found };
        if found < needed {
            return Err(too_few);
        }
        let of = |value: fn(&(Breath, Swing)) -> f64| {
            let values: Vec<f64> = counted.iter().map(value).collect();
            Moments::of(&values).ok_or(too_few)
        };
        Ok(Self {
            told_by,
            rr_ms: of(|one| one.1.rr_ms())?,
            rate: of(|one| one.1.rate())?,
            longest_ms: of(|one| one.1.longest_ms())?.mean,
            shortest_ms: of(|one| one.1.shortest_ms())?.mean,
            sampling_ms,
            beats_per_breath: of(|one| one.1.intervals as f64)?.mean,
            length_s: of(|one| one.0.length().seconds())?,
            intervals_left_out,
            course,
            breaths,
        })
    }

    /// The mean size in ms with its 95 % interval: that over the breaths, widened by what the gap between samples
    /// does to the difference of two intervals (k = 2: 2·√(4/12) samples). `None` of a single breath.
    pub fn mean_rr(&self) -> Option<Estimate> {
        widened(self.rr_ms, self.sampling_ms)
    }

    /// The mean size in 1/min, likewise.
    pub fn mean_rate(&self) -> Option<Estimate> {
        let product = self.longest_ms * self.shortest_ms;
        widened(self.rate, self.sampling_ms * 60_000.0 / product)
    }

    /// The mean longest interval over the mean shortest.
    pub fn ratio(&self) -> f64 {
        self.longest_ms / self.shortest_ms
    }

    /// Breaths a minute: 60 over the mean length.
    pub fn breaths_per_minute(&self) -> f64 {
        60.0 / self.length_s.mean
    }

    /// The part of a smooth rise and fall that so few beats in a breath show in the mean: sin(π/n)/(π/n).
    pub fn part_seen(&self) -> f64 {
        let angle = std::f64::consts::PI / self.beats_per_breath.max(1.0);
        angle.sin() / angle
    }

    /// The breaths that count with their swings, in order.
    pub fn counted(&self) -> impl Iterator<Item = (Breath, Swing)> {
        self.breaths.iter().filter_map(|&(breath, swing)| Some((breath, swing.ok()?)))
    }
}

fn widened(moments: Moments, by: f64) -> Option<Estimate> {
    let interval = moments.mean_interval()?;
    Some(Estimate::around(interval.value, interval.half_width().hypot(by)))
}

fn told(
    stretch: &Stretch<'_>,
    source: BreathSource<'_>,
) -> Result<(ToldBy, Vec<Breath>), NoBreathing> {
    let recording = stretch.evidence.recording;
    let (told_by, mut breaths) = match source {
        BreathSource::Marks(marks) => (ToldBy::Marks, marks.breaths(recording)?),
        BreathSource::Timer(paced) => (ToldBy::Timer, paced.breaths(recording.duration())),
        BreathSource::Channel(channel) => (ToldBy::Channel, channel::breaths_in(channel)?),
        BreathSource::Estimate => {
            let (estimate, breaths) = estimate::breaths_by(stretch)?;
            (ToldBy::Estimate(estimate), breaths)
        }
    };
    let time = |sample| recording.rate.time_of(sample);
    let (from, to) = (time(stretch.span.start()), time(stretch.span.end()));
    breaths.retain(|breath| from <= breath.start && breath.end <= to);
    Ok((told_by, breaths))
}

#[cfg(test)]
mod tests;
