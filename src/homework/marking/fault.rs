//! Why a file could not be marked. It is told beside the others and never stops them.

use crate::report::SavedError;
use crate::words::{Phrase, phrase};
use serde::{Deserialize, Serialize};

/// A file that could not be marked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkFault {
    /// Which kind of fault.
    pub kind: FaultKind,
    /// What is wrong, and where.
    pub said: Phrase,
    /// What to do.
    pub remedy: Phrase,
}

/// Why a file could not be marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultKind {
    /// There is nothing in it.
    Empty,
    /// It is something else: another document of ours, or no document.
    NotAHandIn,
    /// A newer version wrote it.
    Newer,
    /// It is cut or spoilt.
    Damaged,
}

impl MarkFault {
    pub(super) const fn empty() -> Self {
        Self {
            kind: FaultKind::Empty,
            said: phrase!("homework.fault.empty"),
            remedy: phrase!("homework.fault.hand_in_again"),
        }
    }
}

impl From<SavedError> for MarkFault {
    fn from(error: SavedError) -> Self {
        let (kind, remedy) = match &error {
            SavedError::SomethingElse { .. } => {
                (FaultKind::NotAHandIn, phrase!("homework.fault.choose_hand_in"))
            }
            SavedError::Newer { .. } => (FaultKind::Newer, error.remedy()),
            _ => (FaultKind::Damaged, phrase!("homework.fault.hand_in_again")),
        };
        Self { kind, said: error.said(), remedy }
    }
}
