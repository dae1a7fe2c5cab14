//! Why there is no number: what is missing, and what to do about it. No guess stands in for it.

use crate::words::{Phrase, phrase};

/// Which of the two conditions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Before exercise.
    Rest,
    /// After it.
    Recovery,
}

/// Why a result of the recovery can't be given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoNumber {
    /// One condition holds no beat at all.
    Empty(Side),
    /// Fewer intervals count than it takes.
    TooFewBeats {
        /// Where.
        side: Side,
        /// How many count.
        found: usize,
        /// How many it takes.
        needed: usize,
    },
    /// The recording ends before, or starts after, the moment asked for.
    NotRecorded {
        /// The moment, s after the end of exercise.
        after: f64,
    },
    /// Nothing counts around the moment asked for.
    Gap {
        /// The moment, s after the end of exercise.
        after: f64,
    },
    /// Recovery was followed for too short a time to lay a curve through it.
    TooShort {
        /// How long it was followed, s.
        followed: f64,
    },
    /// The rate falls by less than it wavers.
    DoesNotFall,
    /// The rate falls within a beat or two: no curve of recovery does.
    TooSudden,
    /// The curve fits so loosely that its time constant could be nearly anything.
    TooLoose,
}

impl Side {
    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rest => "rest",
            Self::Recovery => "recovery",
        }
    }

    /// What it is called.
    pub const fn said(self) -> Phrase {
        match self {
            Self::Rest => Phrase::message("recovery.side.rest"),
            Self::Recovery => Phrase::message("recovery.side.recovery"),
        }
    }
}

impl NoNumber {
    /// What is missing, and what to do.
    pub fn said(self) -> Phrase {
        let whole = |seconds| Phrase::number(seconds, 0);
        match self {
            Self::Empty(side) => {
                let side = side.said();
                phrase!("recovery.no_number.empty", side)
            }
            Self::TooFewBeats { side, found, needed } => {
                let side = side.said();
                phrase!("recovery.no_number.too_few_beats", side, found, needed)
            }
            Self::NotRecorded { after } => {
                let after = whole(after);
                phrase!("recovery.no_number.not_recorded", after)
            }
            Self::Gap { after } => {
                let after = whole(after);
                phrase!("recovery.no_number.gap", after)
            }
            Self::TooShort { followed } => {
                let followed = whole(followed);
                phrase!("recovery.no_number.too_short", followed)
            }
            Self::DoesNotFall => phrase!("recovery.no_number.does_not_fall"),
            Self::TooSudden => phrase!("recovery.no_number.too_sudden"),
            Self::TooLoose => phrase!("recovery.no_number.too_loose"),
        }
    }
}
