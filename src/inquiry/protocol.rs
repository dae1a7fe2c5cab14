//! Protocol cards as data: what to do, what to watch for, how long each phase takes, what to write.
//!
//! The texts stand in the message file of each investigation, under `<key>.protocol`. Durations are common
//! practice. The school's policy, the sensor's manual and local rules come before any card.

use crate::lesson::Caution;
use crate::words::{Language, say};
use std::borrow::Cow;

/// The card of one investigation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Protocol {
    /// The subject of its messages.
    pub key: &'static str,
    /// What has to be said before anybody begins.
    pub cautions: &'static [Caution],
    /// What to do, in order.
    steps: &'static [&'static str],
    /// When to stop at once.
    stop_signs: &'static [&'static str],
    /// The phases that a timer leads through.
    pub phases: &'static [Phase],
    /// What the conclusion should answer, by names.
    pub prompts: &'static [&'static str],
}

/// A phase of the timer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Phase {
    /// Its name in message keys.
    key: &'static str,
    /// How long it takes, s.
    pub seconds: u32,
}

impl Protocol {
    /// Rest and recovery after exercise.
    pub const RECOVERY: Self = Self {
        key: "recovery",
        cautions: &[
            Caution::Exercise,
            Caution::Volunteers,
            Caution::Equipment,
            Caution::FeelingIll,
            Caution::WorryingTrace,
        ],
        steps: &["screen", "rest", "detach", "exercise", "sit_down", "record", "compare"],
        stop_signs: &["chest", "dizzy", "breathless", "unwell"],
        phases: &[
            Phase { key: "settle", seconds: 120 },
            Phase { key: "rest", seconds: 60 },
            Phase { key: "exercise", seconds: 120 },
            Phase { key: "recovery", seconds: 240 },
        ],
        prompts: &["rate", "curve", "cycle", "limits"],
    };

    /// Posture, or any two or more conditions.
    pub const CONDITIONS: Self = Self {
        key: "conditions",
        cautions: &[
            Caution::Volunteers,
            Caution::Equipment,
            Caution::FeelingIll,
            Caution::WorryingTrace,
        ],
        steps: &["plan", "lie", "stand_slowly", "stand", "codes", "compare"],
        stop_signs: &["dizzy", "black", "unwell"],
        phases: &[
            Phase { key: "lie", seconds: 180 },
            Phase { key: "record_lying", seconds: 60 },
            Phase { key: "rise", seconds: 30 },
            Phase { key: "stand", seconds: 60 },
            Phase { key: "record_standing", seconds: 60 },
        ],
        prompts: &["difference", "spread", "people", "limits"],
    };

    /// Quiet and slow breathing.
    pub const BREATHING: Self = Self {
        key: "breathing",
        cautions: &[
            Caution::Volunteers,
            Caution::Equipment,
            Caution::FeelingIll,
            Caution::WorryingTrace,
        ],
        steps: &["screen", "sit", "quiet", "slow", "no_contest", "compare"],
        stop_signs: &["dizzy", "breathless", "chest", "unwell"],
        phases: &[
            Phase { key: "settle", seconds: 120 },
            Phase { key: "quiet", seconds: 60 },
            Phase { key: "slow", seconds: 60 },
            Phase { key: "rest", seconds: 60 },
        ],
        prompts: &["size", "when", "method", "limits"],
    };

    /// The stretch reflex of a leg muscle.
    pub const REFLEX: Self = Self {
        key: "reflex",
        cautions: &[
            Caution::Volunteers,
            Caution::Skin,
            Caution::Implants,
            Caution::Equipment,
            Caution::FeelingIll,
            Caution::NotADiagnosis,
        ],
        steps: &["screen", "sit", "electrodes", "rate", "tap", "reinforce", "voluntary"],
        stop_signs: &["pain", "cramp", "skin", "unwell"],
        phases: &[
            Phase { key: "settle", seconds: 60 },
            Phase { key: "plain", seconds: 60 },
            Phase { key: "rest", seconds: 60 },
            Phase { key: "reinforced", seconds: 60 },
            Phase { key: "voluntary", seconds: 60 },
        ],
        prompts: &["latency", "reinforcement", "voluntary", "limits"],
    };

    /// The cards of this module.
    pub const ALL: [Self; 4] = [Self::RECOVERY, Self::CONDITIONS, Self::BREATHING, Self::REFLEX];

    /// The headline.
    pub fn title(&self, language: Language) -> Cow<'static, str> {
        self.one("title", language)
    }

    /// What is asked, in a sentence or two.
    pub fn question(&self, language: Language) -> Cow<'static, str> {
        self.one("question", language)
    }

    /// What to do, in order.
    pub fn steps(&self, language: Language) -> Vec<Cow<'static, str>> {
        self.all("steps", self.steps, language)
    }

    /// When to stop at once.
    pub fn stop_signs(&self, language: Language) -> Vec<Cow<'static, str>> {
        self.all("stop", self.stop_signs, language)
    }

    /// What the conclusion should answer under a name.
    pub fn prompt(&self, name: &str, language: Language) -> Cow<'static, str> {
        self.one(&format!("prompts.{name}"), language)
    }

    /// What a phase is called.
    pub fn phase_name(&self, phase: &Phase, language: Language) -> Cow<'static, str> {
        self.one(&format!("phases.{}", phase.key), language)
    }

    fn one(&self, name: &str, language: Language) -> Cow<'static, str> {
        say(language, &format!("{}.protocol.{name}", self.key))
    }

    fn all(&self, part: &str, names: &[&str], language: Language) -> Vec<Cow<'static, str>> {
        names.iter().map(|name| self.one(&format!("{part}.{name}"), language)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_every_card_exists() {
        for card in Protocol::ALL {
            for language in Language::ALL {
                let mut said = vec![card.title(language), card.question(language)];
                said.extend(card.steps(language));
                said.extend(card.stop_signs(language));
                said.extend(card.prompts.iter().map(|name| card.prompt(name, language)));
                said.extend(card.phases.iter().map(|phase| card.phase_name(phase, language)));
                for words in said {
                    assert!(!words.contains(".protocol."), "there is no message {words}");
                }
            }
            assert!(card.cautions.contains(&Caution::FeelingIll));
            assert!(card.phases.iter().all(|phase| phase.seconds > 0));
        }
    }
}
