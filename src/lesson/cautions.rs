//! What has to be said so that nobody is hurt, misled or exposed. The texts stand in
//! `src/words/cautions.yml`; the sensor's manual, the school's policy and local rules come first.

use crate::words::{Language, say};
use std::borrow::Cow;

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Caution {
    /// This is teaching, not a medical test.
    NotADiagnosis,
    /// Only volunteers; nobody has to say why not.
    Volunteers,
    /// Electrodes on sound skin; allergies.
    Skin,
    /// Implanted devices.
    Implants,
    /// Battery-powered, isolated sensors; the manual decides.
    Equipment,
    /// Exercise needs clearance.
    Exercise,
    /// The data of a body stay on the machine.
    Privacy,
    /// What to do about a trace that worries somebody.
    WorryingTrace,
    /// What to do when somebody feels ill now.
    FeelingIll,
}

/// A caution in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CautionWords {
    /// A short heading.
    pub title: Cow<'static, str>,
    /// What to do.
    pub text: Cow<'static, str>,
}

impl Caution {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::NotADiagnosis,
        Self::Volunteers,
        Self::Skin,
        Self::Implants,
        Self::Equipment,
        Self::Exercise,
        Self::Privacy,
        Self::WorryingTrace,
        Self::FeelingIll,
    ];

    /// Those that stand beside every result and on every report.
    pub const ON_RESULTS: [Self; 3] = [Self::NotADiagnosis, Self::WorryingTrace, Self::Privacy];

    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NotADiagnosis => "not_a_diagnosis",
            Self::Volunteers => "volunteers",
            Self::Skin => "skin",
            Self::Implants => "implants",
            Self::Equipment => "equipment",
            Self::Exercise => "exercise",
            Self::Privacy => "privacy",
            Self::WorryingTrace => "worrying_trace",
            Self::FeelingIll => "feeling_ill",
        }
    }

    /// What is said.
    pub fn words(self, language: Language) -> CautionWords {
        let part = |part: &str| say(language, &format!("cautions.{}.{part}", self.key()));
        CautionWords { title: part("title"), text: part("text") }
    }
}
