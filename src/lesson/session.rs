//! What a student has done so far: small, and all that has to be kept besides the recording.
//!
//! Work belongs to a beat: choosing another beat starts anew, coming back finds the marks again.
//! A beat is known by its R, not by its number, so that it is found again after another analysis.

use super::{Answer, FinalCheck, FlawAnswer, Placement, QuestionWork, Step};
use crate::signal::{Landmark, Landmarks, SampleIndex};
use serde::{Deserialize, Serialize};

/// A student's work on one recording.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Session {
    pub(super) step: Step,
    pub(super) beat: Option<SampleIndex>,
    pub(super) work: Vec<BeatWork>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) questions: Vec<QuestionWork>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) check: Option<FinalCheck>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) flaws: Vec<FlawAnswer>,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: serde_json::Map<String, serde_json::Value>,
}

/// The work on one beat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BeatWork {
    /// R of the beat, as the analysis found it.
    pub r: SampleIndex,
    /// The points that were touched.
    pub placements: Vec<Placement>,
}

/// A kept answer that lies outside the recording.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MisplacedAnswer {
    /// Where the mark stands.
    pub sample: usize,
    /// How many samples there are.
    pub samples: usize,
}

impl Session {
    /// The step the student is at.
    pub const fn step(&self) -> Step {
        self.step
    }

    /// R of the chosen beat.
    pub const fn beat(&self) -> Option<SampleIndex> {
        self.beat
    }

    /// The work on every beat that was chosen so far.
    pub fn work(&self) -> &[BeatWork] {
        &self.work
    }

    /// What was done about a point of the chosen beat; `None` when it is untouched.
    pub fn placement(&self, landmark: Landmark) -> Option<&Placement> {
        self.placements().find(|placement| placement.landmark == landmark)
    }

    /// Everything that was done on the chosen beat.
    pub fn placements(&self) -> impl Iterator<Item = &Placement> {
        self.placements_on(self.beat)
    }

    fn placements_on(&self, beat: Option<SampleIndex>) -> impl Iterator<Item = &Placement> {
        beat.and_then(|r| self.work.iter().find(|work| work.r == r))
            .into_iter()
            .flat_map(|work| &work.placements)
    }

    /// What was done about a point of the beat with this R.
    pub(super) fn placement_on(&self, r: SampleIndex, landmark: Landmark) -> Option<&Placement> {
        self.placements_on(Some(r)).find(|placement| placement.landmark == landmark)
    }

    /// The marks of the student on a beat.
    pub(super) fn marks_on(&self, beat: Option<SampleIndex>) -> Landmarks {
        let mut marks = Landmarks::default();
        for placement in self.placements_on(beat) {
            marks.set(placement.landmark, placement.answer.and_then(Answer::sample));
        }
        marks
    }

    /// Where the student's mark for a point of the chosen beat stands.
    pub fn answer(&self, landmark: Landmark) -> Option<Answer> {
        self.placement(landmark)?.answer
    }

    /// The sample of the student's mark, when there is one and it is not 'not here'.
    pub fn mark(&self, landmark: Landmark) -> Option<SampleIndex> {
        self.answer(landmark)?.sample()
    }

    /// All marks of the student on the chosen beat.
    pub fn marks(&self) -> Landmarks {
        self.marks_on(self.beat)
    }

    /// Whether a step needs nothing more. The results are done when all before them are.
    pub fn is_done(&self, step: Step) -> bool {
        match step {
            Step::ChooseBeat => self.beat.is_some(),
            Step::Place(landmark) => self.placement(landmark).is_some_and(Placement::is_done),
            Step::Results => self.left().all(|step| step == Step::Results),
        }
    }

    /// The steps that still need something, in order; the results are not among them.
    pub fn left(&self) -> impl Iterator<Item = Step> {
        Step::ALL.into_iter().filter(|&step| step != Step::Results && !self.is_done(step))
    }

    /// Checks that every mark lies inside a recording of so many samples.
    ///
    /// # Errors
    /// [`MisplacedAnswer`] names the first that does not.
    pub fn fits(&self, samples: usize) -> Result<(), MisplacedAnswer> {
        let check = self.check.map(|check| check.beat);
        let places = self.beat.into_iter().chain(check).chain(self.work.iter().flat_map(|work| {
            let answers = work.placements.iter().flat_map(|placement| {
                let tries = placement.tries.iter().map(|one| one.answer);
                tries.chain(placement.answer).filter_map(Answer::sample)
            });
            answers.chain([work.r])
        }));
        match places.map(SampleIndex::get).find(|&sample| sample >= samples) {
            Some(sample) => Err(MisplacedAnswer { sample, samples }),
            None => Ok(()),
        }
    }

    /// The same work on a part of the recording: every mark `earlier` samples earlier (later, when
    /// negative). What would lie outside a part of so many samples is let go: a beat with all its
    /// points, or one point. Without its beat, the walk starts at choosing one.
    #[must_use]
    pub fn moved(&self, earlier: isize, samples: usize) -> Self {
        let moved = |at: SampleIndex| {
            let at = at.get().checked_add_signed(earlier.checked_neg()?)?;
            (at < samples).then_some(SampleIndex::new(at))
        };
        let beat = self.beat.and_then(moved);
        let work = self.work.iter().filter_map(|work| {
            let placements = work.placements.iter().filter_map(|one| one.moved(moved)).collect();
            Some(BeatWork { r: moved(work.r)?, placements })
        });
        Self {
            step: if beat.is_some() { self.step } else { Step::ChooseBeat },
            beat,
            work: work.collect(),
            questions: self.questions.clone(),
            check: self
                .check
                .and_then(|check| Some(FinalCheck { beat: moved(check.beat)?, ..check })),
            flaws: self.flaws.clone(),
            unknown: self.unknown.clone(),
        }
    }

    /// The place for a point of a beat, made when it is missing.
    pub(super) fn placement_mut(&mut self, r: SampleIndex, landmark: Landmark) -> &mut Placement {
        let work = found_or_made(
            &mut self.work,
            |work| work.r == r,
            || BeatWork { r, placements: Vec::new() },
        );
        found_or_made(
            &mut work.placements,
            |placement| placement.landmark == landmark,
            || Placement::untouched(landmark),
        )
    }
}

fn found_or_made<T>(
    list: &mut Vec<T>,
    wanted: impl Fn(&T) -> bool,
    make: impl FnOnce() -> T,
) -> &mut T {
    let at = list.iter().position(wanted).unwrap_or_else(|| {
        list.push(make());
        list.len() - 1
    });
    &mut list[at]
}
