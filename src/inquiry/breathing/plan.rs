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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::read;
    use crate::inquiry::ToldBy;
    use crate::signal::{Mark, MarkKind, SampleIndex};
    use crate::synth::Demo;

    #[test]
    fn what_is_offered_is_taken_and_what_is_chosen_comes_first() {
        let mut recording = Demo::Resting.recording().unwrap();
        let reading = read(&recording, &mut |_| {});
        let told = |plan: BreathingPlan, recording: &Recording| {
            let evidence = Evidence { recording, reading: &reading };
            plan.find(evidence, &[]).map(|found| found.told_by)
        };
        assert_eq!(told(BreathingPlan::Marks, &recording), Err(NoBreathing::NoMarks));
        recording.marks = (0..7)
            .map(|breath| Mark {
                at: SampleIndex::new(100 + 1000 * breath),
                kind: MarkKind::Note,
                text: "in".to_owned(),
            })
            .collect();
        assert_eq!(told(BreathingPlan::AsOffered, &recording), Ok(ToldBy::Marks));
        assert_eq!(told(BreathingPlan::Marks, &recording), Ok(ToldBy::Marks));
    }
}
