//! How breaths are told in the recording at hand: as chosen, or by what it offers.

use super::{BreathMarks, BreathSource, Breathing, NoBreathing, Paced};
use crate::inquiry::stretch::Stretch;
use crate::lesson::Evidence;
use crate::signal::{Recording, Seconds};
use serde::{Deserialize, Serialize};

/// How breaths are to be told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BreathingPlan {
    /// By marks, where they look like breathing; else by the trace itself.
    #[default]
    AsOffered,
    /// By marks.
    Marks,
    /// By a timer of six breaths a minute, followed from this moment on.
    Timer(Seconds),
    /// By another trace of the file, by its place among the others.
    Channel(usize),
    /// By the trace itself.
    Estimate,
}

impl BreathingPlan {
    /// The rise and fall of the rate with breath.
    ///
    /// # Errors
    /// [`NoBreathing`] when it can't be told.
    pub fn find(
        self,
        evidence: Evidence<'_>,
        channels: &[&Recording],
    ) -> Result<Breathing, NoBreathing> {
        let stretch = Stretch::whole(evidence);
        let marks = BreathMarks::likely(evidence.recording);
        let by_marks = || marks.as_ref().map(BreathSource::Marks);
        let source = match self {
            Self::AsOffered => by_marks().unwrap_or(BreathSource::Estimate),
            Self::Marks => by_marks().ok_or(NoBreathing::NoMarks)?,
            Self::Timer(from) => BreathSource::Timer(Paced::slow(from)),
            Self::Channel(place) => {
                channels.get(place).map_or(BreathSource::Estimate, |it| BreathSource::Channel(it))
            }
            Self::Estimate => BreathSource::Estimate,
        };
        Breathing::of(&stretch, source)
    }
}
