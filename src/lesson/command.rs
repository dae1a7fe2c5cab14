//! What a student can ask for. Views make these values; [`super::Lesson::apply`] carries them out.

use super::{Choice, Question, Step};
use crate::signal::{Landmark, SampleIndex};
use serde::{Deserialize, Serialize};

/// One thing a student asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Command {
    /// Read the beat whose R is nearest to this sample.
    ChooseBeat(SampleIndex),
    /// Put the mark for a point somewhere. Not judged until it is checked.
    Place {
        /// Which point.
        landmark: Landmark,
        /// Where.
        at: SampleIndex,
        /// Whether this goes on with the last movement.
        grip: Grip,
    },
    /// Say that the beat does not show a point. Not judged until it is checked.
    NotHere(Landmark),
    /// Take the mark for a point away.
    TakeAway(Landmark),
    /// Check the mark for a point: this is one try.
    Check(Landmark),
    /// Show the worked answer for a point.
    Reveal(Landmark),
    /// Answer a question: up to the right answer, each other one is one try.
    Answer {
        /// Which question.
        question: Question,
        /// Which answer.
        choice: Choice,
    },
    /// Go to a step.
    GoTo(Step),
    /// Go to the next step.
    Next,
    /// Go to the step before.
    Back,
    /// Take the last change of a mark or of the beat back.
    Undo,
    /// Do again what was taken back.
    Redo,
}

/// How a mark is moved: one whole drag is one change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grip {
    /// A new movement starts: a click, the first of a drag, the first press of a key.
    Fresh,
    /// The movement goes on.
    Held,
}

/// Why a command was not carried out; nothing has changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// No beat is chosen yet.
    NoBeatChosen,
    /// The recording has no beat there.
    NoBeatThere,
    /// The place is outside the recording, or in a stretch without data.
    NothingRecordedThere,
    /// There is no mark to check.
    NothingToCheck,
    /// This very answer was checked already.
    CheckedAlready,
    /// The worked answer comes after two tries.
    TryFirst,
    /// The question comes after its point.
    #[error("place and check the point first; the question about it comes then")]
    PointFirst,
    /// There is nothing to take back.
    NothingToUndo,
    /// There is nothing to do again.
    NothingToRedo,
}

impl Refusal {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::NoBeatChosen,
        Self::NoBeatThere,
        Self::NothingRecordedThere,
        Self::NothingToCheck,
        Self::CheckedAlready,
        Self::TryFirst,
        Self::PointFirst,
        Self::NothingToUndo,
        Self::NothingToRedo,
    ];

    /// The key of its message.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NoBeatChosen => "lesson.refusal.no_beat_chosen",
            Self::NoBeatThere => "lesson.refusal.no_beat_there",
            Self::NothingRecordedThere => "lesson.refusal.nothing_recorded_there",
            Self::NothingToCheck => "lesson.refusal.nothing_to_check",
            Self::CheckedAlready => "lesson.refusal.checked_already",
            Self::TryFirst => "lesson.refusal.try_first",
            Self::PointFirst => "lesson.refusal.point_first",
            Self::NothingToUndo => "lesson.refusal.nothing_to_undo",
            Self::NothingToRedo => "lesson.refusal.nothing_to_redo",
        }
    }
}
