//! How the final check goes: begun, left, marked; and what it changes about the other commands.

use super::super::beat::suggest_unseen_beat;
use super::super::{Evidence, Lesson, Placement, Refusal, Session, Step, Try, beat_near, judge};
use super::flaw::{FlawAnswer, FlawGuess, Specimen, flawed_stretch, flaws_in};
use super::{FinalCheck, Flaw};
use crate::signal::{Landmark, Landmarks, SampleIndex};

impl Session {
    /// The final check, once it was begun.
    pub const fn final_check(&self) -> Option<&FinalCheck> {
        self.check.as_ref()
    }

    /// Whether the student is at the final check just now.
    pub fn is_checking(&self) -> bool {
        self.check.is_some_and(|check| check.open)
    }

    /// R of the beat whose points are placed just now: that of the check while it is open, or the one
    /// that is walked.
    pub fn beat_in_hand(&self) -> Option<SampleIndex> {
        self.check.filter(|check| check.open).map_or(self.beat, |check| Some(check.beat))
    }

    /// What was done about a point of the beat in hand.
    pub fn placement_in_hand(&self, landmark: Landmark) -> Option<&Placement> {
        self.placement_on(self.beat_in_hand()?, landmark)
    }

    /// The marks on the beat in hand.
    pub fn marks_in_hand(&self) -> Landmarks {
        self.marks_on(self.beat_in_hand())
    }

    /// The points that the check still needs, in the order of the walk.
    pub fn check_left(&self) -> impl Iterator<Item = Landmark> {
        let beat = self.check.map(|check| check.beat);
        Step::ALL.into_iter().filter_map(Step::landmark).filter(move |&landmark| {
            let placed = beat.and_then(|beat| self.placement_on(beat, landmark));
            placed.is_none_or(|placement| placement.answer.is_none())
        })
    }

    /// What was said about a flawed recording.
    pub fn flaw_answer(&self, specimen: Specimen) -> Option<&FlawAnswer> {
        self.flaws.iter().find(|answer| answer.guess.specimen == specimen)
    }

    /// What forbids changing a mark just now.
    pub(in crate::lesson) fn forbids_marks(&self) -> Option<Refusal> {
        self.check.is_some_and(|check| check.open && check.marked).then_some(Refusal::CheckIsMarked)
    }

    /// What forbids help just now.
    pub(in crate::lesson) fn forbids_help(&self) -> Option<Refusal> {
        self.is_checking().then_some(Refusal::NoHelpInCheck)
    }

    /// Whether a beat is kept for the check and has not been marked yet.
    pub(in crate::lesson) fn is_kept_for_check(&self, r: SampleIndex) -> bool {
        self.check.is_some_and(|check| check.beat == r && !check.marked)
    }

    /// Leaves the check, or comes back to it.
    pub(in crate::lesson) fn open_check(&mut self, open: bool) {
        self.check = self.check.map(|check| FinalCheck { open, ..check });
    }
}

impl Lesson {
    /// Begins the check on a beat that was not walked, or comes back to the one that was begun.
    pub(in crate::lesson) fn start_check(
        &mut self,
        Evidence { recording, reading }: Evidence<'_>,
    ) -> Result<(), Refusal> {
        if self.session.check.is_none() {
            self.session.beat.ok_or(Refusal::NoBeatChosen)?;
            let place = suggest_unseen_beat(&self.session, recording, reading);
            let beat = place.and_then(|place| reading.beats.get(place));
            let beat = beat.ok_or(Refusal::NoBeatForCheck)?.r;
            self.session.check = Some(FinalCheck { beat, open: true, marked: false });
        }
        self.session.open_check(true);
        let left = self.session.check_left().next();
        self.session.step = Step::Place(left.unwrap_or(Landmark::R));
        Ok(())
    }

    /// Goes back to the walk where something is left to do, or to the results.
    pub(in crate::lesson) fn leave_check(&mut self) -> Result<(), Refusal> {
        self.session.open_check(false);
        let left = self.session.left().next();
        self.session.step = left.unwrap_or(Step::Results);
        Ok(())
    }

    /// Marks all points of the check together. Nothing of it changes after that.
    pub(in crate::lesson) fn mark_check(
        &mut self,
        Evidence { recording, reading }: Evidence<'_>,
    ) -> Result<(), Refusal> {
        let check = self.session.check.ok_or(Refusal::NoBeatForCheck)?;
        if check.marked {
            return Err(Refusal::CheckIsMarked);
        }
        if self.session.check_left().next().is_some() {
            return Err(Refusal::PlaceAllFirst);
        }
        let place = beat_near(reading, check.beat, recording.rate).ok_or(Refusal::NoBeatThere)?;
        let beat = reading.beats.get(place).ok_or(Refusal::NoBeatThere)?;
        for landmark in Landmark::ALL {
            let placement = self.session.placement_mut(check.beat, landmark);
            let Some(answer) = placement.answer else { continue };
            let verdict = judge(landmark, answer, &beat.landmarks, recording.rate);
            placement.tries.push(Try { answer, verdict });
        }
        self.session.check = Some(FinalCheck { marked: true, ..check });
        self.history.forget(check.beat);
        Ok(())
    }

    /// Takes what a student says about a flawed recording, once; `evidence` is of that recording.
    pub(in crate::lesson) fn name_flaw(
        &mut self,
        guess: FlawGuess,
        evidence: Evidence<'_>,
    ) -> Result<(), Refusal> {
        if self.session.flaw_answer(guess.specimen).is_some() {
            return Err(Refusal::CheckIsMarked);
        }
        let found: Vec<Flaw> =
            flaws_in(flawed_stretch(evidence), evidence).map(|(flaw, _)| flaw).collect();
        self.session.flaws.push(FlawAnswer { guess, found });
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Finding, FindingKind, Severity};
    use crate::lesson::{CheckScore, Command, Grip, Verdict, example};

    /// The lesson after the middle of five beats was chosen and the check begun.
    fn begun(evidence: Evidence<'_>) -> Lesson {
        let mut lesson = Lesson::default();
        assert_eq!(lesson.apply(Command::StartCheck, evidence), Err(Refusal::NoBeatChosen));
        lesson.apply(Command::ChooseBeat(evidence.reading.beats[1].r), evidence).unwrap();
        lesson.apply(Command::StartCheck, evidence).unwrap();
        lesson
    }

    fn place(landmark: Landmark, at: usize) -> Command {
        Command::Place { landmark, at: SampleIndex::new(at), grip: Grip::Fresh }
    }

    #[test]
    fn points_are_placed_without_help_and_marked_together() {
        let (recording, reading) = example::of_beats(5);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = begun(evidence);
        let unseen = reading.beats[2];
        assert_eq!(lesson.session().beat_in_hand(), Some(unseen.r));
        assert_eq!(lesson.session().beat(), Some(reading.beats[1].r), "the walk keeps its beat");

        for (landmark, at) in unseen.landmarks.iter() {
            // T end is put two limits off; Q is said not to be here.
            let at = if landmark == Landmark::TEnd { at.get() + 61 } else { at.get() };
            assert_eq!(lesson.apply(Command::MarkCheck, evidence), Err(Refusal::PlaceAllFirst));
            lesson.apply(place(landmark, at), evidence).unwrap();
            let help = [Command::Check(landmark), Command::Reveal(landmark)];
            for command in help {
                assert_eq!(lesson.apply(command, evidence), Err(Refusal::NoHelpInCheck));
            }
        }
        lesson.apply(Command::NotHere(Landmark::Q), evidence).unwrap();
        assert!(CheckScore::of(lesson.session(), recording.rate).is_none());
        lesson.apply(Command::MarkCheck, evidence).unwrap();

        let score = CheckScore::of(lesson.session(), recording.rate).unwrap();
        assert_eq!((score.right(), score.compared()), (9, 11));
        let q = score.rows.iter().find(|row| row.landmark == Landmark::Q).unwrap();
        assert_eq!(q.verdict, Verdict::IsHere);
        let t_end = score.rows.last().unwrap();
        assert_eq!(t_end.verdict.miss().unwrap().samples, 61);
        assert_eq!(t_end.limit.right.milliseconds(), 30.6);

        // What was marked stays: no new mark, nothing to take back but the choice of the beat.
        let late = lesson.apply(place(Landmark::TEnd, 2200), evidence);
        assert_eq!(late, Err(Refusal::CheckIsMarked));
        lesson.apply(Command::Undo, evidence).unwrap();
        assert_eq!(lesson.session().beat(), None);
        assert!(!lesson.can_undo() && !lesson.session().is_checking());
        assert_eq!(CheckScore::of(lesson.session(), recording.rate), Some(score));
    }

    #[test]
    fn the_beat_of_the_check_can_t_be_walked_before_it_is_marked() {
        let (recording, reading) = example::of_beats(5);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = begun(evidence);
        lesson.apply(place(Landmark::R, reading.beats[2].r.get()), evidence).unwrap();
        lesson.apply(Command::LeaveCheck, evidence).unwrap();
        assert_eq!(lesson.session().mark(Landmark::R), None, "the walk has its own marks");
        assert_eq!(lesson.session().step(), Step::Place(Landmark::R), "and goes on there");
        let choose = Command::ChooseBeat(reading.beats[2].r);
        assert_eq!(lesson.apply(choose, evidence), Err(Refusal::KeptForTheCheck));
        // Taking back a mark of the check leads back into it.
        lesson.apply(Command::Undo, evidence).unwrap();
        assert!(lesson.session().is_checking());
        assert_eq!(lesson.session().beat(), Some(reading.beats[1].r));
        lesson.apply(Command::GoTo(Step::ChooseBeat), evidence).unwrap();
        assert!(!lesson.session().is_checking());
    }

    #[test]
    fn a_check_needs_a_beat_that_was_not_walked() {
        let (recording, reading) = example::of_beats(1);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(reading.beats[0].r), evidence).unwrap();
        assert_eq!(lesson.apply(Command::StartCheck, evidence), Err(Refusal::NoBeatForCheck));
    }

    #[test]
    fn a_flaw_is_named_once_and_kept() {
        let (recording, mut reading) = example::of_beats(10);
        let kind = FindingKind::MainsHum(50.0);
        reading.findings.push(Finding { kind, severity: Severity::Limits, spans: Vec::new() });
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        let guess = FlawGuess { specimen: Specimen::Noisy, flaw: Flaw::Hum, remedy: Flaw::Tremor };
        lesson.apply(Command::NameFlaw(guess), evidence).unwrap();
        assert_eq!(lesson.apply(Command::NameFlaw(guess), evidence), Err(Refusal::CheckIsMarked));
        let written = serde_json::to_string(lesson.session()).unwrap();
        let session: Session = serde_json::from_str(&written).unwrap();
        let answer = session.flaw_answer(Specimen::Noisy).unwrap();
        assert_eq!((answer.names_one(), answer.remedies_one()), (true, false));
    }
}
