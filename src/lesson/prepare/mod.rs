//! Before anybody is recorded: a few cards that a class goes through together, on screen or on paper.
//!
//! Each card is a drawing, a few things to do and the cautions that belong to it. What to do is common
//! practice unless `src/words/prepare.yml` names a source; the sensor's manual, the school's policy
//! and local rules come first.

mod electrode;

pub use electrode::Electrode;

use super::Caution;
use crate::words::{Language, say};
use std::borrow::Cow;

/// One card of the preparation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Preparation {
    /// Who wants to be recorded, and who sees what.
    Consent,
    /// Who is not recorded.
    NotRecorded,
    /// The sensor and what it may be connected to.
    Sensor,
    /// Skin.
    Skin,
    /// Where the electrodes go for lead I.
    Electrodes,
    /// Sitting still.
    Stillness,
    /// What to do when something worries somebody.
    Worry,
}

/// A card in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PreparationWords {
    /// Its heading.
    pub title: Cow<'static, str>,
    /// What its drawing is called.
    pub picture: Cow<'static, str>,
    /// What its drawing shows, for those who can't see it.
    pub shows: Cow<'static, str>,
    /// What to do, in order.
    pub steps: Vec<Cow<'static, str>>,
}

impl Preparation {
    /// All cards, in the order in which a class goes through them.
    pub const ALL: [Self; 7] = [
        Self::Consent,
        Self::NotRecorded,
        Self::Sensor,
        Self::Skin,
        Self::Electrodes,
        Self::Stillness,
        Self::Worry,
    ];

    /// The cautions that stand on it.
    pub const fn cautions(self) -> &'static [Caution] {
        match self {
            Self::Consent => &[Caution::Volunteers, Caution::Privacy],
            Self::NotRecorded => &[Caution::Implants, Caution::Exercise],
            Self::Sensor => &[Caution::Equipment],
            Self::Skin => &[Caution::Skin],
            Self::Electrodes | Self::Stillness => &[],
            Self::Worry => &[Caution::WorryingTrace, Caution::FeelingIll, Caution::NotADiagnosis],
        }
    }

    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Consent => "consent",
            Self::NotRecorded => "not_recorded",
            Self::Sensor => "sensor",
            Self::Skin => "skin",
            Self::Electrodes => "electrodes",
            Self::Stillness => "stillness",
            Self::Worry => "worry",
        }
    }

    /// The names of its steps in message keys.
    const fn step_keys(self) -> &'static [&'static str] {
        match self {
            Self::Consent => &["who_sees"],
            Self::NotRecorded => &["school"],
            Self::Sensor => &["manual", "mains"],
            Self::Skin => &["sleeves", "wipe", "place"],
            Self::Electrodes => &["lead_one", "height", "swapped"],
            Self::Stillness => &["sit", "rest", "quiet", "look_away", "record"],
            Self::Worry => &[],
        }
    }

    /// What is said on it.
    pub fn words(self, language: Language) -> PreparationWords {
        let part = |part: &str| say(language, &format!("prepare.{}.{part}", self.key()));
        PreparationWords {
            title: part("title"),
            picture: part("picture"),
            shows: part("shows"),
            steps: self.step_keys().iter().map(|key| part(&format!("steps.{key}"))).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_stands_on_exactly_one_card() {
        for caution in Caution::ALL {
            let cards = Preparation::ALL.into_iter().filter(|it| it.cautions().contains(&caution));
            assert_eq!(cards.count(), 1, "{caution:?}");
        }
    }

    #[test]
    fn every_card_says_something_in_each_language() {
        for language in Language::ALL {
            for card in Preparation::ALL {
                let words = card.words(language);
                let said = [words.title, words.picture, words.shows];
                for text in said.iter().chain(&words.steps) {
                    assert!(!text.contains("prepare."), "{language:?} {card:?}: {text}");
                }
                assert!(!words.steps.is_empty() || !card.cautions().is_empty());
            }
        }
    }
}
