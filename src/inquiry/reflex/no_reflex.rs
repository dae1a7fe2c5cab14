//! Why there is no answer at all to look at: what is missing, and what to do about it.

use super::settings::UnusableReflexSettings;
use crate::words::{Phrase, phrase};

/// Why taps or their answers can't be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoReflex {
    /// No mark carries the text that was chosen, or there are no marks.
    NoMarks,
    /// The tap channel never moves.
    FlatChannel,
    /// Nothing in the tap channel stands out of its noise.
    NoTapInChannel,
    /// No short spike in the trace that could be a tap.
    NoSpike,
    /// No tap was given by hand.
    NoTapByHand,
    /// A setting can't be used.
    Settings(UnusableReflexSettings),
}

impl NoReflex {
    /// What is missing, and what to do.
    pub fn said(self) -> Phrase {
        match self {
            Self::NoMarks => phrase!("reflex.no_number.no_marks"),
            Self::FlatChannel => phrase!("reflex.no_number.flat_channel"),
            Self::NoTapInChannel => phrase!("reflex.no_number.no_tap_in_channel"),
            Self::NoSpike => phrase!("reflex.no_number.no_spike"),
            Self::NoTapByHand => phrase!("reflex.no_number.no_tap_by_hand"),
            Self::Settings(settings) => settings.said(),
        }
    }
}
