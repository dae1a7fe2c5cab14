//! The one place where commands change a session.

use super::undo::{Edit, History};
use super::{
    Answer, Command, Evidence, Grip, Placement, Refusal, Session, Step, Try, beat_near, judge,
};
use crate::signal::{Landmark, SampleIndex};

/// A session at work: with the changes that can be taken back.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lesson {
    pub(super) session: Session,
    pub(super) history: History<Edit>,
}

impl Lesson {
    /// Goes on with kept work.
    pub fn resume(session: Session) -> Self {
        Self { session, history: History::default() }
    }

    /// The work so far.
    pub const fn session(&self) -> &Session {
        &self.session
    }

    /// Whether a change can be taken back.
    pub const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether a change that was taken back can be made again.
    pub const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Carries out a command.
    ///
    /// # Errors
    /// [`Refusal`] when it can't be done now; nothing has changed then.
    pub fn apply(&mut self, command: Command, evidence: Evidence<'_>) -> Result<(), Refusal> {
        match command {
            Command::ChooseBeat(near) => self.choose_beat(near, evidence),
            Command::Place { landmark, at, grip } => self.place(landmark, at, grip, evidence),
            Command::NotHere(landmark) => self.mark(landmark, Some(Answer::NotHere), Grip::Fresh),
            Command::TakeAway(landmark) => self.mark(landmark, None, Grip::Fresh),
            Command::Check(landmark) => self.check(landmark, evidence),
            Command::Reveal(landmark) => self.reveal(landmark),
            Command::Answer { question, choice } => self.answer(question, choice),
            Command::StartCheck => self.start_check(evidence),
            Command::LeaveCheck => self.leave_check(),
            Command::MarkCheck => self.mark_check(evidence),
            Command::NameFlaw(guess) => self.name_flaw(guess, evidence),
            Command::GoTo(step) => self.go_to(step),
            Command::Next => self.go_to(self.session.step.next().unwrap_or(self.session.step)),
            Command::Back => self.go_to(self.session.step.back().unwrap_or(self.session.step)),
            Command::Undo => {
                let edit = self.history.undo().ok_or(Refusal::NothingToUndo)?;
                self.carry_out(edit);
                Ok(())
            }
            Command::Redo => {
                let edit = self.history.redo().ok_or(Refusal::NothingToRedo)?;
                self.carry_out(edit);
                Ok(())
            }
        }
    }

    /// A step at which no point is placed belongs to the walk: it ends a visit to the final check.
    fn go_to(&mut self, step: Step) -> Result<(), Refusal> {
        if step.landmark().is_none() {
            self.session.open_check(false);
        }
        self.session.step = step;
        Ok(())
    }

    fn choose_beat(&mut self, near: SampleIndex, evidence: Evidence<'_>) -> Result<(), Refusal> {
        let Evidence { recording, reading } = evidence;
        let place = beat_near(reading, near, recording.rate).ok_or(Refusal::NoBeatThere)?;
        let r = reading.beats.get(place).ok_or(Refusal::NoBeatThere)?.r;
        if self.session.is_kept_for_check(r) {
            return Err(Refusal::KeptForTheCheck);
        }
        let edit = Edit::Beat { before: self.session.beat, after: Some(r) };
        self.session.beat = Some(r);
        self.history.note(edit, Grip::Fresh);
        Ok(())
    }

    fn place(
        &mut self,
        landmark: Landmark,
        at: SampleIndex,
        grip: Grip,
        Evidence { recording, .. }: Evidence<'_>,
    ) -> Result<(), Refusal> {
        if at.get() >= recording.samples.len() || recording.hole_at(at).is_some() {
            return Err(Refusal::NothingRecordedThere);
        }
        self.mark(landmark, Some(Answer::At(at)), grip)
    }

    fn mark(
        &mut self,
        landmark: Landmark,
        after: Option<Answer>,
        grip: Grip,
    ) -> Result<(), Refusal> {
        let r = self.session.beat_in_hand().ok_or(Refusal::NoBeatChosen)?;
        if let Some(refusal) = self.session.forbids_marks() {
            return Err(refusal);
        }
        let placement = self.session.placement_mut(r, landmark);
        let before = std::mem::replace(&mut placement.answer, after);
        self.history.note(Edit::Mark { r, landmark, before, after }, grip);
        Ok(())
    }

    fn check(&mut self, landmark: Landmark, evidence: Evidence<'_>) -> Result<(), Refusal> {
        if let Some(refusal) = self.session.forbids_help() {
            return Err(refusal);
        }
        let (_, beat) = evidence.chosen(&self.session).ok_or(Refusal::NoBeatChosen)?;
        let r = self.session.beat.ok_or(Refusal::NoBeatChosen)?;
        let answer = self.session.answer(landmark).ok_or(Refusal::NothingToCheck)?;
        let placement = self.session.placement_mut(r, landmark);
        if placement.verdict().is_some() {
            return Err(Refusal::CheckedAlready);
        }
        let verdict = judge(landmark, answer, &beat.landmarks, evidence.recording.rate);
        placement.tries.push(Try { answer, verdict });
        Ok(())
    }

    fn reveal(&mut self, landmark: Landmark) -> Result<(), Refusal> {
        if let Some(refusal) = self.session.forbids_help() {
            return Err(refusal);
        }
        let r = self.session.beat.ok_or(Refusal::NoBeatChosen)?;
        if !self.session.placement(landmark).is_some_and(Placement::may_reveal) {
            return Err(Refusal::TryFirst);
        }
        self.session.placement_mut(r, landmark).revealed = true;
        Ok(())
    }

    /// Makes a change again or takes it back, and goes to the step in which it shows.
    fn carry_out(&mut self, edit: Edit) {
        let in_check = matches!(edit, Edit::Mark { r, .. } if self.session.is_kept_for_check(r));
        self.session.open_check(in_check);
        match edit {
            Edit::Beat { after, .. } => {
                self.session.beat = after;
                self.session.step = Step::ChooseBeat;
            }
            Edit::Mark { r, landmark, after, .. } => {
                if !in_check {
                    self.session.beat = Some(r);
                }
                self.session.placement_mut(r, landmark).answer = after;
                self.session.step = Step::Place(landmark);
            }
            Edit::Choice { question, after, .. } => {
                self.session.question_mut(question).chosen = after;
                self.session.step = question.step();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Verdict, example};

    /// Three invented beats with R at 278, 1078 and 1878, the middle one chosen.
    fn with_lesson(work: impl FnOnce(&mut dyn FnMut(Command) -> Result<Session, Refusal>)) {
        let (recording, reading) = example::of_beats(3);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(SampleIndex::new(1080)), evidence).unwrap();
        work(&mut |command| {
            lesson.apply(command, evidence)?;
            Ok(lesson.session().clone())
        });
    }

    const fn place(at: usize, grip: Grip) -> Command {
        Command::Place { landmark: Landmark::R, at: SampleIndex::new(at), grip }
    }

    #[test]
    fn a_beat_is_chosen_by_pointing_near_it() {
        with_lesson(|apply| {
            assert_eq!(apply(Command::Back).unwrap().beat(), Some(SampleIndex::new(1078)));
            let between = Command::ChooseBeat(SampleIndex::new(700));
            assert_eq!(apply(between), Err(Refusal::NoBeatThere));
        });
    }

    #[test]
    fn the_worked_answer_comes_after_two_tries() {
        with_lesson(|apply| {
            assert_eq!(apply(Command::Check(Landmark::R)), Err(Refusal::NothingToCheck));
            for at in [1000, 1020] {
                apply(place(at, Grip::Fresh)).unwrap();
                assert_eq!(apply(Command::Reveal(Landmark::R)), Err(Refusal::TryFirst));
                apply(Command::Check(Landmark::R)).unwrap();
                assert_eq!(apply(Command::Check(Landmark::R)), Err(Refusal::CheckedAlready));
            }
            let session = apply(Command::Reveal(Landmark::R)).unwrap();
            assert!(session.is_done(Step::Place(Landmark::R)));
            assert_eq!(session.left().next(), Some(Step::Place(Landmark::Q)));
        });
    }

    #[test]
    fn a_right_mark_is_done_at_once() {
        with_lesson(|apply| {
            apply(place(1079, Grip::Fresh)).unwrap();
            let session = apply(Command::Check(Landmark::R)).unwrap();
            let verdict = session.placement(Landmark::R).and_then(Placement::verdict);
            assert!(matches!(verdict, Some(Verdict::Right { miss }) if miss.samples == 1));
            assert!(session.is_done(Step::Place(Landmark::R)));
        });
    }

    #[test]
    fn a_whole_drag_is_taken_back_at_once() {
        with_lesson(|apply| {
            apply(place(1000, Grip::Fresh)).unwrap();
            apply(place(1040, Grip::Fresh)).unwrap();
            for at in 1041..1070 {
                apply(place(at, Grip::Held)).unwrap();
            }
            let mark = |session: Session| session.mark(Landmark::R).map(SampleIndex::get);
            assert_eq!(mark(apply(Command::Undo).unwrap()), Some(1000));
            assert_eq!(mark(apply(Command::Redo).unwrap()), Some(1069));
            assert_eq!(apply(Command::Redo), Err(Refusal::NothingToRedo));
        });
    }

    #[test]
    fn taking_back_does_not_wipe_tries() {
        with_lesson(|apply| {
            apply(place(1000, Grip::Fresh)).unwrap();
            apply(Command::Check(Landmark::R)).unwrap();
            apply(Command::GoTo(Step::Results)).unwrap();
            let session = apply(Command::Undo).unwrap();
            assert_eq!(session.mark(Landmark::R), None);
            assert_eq!(
                session.placement(Landmark::R).map(|placement| placement.tries.len()),
                Some(1)
            );
            assert_eq!(session.step(), Step::Place(Landmark::R));
        });
    }

    #[test]
    fn each_beat_keeps_its_own_work() {
        with_lesson(|apply| {
            apply(place(1078, Grip::Fresh)).unwrap();
            let other = apply(Command::ChooseBeat(SampleIndex::new(1878))).unwrap();
            assert_eq!(other.mark(Landmark::R), None);
            let back = apply(Command::ChooseBeat(SampleIndex::new(1078))).unwrap();
            assert_eq!(back.mark(Landmark::R), Some(SampleIndex::new(1078)));
        });
    }

    #[test]
    fn marks_stand_on_the_trace() {
        with_lesson(|apply| {
            assert_eq!(apply(place(2401, Grip::Fresh)), Err(Refusal::NothingRecordedThere));
        });
        let (recording, reading) = example::of_beats(3);
        let mut lesson = Lesson::default();
        let evidence = Evidence { recording: &recording, reading: &reading };
        assert_eq!(lesson.apply(place(5, Grip::Fresh), evidence), Err(Refusal::NoBeatChosen));
        assert_eq!(lesson, Lesson::default());
    }
}
