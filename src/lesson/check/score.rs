//! How the final check came out: each point with its miss and its limit, and how many are right.

use super::super::{Answer, Placement, Session, Step, Tolerance, Verdict};
use crate::signal::{Landmark, SampleRate};

/// One point of the check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckRow {
    /// Which point.
    pub landmark: Landmark,
    /// What was answered.
    pub answer: Answer,
    /// How it was judged.
    pub verdict: Verdict,
    /// The limit for this point.
    pub limit: Tolerance,
}

/// The points of a check that was marked.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckScore {
    /// The points, in the order of the walk.
    pub rows: Vec<CheckRow>,
}

impl CheckRow {
    /// Whether it is right; `None` where there was nothing to compare with.
    pub const fn is_right(&self) -> Option<bool> {
        match self.verdict {
            Verdict::Right { .. } | Verdict::RightlyNotHere => Some(true),
            Verdict::Close { .. } | Verdict::Off { .. } | Verdict::IsHere => Some(false),
            Verdict::CannotTell => None,
        }
    }
}

impl CheckScore {
    /// The points of a session's check; `None` until it was marked.
    pub fn of(session: &Session, rate: SampleRate) -> Option<Self> {
        let check = session.final_check().filter(|check| check.marked)?;
        let placed = |landmark| {
            let first = session.placement_on(check.beat, landmark).and_then(Placement::first)?;
            let limit = Tolerance::of(landmark, rate);
            Some(CheckRow { landmark, answer: first.answer, verdict: first.verdict, limit })
        };
        let landmarks = Step::ALL.into_iter().filter_map(Step::landmark);
        Some(Self { rows: landmarks.filter_map(placed).collect() })
    }

    /// How many points are right.
    pub fn right(&self) -> usize {
        self.rows.iter().filter(|row| row.is_right() == Some(true)).count()
    }

    /// How many points could be compared.
    pub fn compared(&self) -> usize {
        self.rows.iter().filter(|row| row.is_right().is_some()).count()
    }
}
