//! What happens in the heart at each part of a cycle: electrically first, then mechanically.
//!
//! The trace shows only the electrical events. Contraction and valves follow with a delay, so the
//! two are told apart in every text. The texts stand in `src/words/cycle.yml` with their sources.

use crate::signal::Landmark;
use crate::words::{Language, say};
use std::borrow::Cow;

/// A part of one cycle, in the order in which they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CycleEvent {
    /// The sinus node fires; nothing shows.
    SinusNode,
    /// The P wave.
    PWave,
    /// From the end of P to the start of QRS.
    PrSegment,
    /// The small first downward wave of QRS.
    Q,
    /// The tall upward wave.
    R,
    /// The downward wave after R.
    S,
    /// From the J point to the T wave.
    StSegment,
    /// The T wave.
    TWave,
    /// From the end of T to the next P.
    Rest,
}

/// What is said about a part of the cycle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EventWords {
    /// What it is called.
    pub name: Cow<'static, str>,
    /// What happens electrically.
    pub electrical: Cow<'static, str>,
    /// What the heart does mechanically, and how much later.
    pub mechanical: Cow<'static, str>,
    /// What is often believed.
    pub myth: Cow<'static, str>,
    /// What is so instead.
    pub truth: Cow<'static, str>,
}

impl CycleEvent {
    /// All parts, in order.
    pub const ALL: [Self; 9] = [
        Self::SinusNode,
        Self::PWave,
        Self::PrSegment,
        Self::Q,
        Self::R,
        Self::S,
        Self::StSegment,
        Self::TWave,
        Self::Rest,
    ];

    /// The part a landmark opens up: what to tell once it has been placed.
    pub const fn of(landmark: Landmark) -> Self {
        match landmark {
            Landmark::POnset => Self::SinusNode,
            Landmark::PPeak => Self::PWave,
            Landmark::PEnd => Self::PrSegment,
            Landmark::QrsOnset | Landmark::Q => Self::Q,
            Landmark::R => Self::R,
            Landmark::S => Self::S,
            Landmark::QrsEnd | Landmark::TOnset => Self::StSegment,
            Landmark::TPeak => Self::TWave,
            Landmark::TEnd => Self::Rest,
        }
    }

    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::SinusNode => "sinus_node",
            Self::PWave => "p_wave",
            Self::PrSegment => "pr_segment",
            Self::Q => "q",
            Self::R => "r",
            Self::S => "s",
            Self::StSegment => "st_segment",
            Self::TWave => "t_wave",
            Self::Rest => "rest",
        }
    }

    /// What is said about it.
    pub fn words(self, language: Language) -> EventWords {
        let part = |part: &str| say(language, &format!("cycle.{}.{part}", self.key()));
        EventWords {
            name: part("name"),
            electrical: part("electrical"),
            mechanical: part("mechanical"),
            myth: part("myth"),
            truth: part("truth"),
        }
    }
}
