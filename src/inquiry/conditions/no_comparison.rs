//! Why a value found no use, and why a comparison can't be made: what is missing, and what to do.

use crate::words::{Phrase, phrase};

/// Why a value found no use.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// There is more than one.
    Duplicate {
        /// Whose.
        code: String,
        /// Where.
        condition: String,
    },
    /// There is none in this condition, so the others have no partner.
    Missing {
        /// Whose.
        code: String,
        /// Where.
        condition: String,
    },
    /// It can't be measured in that recording.
    NotMeasurable {
        /// Whose.
        code: String,
        /// Where.
        condition: String,
    },
    /// Nobody knows whose it is.
    NoCode {
        /// Where.
        condition: String,
    },
    /// No such condition is compared.
    UnknownCondition {
        /// Whose.
        code: String,
        /// Where.
        condition: String,
    },
}

/// Why there is no comparison.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoComparison {
    /// It takes two conditions.
    FewConditions,
    /// Nobody has a value in both.
    NoPairs {
        /// The first condition.
        first: String,
        /// The other one.
        second: String,
    },
    /// Fewer beats count in a condition than it takes.
    TooFewBeats {
        /// Where.
        condition: String,
        /// How many count.
        found: usize,
        /// How many it takes.
        needed: usize,
    },
}

impl LeftOut {
    /// Whose value it is, where that is known.
    pub fn code(&self) -> Option<&String> {
        match self {
            Self::Duplicate { code, .. }
            | Self::Missing { code, .. }
            | Self::NotMeasurable { code, .. }
            | Self::UnknownCondition { code, .. } => Some(code),
            Self::NoCode { .. } => None,
        }
    }

    /// What is wrong, and what to do.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Duplicate { code, condition } => {
                phrase!("conditions.left_out.duplicate", code, condition)
            }
            Self::Missing { code, condition } => {
                phrase!("conditions.left_out.missing", code, condition)
            }
            Self::NotMeasurable { code, condition } => {
                phrase!("conditions.left_out.not_measurable", code, condition)
            }
            Self::NoCode { condition } => phrase!("conditions.left_out.no_code", condition),
            Self::UnknownCondition { code, condition } => {
                phrase!("conditions.left_out.unknown_condition", code, condition)
            }
        }
    }
}

impl NoComparison {
    /// What is missing, and what to do.
    pub fn said(&self) -> Phrase {
        match self {
            Self::FewConditions => phrase!("conditions.no_comparison.few_conditions"),
            Self::NoPairs { first, second } => {
                phrase!("conditions.no_comparison.no_pairs", first, second)
            }
            Self::TooFewBeats { condition, found, needed } => {
                phrase!("conditions.no_comparison.too_few_beats", condition, found, needed)
            }
        }
    }
}
