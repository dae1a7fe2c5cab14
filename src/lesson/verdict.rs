//! How an answer was judged. Data only: the sentence is made in the student's language.

use crate::signal::{Landmark, Milliseconds};
use serde::{Deserialize, Serialize};

/// How far a mark lies from where the analysis puts the point; positive when the mark is later.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Miss {
    /// In samples.
    pub samples: i64,
    /// In time.
    pub milliseconds: Milliseconds,
}

/// On which side of the point a mark lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// To the left of it.
    TooEarly,
    /// To the right of it.
    TooLate,
}

impl Miss {
    /// On which side; `None` when the mark lies on the very sample.
    pub const fn way(self) -> Option<Way> {
        match self.samples {
            0 => None,
            ..0 => Some(Way::TooEarly),
            1.. => Some(Way::TooLate),
        }
    }
}

impl Miss {
    /// The distances that a hint may name, ms: coarse, so that it narrows the search and does not end it.
    const NEAR: [f64; 5] = [50.0, 100.0, 200.0, 400.0, 800.0];

    /// A round distance within which the point lies; `None` when it is farther than all of them.
    pub fn within(self) -> Option<Milliseconds> {
        let far = self.milliseconds.abs().milliseconds();
        Self::NEAR.into_iter().find(|&near| far <= near).map(Milliseconds::new)
    }
}

/// What helps next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hint {
    /// The mark lies on another point of the cycle, this one.
    OnAnotherPoint(Landmark),
    /// What to look for.
    Look,
}

/// How an answer was judged.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Within the limit for this point.
    Right {
        /// How far off.
        miss: Miss,
    },
    /// Near, but outside the limit.
    Close {
        /// How far off.
        miss: Miss,
    },
    /// Somewhere else.
    Off {
        /// How far off.
        miss: Miss,
        /// What helps next.
        hint: Hint,
    },
    /// 'Not here', and the analysis found nothing it could measure either.
    RightlyNotHere,
    /// 'Not here', but the analysis found it.
    IsHere,
    /// Placed where the analysis could not measure: nobody can say that it is wrong.
    CannotTell,
}

impl Verdict {
    /// Whether the point needs no further try.
    pub const fn is_settled(self) -> bool {
        matches!(self, Self::Right { .. } | Self::RightlyNotHere | Self::CannotTell)
    }

    /// How far off the mark was, when there is something to compare it with.
    pub const fn miss(self) -> Option<Miss> {
        match self {
            Self::Right { miss } | Self::Close { miss } | Self::Off { miss, .. } => Some(miss),
            Self::RightlyNotHere | Self::IsHere | Self::CannotTell => None,
        }
    }

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Right { .. } => "right",
            Self::Close { .. } => "close",
            Self::Off { .. } => "elsewhere",
            Self::RightlyNotHere => "rightly_not_here",
            Self::IsHere => "is_here",
            Self::CannotTell => "cannot_tell",
        }
    }
}
