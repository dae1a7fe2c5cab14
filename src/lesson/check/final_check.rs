//! Which beat the final check is on, and how far it has come.

use crate::signal::SampleIndex;
use serde::{Deserialize, Serialize};

/// The final check of a session. Its marks are kept with those of the other beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FinalCheck {
    /// R of its beat, as the analysis found it.
    pub beat: SampleIndex,
    /// Whether the student is at it just now.
    pub open: bool,
    /// Whether it was marked: after that nothing of it changes.
    pub marked: bool,
}
