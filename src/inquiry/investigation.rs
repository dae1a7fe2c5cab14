//! The investigations there are, and which recordings each of them takes.

use super::protocol::Protocol;
use crate::words::{Language, say};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// One investigation that a student works through at their own place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Investigation {
    /// Rest and recovery after exercise.
    Recovery,
    /// Breathing at rest and slow breathing.
    Breathing,
    /// The stretch reflex of a leg muscle.
    Reflex,
    /// Posture, or anything else that differs between recordings of one person.
    Conditions,
}

/// What a recording stands for in an investigation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Sitting still, before exercise.
    Rest,
    /// After exercise, or one long recording of everything.
    Recovery,
    /// Breathing as it comes.
    Quiet,
    /// Breathing slowly, by a timer.
    Slow,
    /// Taps on the tendon.
    Plain,
    /// Taps while the hands pull.
    Reinforced,
    /// An answer that is meant.
    Voluntary,
    /// The condition that the others are held against.
    First,
    /// Another condition.
    Second,
    /// One more condition.
    Third,
}

impl Investigation {
    /// All of them, as they are offered.
    pub const ALL: [Self; 4] = [Self::Recovery, Self::Breathing, Self::Conditions, Self::Reflex];

    /// The card that leads through it.
    pub const fn protocol(self) -> Protocol {
        match self {
            Self::Recovery => Protocol::RECOVERY,
            Self::Breathing => Protocol::BREATHING,
            Self::Reflex => Protocol::REFLEX,
            Self::Conditions => Protocol::CONDITIONS,
        }
    }

    /// The recordings it takes, in order.
    pub const fn roles(self) -> &'static [Role] {
        match self {
            Self::Recovery => &[Role::Rest, Role::Recovery],
            Self::Breathing => &[Role::Quiet, Role::Slow],
            Self::Reflex => &[Role::Plain, Role::Reinforced, Role::Voluntary],
            Self::Conditions => &[Role::First, Role::Second, Role::Third],
        }
    }
}

impl Role {
    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rest => "rest",
            Self::Recovery => "recovery",
            Self::Quiet => "quiet",
            Self::Slow => "slow",
            Self::Plain => "plain",
            Self::Reinforced => "reinforced",
            Self::Voluntary => "voluntary",
            Self::First => "first",
            Self::Second => "second",
            Self::Third => "third",
        }
    }

    /// Whether it is of a muscle, and has no beats.
    pub const fn is_muscle(self) -> bool {
        matches!(self, Self::Plain | Self::Reinforced | Self::Voluntary)
    }

    /// What it is called.
    pub fn name(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("bench.role.{}.name", self.key()))
    }

    /// What should be recorded, and whether it can be left out.
    pub fn about(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("bench.role.{}.about", self.key()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_recording_is_named_and_explained() {
        for language in Language::ALL {
            for role in Investigation::ALL.iter().flat_map(|one| one.roles()) {
                for words in [role.name(language), role.about(language)] {
                    assert!(!words.contains("bench."), "there is no message {words}");
                }
            }
        }
    }
}
