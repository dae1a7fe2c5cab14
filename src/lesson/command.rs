//! What a student can ask for. Views make these values; [`super::Lesson::apply`] carries them out.

use super::{Choice, FlawGuess, Question, Step};
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
    /// Begin the final check on a beat that was not walked, or come back to it.
    StartCheck,
    /// Go back to the walk; what was placed in the check stays.
    LeaveCheck,
    /// Mark all points of the final check together.
    MarkCheck,
    /// Say which flaw a recording has and what to do about it.
    NameFlaw(FlawGuess),
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
    PointFirst,
    /// There is no second beat to place.
    NoBeatForCheck,
    /// Points of the check have no answer yet.
    PlaceAllFirst,
    /// The check gives no help.
    NoHelpInCheck,
    /// The check was marked.
    CheckIsMarked,
    /// This beat is that of the check.
    KeptForTheCheck,
    /// There is nothing to take back.
    NothingToUndo,
    /// There is nothing to do again.
    NothingToRedo,
}

impl Refusal {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::NoBeatChosen,
        Self::NoBeatThere,
        Self::NothingRecordedThere,
        Self::NothingToCheck,
        Self::CheckedAlready,
        Self::TryFirst,
        Self::PointFirst,
        Self::NoBeatForCheck,
        Self::PlaceAllFirst,
        Self::NoHelpInCheck,
        Self::CheckIsMarked,
        Self::KeptForTheCheck,
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
            Self::NoBeatForCheck => "lesson.refusal.no_beat_for_check",
            Self::PlaceAllFirst => "lesson.refusal.place_all_first",
            Self::NoHelpInCheck => "lesson.refusal.no_help_in_check",
            Self::CheckIsMarked => "lesson.refusal.check_is_marked",
            Self::KeptForTheCheck => "lesson.refusal.kept_for_the_check",
            Self::NothingToUndo => "lesson.refusal.nothing_to_undo",
            Self::NothingToRedo => "lesson.refusal.nothing_to_redo",
        }
    }
}
