//! Why there is no number for breathing: what is missing, and what to do about it.

use crate::analysis::{WhyLeftOut, WhySetAside};
use crate::words::{Phrase, phrase};

/// Why the rise and fall with breathing can't be told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoBreathing {
    /// Fewer than two beats.
    NoBeats,
    /// No mark carries the text that was chosen, or there are no marks.
    NoMarks,
    /// The breathing channel never moves.
    FlatChannel,
    /// The breathing channel moves, but not as a breath does.
    UnclearChannel,
    /// The trace is too short for an estimate of its own breathing.
    TooShort {
        /// How long it is, s.
        seconds: f64,
        /// How long it has to be, s.
        needed: f64,
    },
    /// The complexes do not grow and shrink with a clear rhythm.
    NotClear,
    /// Too many intervals are left out by the artefact rule.
    Irregular {
        /// How many are.
        left_out: usize,
        /// Of how many.
        intervals: usize,
    },
    /// Too few breaths can be measured.
    TooFewBreaths {
        /// How many can.
        found: usize,
        /// How many it takes.
        needed: usize,
        /// How many were left out.
        left_out: usize,
    },
}

/// Why one breath is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNoSwing {
    /// The recording, or the part chosen, does not hold all of it.
    NotRecorded,
    /// It is far shorter or longer than a breath: a mark may be missing or doubled.
    Length,
    /// Other breaths have one mark for breathing out; this one has none or several.
    MarkMissing,
    /// An interval in it is left out, so that its longest or shortest may be missing.
    LeftOut(WhyLeftOut),
    /// It holds too few intervals for a longest and a shortest.
    FewIntervals,
}

impl NoBreathing {
    /// What is missing, and what to do.
    pub fn said(self) -> Phrase {
        let whole = |seconds| Phrase::number(seconds, 0);
        match self {
            Self::NoBeats => phrase!("breathing.no_number.no_beats"),
            Self::NoMarks => phrase!("breathing.no_number.no_marks"),
            Self::FlatChannel => phrase!("breathing.no_number.flat_channel"),
            Self::UnclearChannel => phrase!("breathing.no_number.unclear_channel"),
            Self::TooShort { seconds, needed } => {
                let (seconds, needed) = (whole(seconds), whole(needed));
                phrase!("breathing.no_number.too_short", seconds, needed)
            }
            Self::NotClear => phrase!("breathing.no_number.not_clear"),
            Self::Irregular { left_out, intervals } => {
                phrase!("breathing.no_number.irregular", left_out, intervals)
            }
            Self::TooFewBreaths { found, needed, left_out } => {
                phrase!("breathing.no_number.too_few_breaths", found, needed, left_out)
            }
        }
    }
}

impl WhyNoSwing {
    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NotRecorded => "not_recorded",
            Self::Length => "length",
            Self::MarkMissing => "mark_missing",
            Self::LeftOut(WhyLeftOut::Hole) => "hole",
            Self::LeftOut(WhyLeftOut::Beat(_)) => "beat",
            Self::FewIntervals => "few_intervals",
        }
    }

    /// All of them, with one set-aside beat as an example.
    pub const ALL: [Self; 6] = [
        Self::NotRecorded,
        Self::Length,
        Self::MarkMissing,
        Self::LeftOut(WhyLeftOut::Hole),
        Self::LeftOut(WhyLeftOut::Beat(WhySetAside::Early)),
        Self::FewIntervals,
    ];

    /// Why, in a few words.
    pub const fn said(self) -> Phrase {
        Phrase::message(match self {
            Self::NotRecorded => "breathing.left_out.not_recorded",
            Self::Length => "breathing.left_out.length",
            Self::MarkMissing => "breathing.left_out.mark_missing",
            Self::LeftOut(WhyLeftOut::Hole) => "breathing.left_out.hole",
            Self::LeftOut(WhyLeftOut::Beat(_)) => "breathing.left_out.beat",
            Self::FewIntervals => "breathing.left_out.few_intervals",
        })
    }
}
