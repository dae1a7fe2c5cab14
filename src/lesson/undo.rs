//! Changes that can be taken back, and made again.
//!
//! In the walk only marks, answers and the choice of a beat are changes. Tries stay counted and a worked
//! answer stays seen: taking them back would wipe the record that the teacher reads.

use super::{Answer, Choice, Grip, Question};
use crate::signal::{Landmark, SampleIndex};

/// Something that can be taken back.
pub(super) trait Change: Clone {
    /// What takes it back.
    fn reversed(self) -> Self;
    /// Whether all is as it was.
    fn changes_nothing(&self) -> bool;
    /// This change and the next as one, when both are parts of one movement.
    fn joined(&self, next: &Self) -> Option<Self>;
}

/// One change of the walk: what it is about, what stood before and what stands after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Edit {
    /// Another beat was chosen.
    Beat { before: Option<SampleIndex>, after: Option<SampleIndex> },
    /// A mark in the beat with this R was put, moved or taken away.
    Mark { r: SampleIndex, landmark: Landmark, before: Option<Answer>, after: Option<Answer> },
    /// A question was answered.
    Choice { question: Question, before: Option<Choice>, after: Option<Choice> },
}

impl Change for Edit {
    fn reversed(self) -> Self {
        match self {
            Self::Beat { before, after } => Self::Beat { before: after, after: before },
            Self::Mark { r, landmark, before, after } => {
                Self::Mark { r, landmark, before: after, after: before }
            }
            Self::Choice { question, before, after } => {
                Self::Choice { question, before: after, after: before }
            }
        }
    }

    fn changes_nothing(&self) -> bool {
        match self {
            Self::Beat { before, after } => before == after,
            Self::Mark { before, after, .. } => before == after,
            Self::Choice { before, after, .. } => before == after,
        }
    }

    /// Both move the same mark.
    fn joined(&self, next: &Self) -> Option<Self> {
        match (*self, *next) {
            (
                Self::Mark { r, landmark, before, .. },
                Self::Mark { r: r2, landmark: l2, after, .. },
            ) if (r, landmark) == (r2, l2) => Some(Self::Mark { r, landmark, before, after }),
            _ => None,
        }
    }
}

/// The changes so far, and those that were taken back.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct History<C> {
    past: Vec<C>,
    future: Vec<C>,
}

impl<C> Default for History<C> {
    fn default() -> Self {
        Self { past: Vec::new(), future: Vec::new() }
    }
}

impl<C: Change> History<C> {
    /// Notes a change that was made. What was taken back before is gone then.
    pub(super) fn note(&mut self, change: C, grip: Grip) {
        if change.changes_nothing() {
            return;
        }
        self.future.clear();
        let joined = match (grip, self.past.last()) {
            (Grip::Held, Some(last)) => last.joined(&change),
            _ => None,
        };
        if joined.is_some() {
            self.past.pop();
        }
        // A drag that ends where it began leaves nothing to take back.
        self.past.extend(Some(joined.unwrap_or(change)).filter(|change| !change.changes_nothing()));
    }

    /// The change that takes the last one back.
    pub(super) fn undo(&mut self) -> Option<C> {
        let change = self.past.pop()?;
        self.future.push(change.clone());
        Some(change.reversed())
    }

    /// The change that was taken back last.
    pub(super) fn redo(&mut self) -> Option<C> {
        let change = self.future.pop()?;
        self.past.push(change.clone());
        Some(change)
    }

    pub(super) const fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    pub(super) const fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }
}

impl History<Edit> {
    /// Lets go of every change of a mark in the beat with this R.
    pub(super) fn forget(&mut self, beat: SampleIndex) {
        let stays = |edit: &Edit| !matches!(*edit, Edit::Mark { r, .. } if r == beat);
        self.past.retain(stays);
        self.future.retain(stays);
    }
}
