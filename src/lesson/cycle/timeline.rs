//! The two rows of a cycle: stretches without a gap from its start to its end.
//!
//! A cycle starts at the first known point and lasts as long as it is to the next beat. An electrical
//! phase is shown when both of its ends are known; where one is missing, out of order or past the end of
//! the cycle, the stretch has no phase and [`Timeline::gaps`] says which points it waits for. A phase
//! without length (P end on QRS onset) is left out. Without a next beat the cycle ends at the last
//! known point, and has neither a rest nor a rate.

use super::boundaries::Boundaries;
use super::{CyclePoints, ElectricalPhase, MechanicalPhase, Moment};
use crate::signal::{BeatsPerMinute, Landmark, Milliseconds, SampleIndex, SampleRate};

/// Moments nearer than this are one, ms.
pub(super) const SAME: f64 = 0.5;

/// A stretch of one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch<P> {
    /// What goes on; `None` where that is not known.
    pub phase: Option<P>,
    /// Where it begins, from the start of the cycle.
    pub start: Milliseconds,
    /// Where it ends, from the start of the cycle.
    pub end: Milliseconds,
}

impl<P: Copy> Stretch<P> {
    /// The same stretch with its phase by another name.
    pub fn named<T>(&self, name: impl FnOnce(P) -> T) -> Stretch<T> {
        Stretch { phase: self.phase.map(name), start: self.start, end: self.end }
    }
}

/// A phase that is not shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// Which.
    pub phase: ElectricalPhase,
    /// The points it waits for; empty when it waits for the next beat.
    pub waits_for: Vec<Landmark>,
}

/// Why no mechanical phases stand beside the electrical ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unmoved {
    /// QRS onset, from which the delays are counted, has no place.
    NoQrsOnset,
    /// The delays depend on the rate, and there is no next beat.
    NoRate,
    /// The rate is not that of rest, and typical delays are known for rest only.
    NotAtRest,
}

/// One cycle in time.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    pub(super) electrical: Vec<Stretch<ElectricalPhase>>,
    pub(super) mechanical: Result<Vec<Stretch<MechanicalPhase>>, Unmoved>,
    pub(super) points: Vec<(Landmark, Milliseconds)>,
    gaps: Vec<Gap>,
    rate: Option<BeatsPerMinute>,
    first: SampleIndex,
    sampling: SampleRate,
    length: Milliseconds,
}

impl Timeline {
    /// Lays out a cycle; `None` when no point is known.
    pub fn of(points: &CyclePoints) -> Option<Self> {
        let first = points.known.iter().map(|(_, at)| at).min()?;
        let since = |at: SampleIndex| {
            Milliseconds::new(at.minus(first) as f64 * points.rate.interval().seconds() * 1000.0)
        };
        let cycle = points.following.filter(|it| it.next > it.here);
        let cycle = cycle.map(|it| since(first.offset(it.next.minus(it.here))));
        let last = points.known.iter().map(|(_, at)| at).max()?;
        let length = cycle.unwrap_or_else(|| since(last));
        let within = points.known.iter().map(|(landmark, at)| (landmark, since(at)));
        let within: Vec<_> = within.filter(|(_, at)| *at <= length).collect();
        let boundaries = Boundaries::of(&within, cycle);
        let rate = cycle.map(|cycle| BeatsPerMinute::new(60_000.0 / cycle.milliseconds()));
        let electrical = without_holes(&boundaries.phases(), length);
        let mechanical = boundaries.mechanics(rate).map(|known| without_holes(&known, length));
        let gaps = boundaries.gaps();
        let sampling = points.rate;
        Some(Self { electrical, mechanical, points: within, gaps, rate, first, sampling, length })
    }

    /// What goes on electrically, from start to end.
    pub fn electrical(&self) -> &[Stretch<ElectricalPhase>] {
        &self.electrical
    }

    /// What goes on mechanically at typical delays, from start to end.
    ///
    /// # Errors
    /// [`Unmoved`] says why that can't be told.
    pub fn mechanical(&self) -> Result<&[Stretch<MechanicalPhase>], Unmoved> {
        self.mechanical.as_deref().map_err(|why| *why)
    }

    /// The phases that are not shown, and what they wait for.
    pub fn gaps(&self) -> &[Gap] {
        &self.gaps
    }

    /// The heart rate of this cycle; `None` without a next beat.
    pub const fn rate(&self) -> Option<BeatsPerMinute> {
        self.rate
    }

    /// How long the cycle lasts.
    pub const fn length(&self) -> Milliseconds {
        self.length
    }

    /// The samples of the cycle.
    pub fn samples(&self) -> std::ops::Range<usize> {
        let first = self.first.get();
        first..first + self.sampling.count(self.length.to_seconds()) + 1
    }

    /// When a point of the cycle comes; `None` when it is not known.
    pub fn time_of(&self, landmark: Landmark) -> Option<Milliseconds> {
        self.points.iter().find(|(point, _)| *point == landmark).map(|(_, at)| *at)
    }

    /// What the heart does at a moment; moments outside the cycle count as its ends.
    pub fn at(&self, moment: Milliseconds) -> Moment {
        Moment::of(self, moment)
    }

    /// The moments where something changes, in order: to go through the cycle step by step.
    pub fn turns(&self) -> Vec<Milliseconds> {
        let electrical = self.electrical.iter().map(|stretch| stretch.start);
        let mechanical = self.mechanical.iter().flatten().map(|stretch| stretch.start);
        let points = self.points.iter().map(|(_, at)| *at);
        let all = electrical.chain(mechanical).chain(points);
        let mut times: Vec<f64> = all.map(Milliseconds::milliseconds).collect();
        times.sort_unstable_by(f64::total_cmp);
        times.dedup();
        times.into_iter().map(Milliseconds::new).collect()
    }

    /// The next moment where something changes; after the last comes the first.
    pub fn turn_after(&self, moment: Milliseconds) -> Milliseconds {
        let turns = self.turns();
        let later = turns.iter().find(|turn| turn.milliseconds() > moment.milliseconds() + SAME);
        later.or(turns.first()).copied().unwrap_or(moment)
    }

    /// The moment before, where something changed; before the first comes the last.
    pub fn turn_before(&self, moment: Milliseconds) -> Milliseconds {
        let turns = self.turns();
        let earlier =
            turns.iter().rev().find(|turn| turn.milliseconds() < moment.milliseconds() - SAME);
        earlier.or(turns.last()).copied().unwrap_or(moment)
    }
}

/// A row from 0 to the end of the cycle: known stretches in order, unknown ones between them. What runs
/// past the end is cut off there.
fn without_holes<P: Copy>(known: &[Stretch<P>], length: Milliseconds) -> Vec<Stretch<P>> {
    let mut row = Vec::new();
    let mut reached = Milliseconds::new(0.0);
    for stretch in known {
        let end = if stretch.end < length { stretch.end } else { length };
        if reached < stretch.start && stretch.start < end {
            row.push(Stretch { phase: None, start: reached, end: stretch.start });
        }
        if stretch.start < end {
            row.push(Stretch { end, ..*stretch });
            reached = end;
        }
    }
    if reached < length {
        row.push(Stretch { phase: None, start: reached, end: length });
    }
    row
}
