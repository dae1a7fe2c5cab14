//! The three electrodes of lead I: by what they do, and by both standard conventions of names.
//!
//! Lead I is left arm minus right arm (AHA/ACC/HRS 2007, Circulation 115:1306). Names and colours as
//! IEC 60601-2-25 lists them, which calls the European set code 1 and the American one code 2; four
//! stored teaching texts agree on them, the numbers of the standard and of its codes are from memory.
//! The sets give one colour to different limbs, so a colour alone never says which electrode it is.

use crate::words::{Language, say};
use std::borrow::Cow;

/// An electrode of lead I, by what it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Electrode {
    /// The positive input.
    Positive,
    /// The negative input.
    Negative,
    /// The reference, which is no part of the difference.
    Reference,
}

impl Electrode {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Positive, Self::Negative, Self::Reference];

    /// Its name in the AHA convention.
    pub const fn aha_name(self) -> &'static str {
        match self {
            Self::Positive => "LA",
            Self::Negative => "RA",
            Self::Reference => "RL",
        }
    }

    /// Its name in the IEC convention.
    pub const fn iec_name(self) -> &'static str {
        match self {
            Self::Positive => "L",
            Self::Negative => "R",
            Self::Reference => "N",
        }
    }

    /// What it does.
    pub fn function(self, language: Language) -> Cow<'static, str> {
        self.say(language, "function")
    }

    /// Where it goes.
    pub fn place(self, language: Language) -> Cow<'static, str> {
        self.say(language, "place")
    }

    /// Its colour in the AHA convention.
    pub fn aha_colour(self, language: Language) -> Cow<'static, str> {
        self.say(language, "aha_colour")
    }

    /// Its colour in the IEC convention.
    pub fn iec_colour(self, language: Language) -> Cow<'static, str> {
        self.say(language, "iec_colour")
    }

    fn say(self, language: Language, part: &str) -> Cow<'static, str> {
        let key = match self {
            Self::Positive => "positive",
            Self::Negative => "negative",
            Self::Reference => "reference",
        };
        say(language, &format!("prepare.electrode.{key}.{part}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_positive_electrode_is_on_the_left_arm() {
        let [positive, negative, reference] =
            Electrode::ALL.map(|it| (it.aha_name(), it.iec_name()));
        assert_eq!([positive, negative, reference], [("LA", "L"), ("RA", "R"), ("RL", "N")]);
        assert!(Electrode::Positive.place(Language::English).contains("left"));
        assert!(Electrode::Negative.place(Language::English).contains("right"));
    }

    #[test]
    fn a_colour_alone_tells_nothing() {
        let [positive, _, reference] = Electrode::ALL;
        for language in Language::ALL {
            assert_eq!(positive.aha_colour(language), reference.iec_colour(language));
        }
    }

    #[test]
    fn every_electrode_is_described_in_each_language() {
        for language in Language::ALL {
            for it in Electrode::ALL {
                let said = [
                    it.function(language),
                    it.place(language),
                    it.aha_colour(language),
                    it.iec_colour(language),
                ];
                assert!(
                    said.iter().all(|text| !text.contains("prepare.")),
                    "{language:?} {said:?}"
                );
            }
        }
    }
}
