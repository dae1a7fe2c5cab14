//! What a student answered for one point, and how that went.

use super::Verdict;
use crate::signal::{Landmark, SampleIndex};
use serde::{Deserialize, Serialize};

/// Where a student says a point lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// At this sample of the recording.
    At(SampleIndex),
    /// The beat does not show it.
    NotHere,
}

impl Answer {
    /// The sample, unless the answer was 'not here'.
    pub const fn sample(self) -> Option<SampleIndex> {
        match self {
            Self::At(sample) => Some(sample),
            Self::NotHere => None,
        }
    }

    /// The answer with its sample moved; `None` when that has no place any more.
    fn moved(self, to: impl Fn(SampleIndex) -> Option<SampleIndex>) -> Option<Self> {
        match self {
            Self::At(sample) => to(sample).map(Self::At),
            Self::NotHere => Some(Self::NotHere),
        }
    }
}

/// An answer that was checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Try {
    /// What was answered.
    pub answer: Answer,
    /// How it was judged.
    pub verdict: Verdict,
}

/// Everything about one point of one beat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Which point.
    pub landmark: Landmark,
    /// Where the student's mark stands now, checked or not.
    pub answer: Option<Answer>,
    /// The checked answers, oldest first.
    pub tries: Vec<Try>,
    /// Whether the worked answer has been shown.
    pub revealed: bool,
}

impl Placement {
    /// Tries after which the worked answer may be shown: one to look, one to look again. Common practice.
    pub const TRIES_BEFORE_ANSWER: usize = 2;

    /// A point nobody has touched yet.
    pub const fn untouched(landmark: Landmark) -> Self {
        Self { landmark, answer: None, tries: Vec::new(), revealed: false }
    }

    /// The placement with all its samples moved; `None` when one of them has no place any more.
    pub(super) fn moved(&self, to: impl Fn(SampleIndex) -> Option<SampleIndex>) -> Option<Self> {
        let tries = self
            .tries
            .iter()
            .map(|one| Some(Try { answer: one.answer.moved(&to)?, verdict: one.verdict }));
        Some(Self {
            landmark: self.landmark,
            answer: self.answer.map_or(Some(None), |answer| answer.moved(&to).map(Some))?,
            tries: tries.collect::<Option<_>>()?,
            revealed: self.revealed,
        })
    }

    /// The verdict on the mark as it stands; `None` while it has not been checked.
    pub fn verdict(&self) -> Option<Verdict> {
        let last = self.tries.last()?;
        (Some(last.answer) == self.answer).then_some(last.verdict)
    }

    /// The first answer that was checked.
    pub fn first(&self) -> Option<Try> {
        self.tries.first().copied()
    }

    /// Whether nothing is left to do: an answer was settled, or the worked answer was shown.
    pub fn is_done(&self) -> bool {
        self.revealed || self.tries.iter().any(|one| one.verdict.is_settled())
    }

    /// Whether the worked answer may be shown.
    pub fn may_reveal(&self) -> bool {
        self.is_done() || self.tries.len() >= Self::TRIES_BEFORE_ANSWER
    }
}
