//! Marks that came with a recording: beats that somebody annotated, notes, taps.

use super::time::SampleIndex;
use serde::{Deserialize, Serialize};

/// Something noted at one moment of a recording.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// The sample it belongs to.
    pub at: SampleIndex,
    /// What it marks.
    pub kind: MarkKind,
    /// The text that came with it; empty when there was none.
    pub text: String,
}

/// What a mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MarkKind {
    /// A heartbeat, with the annotator's class.
    Beat(BeatCode),
    /// Anything else: a rhythm change, noise, a remark, an event.
    Note,
}

/// The one-letter class of a beat, as the open WFDB annotation codes have it (`N`, `V`, `/` …).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct BeatCode(pub char);
