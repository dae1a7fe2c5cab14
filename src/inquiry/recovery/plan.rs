//! Which part of which recording is rest and which is recovery: two files, or one long one with marks.

use super::Recovery;
use crate::inquiry::stretch::Stretch;
use crate::lesson::Evidence;
use crate::signal::{SampleIndex, SampleSpan, Seconds};
use serde::{Deserialize, Serialize};

/// How the recordings of a recovery are parted. Marks are samples of the recording of recovery.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct RecoveryPlan {
    /// Where rest ends, in one long recording.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rest_until: Option<SampleIndex>,
    /// Where exercise ends; without it recovery is the whole recording.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exercise_until: Option<SampleIndex>,
    /// How long after the end of exercise the recording begins. Counts for nothing once that end is marked.
    #[serde(default)]
    pub waited: Seconds,
}

impl RecoveryPlan {
    /// Compares. Rest is a recording of its own; without one it is what lies before its mark, or else before
    /// the end of exercise, in the recording of recovery.
    pub fn compare(&self, rest: Option<Evidence<'_>>, recovery: Evidence<'_>) -> Recovery {
        let (rest, after) = self.stretches(rest, recovery);
        Recovery::of(&rest, &after, self.wait())
    }

    /// What stands for rest and for recovery.
    pub fn stretches<'a>(
        &self,
        rest: Option<Evidence<'a>>,
        recovery: Evidence<'a>,
    ) -> (Stretch<'a>, Stretch<'a>) {
        let after = match self.exercise_until {
            Some(mark) => Stretch::after(recovery, mark),
            None => Stretch::whole(recovery),
        };
        let before = || match self.rest_until.or(self.exercise_until) {
            Some(mark) => Stretch::before(recovery, mark),
            None => Stretch::between(recovery, SampleSpan::new(0, 0)),
        };
        (rest.map_or_else(before, Stretch::whole), after)
    }

    fn wait(&self) -> Seconds {
        match self.exercise_until {
            Some(_) => Seconds::default(),
            None => self.waited,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::{NoNumber, Side};
    use crate::lesson::example;

    #[test]
    fn one_recording_is_parted_at_its_marks_and_two_are_taken_whole() {
        let (recording, reading) = example::of_beats(6);
        let one = Evidence { recording: &recording, reading: &reading };
        let beats = |plan: RecoveryPlan, rest| {
            let (rest, after) = plan.stretches(rest, one);
            (rest.beats().len(), after.beats().len())
        };
        // R at 278, 1078, 1878, 2678, 3478, 4278.
        let (early, late) = (Some(SampleIndex::new(1500)), Some(SampleIndex::new(3000)));
        let plan = |rest_until, exercise_until| RecoveryPlan {
            rest_until,
            exercise_until,
            ..RecoveryPlan::default()
        };
        assert_eq!(beats(plan(None, None), Some(one)), (6, 6));
        assert_eq!(beats(plan(early, late), None), (2, 2));
        assert_eq!(beats(plan(None, late), None), (4, 2));
        assert_eq!(beats(plan(early, late), Some(one)), (6, 2));
        assert_eq!(beats(plan(None, None), None), (0, 6));
        let nothing = plan(None, None).compare(None, one);
        assert_eq!(nothing.resting, Err(NoNumber::Empty(Side::Rest)));
    }

    #[test]
    fn a_marked_end_of_exercise_needs_no_waiting() {
        let waited = Seconds::new(12.0);
        let marked = Some(SampleIndex::new(9));
        let plan = RecoveryPlan { waited, ..RecoveryPlan::default() };
        assert_eq!(plan.wait(), waited);
        assert_eq!(RecoveryPlan { exercise_until: marked, ..plan }.wait(), Seconds::default());
    }
}
