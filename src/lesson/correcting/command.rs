//! What can be asked for about the beats, what was done then, and why something was not.

use crate::lesson::Grip;
use crate::signal::SampleIndex;

/// One thing a student asks for about the beats; a beat is named by its R.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatCommand {
    /// Put a beat on the crest near this sample.
    Add(SampleIndex),
    /// Move a beat.
    Move {
        /// Which one.
        beat: SampleIndex,
        /// Where to.
        to: SampleIndex,
        /// Whether this goes on with the last movement.
        grip: Grip,
    },
    /// Take a beat away: it is none.
    TakeAway(SampleIndex),
    /// Leave a beat out of averages.
    LeaveOut(SampleIndex),
    /// Count a beat in averages.
    Count(SampleIndex),
    /// Take all corrections back at once.
    PutAllBack,
    /// Take the last correction back.
    Undo,
    /// Do again what was taken back.
    Redo,
}

/// What was done, and where; `None` where that is not in the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatDeed {
    /// A beat was added.
    Added {
        /// Where it stands.
        at: SampleIndex,
        /// How many samples its crest lies after the place that was asked for.
        off: isize,
    },
    /// A beat was moved to this place.
    Moved(SampleIndex),
    /// A beat was taken away.
    TakenAway(SampleIndex),
    /// A beat is left out of averages.
    LeftOut(SampleIndex),
    /// A beat counts.
    Counted(SampleIndex),
    /// All corrections were taken back.
    AllPutBack,
    /// The last correction was taken back.
    Undone(Option<SampleIndex>),
    /// A correction was made again.
    Redone(Option<SampleIndex>),
}

/// Why a correction was not made; nothing has changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatRefusal {
    /// The place is outside the recording, or in a stretch without data.
    NothingRecordedThere,
    /// Another beat is nearer than two beats can be.
    TooNear,
    /// No beat stands there.
    NoBeatThere,
    /// The signal around the beat can't be used.
    Flawed,
    /// Nothing was corrected.
    NothingCorrected,
    /// There is nothing to take back.
    NothingToUndo,
    /// There is nothing to do again.
    NothingToRedo,
}

impl BeatRefusal {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::NothingRecordedThere,
        Self::TooNear,
        Self::NoBeatThere,
        Self::Flawed,
        Self::NothingCorrected,
        Self::NothingToUndo,
        Self::NothingToRedo,
    ];

    /// The key of its message.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NothingRecordedThere => "beats.refusal.nothing_recorded_there",
            Self::TooNear => "beats.refusal.too_near",
            Self::NoBeatThere => "beats.refusal.no_beat_there",
            Self::Flawed => "beats.refusal.flawed",
            Self::NothingCorrected => "beats.refusal.nothing_corrected",
            Self::NothingToUndo => "beats.refusal.nothing_to_undo",
            Self::NothingToRedo => "beats.refusal.nothing_to_redo",
        }
    }
}
