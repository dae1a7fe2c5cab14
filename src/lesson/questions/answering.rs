//! How an answer changes the session, and which questions are left.

use super::{Choice, Question, QuestionWork};
use crate::lesson::undo::Edit;
use crate::lesson::{Grip, Lesson, Placement, Refusal, Session};

impl Session {
    /// What was answered to a question; `None` when nothing was.
    pub fn question(&self, question: Question) -> Option<&QuestionWork> {
        self.questions.iter().find(|work| work.question == question)
    }

    /// Whether a question is asked: a beat is chosen and the point of the question, where it has one,
    /// is settled in it; or it was answered before.
    pub fn is_asked(&self, question: Question) -> bool {
        let ready = match question.step().landmark() {
            Some(landmark) => self.placement(landmark).is_some_and(Placement::is_done),
            None => self.beat.is_some(),
        };
        ready || self.question(question).is_some()
    }

    /// The questions without a right answer yet, in order.
    pub fn questions_left(&self) -> impl Iterator<Item = Question> {
        Question::ALL
            .into_iter()
            .filter(|&question| !self.question(question).is_some_and(QuestionWork::is_settled))
    }

    /// How many answers to questions were tried.
    pub fn questions_tried(&self) -> usize {
        self.questions.iter().map(|work| work.tries.len()).sum()
    }

    pub(in crate::lesson) fn question_mut(&mut self, question: Question) -> &mut QuestionWork {
        let at = self.questions.iter().position(|work| work.question == question);
        let at = at.unwrap_or_else(|| {
            self.questions.push(QuestionWork::untouched(question));
            self.questions.len() - 1
        });
        &mut self.questions[at]
    }
}

impl Lesson {
    pub(in crate::lesson) fn answer(
        &mut self,
        question: Question,
        choice: Choice,
    ) -> Result<(), Refusal> {
        if !self.session.is_asked(question) {
            return Err(Refusal::PointFirst);
        }
        let work = self.session.question_mut(question);
        let before = work.chosen;
        work.take(choice);
        let edit = Edit::Choice { question, before, after: Some(choice) };
        self.history.note(edit, Grip::Fresh);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Command, Evidence, Step, example};
    use crate::signal::Landmark;

    fn answer(choice: Choice) -> Command {
        Command::Answer { question: Question::TallIsStrong, choice }
    }

    #[test]
    fn a_question_comes_after_its_point_and_keeps_the_first_answer() {
        let (recording, reading) = example::of_beats(3);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        let r = reading.beats[1].r;
        lesson.apply(Command::ChooseBeat(r), evidence).unwrap();
        assert_eq!(lesson.apply(answer(Choice::Right), evidence), Err(Refusal::PointFirst));
        let place = Command::Place { landmark: Landmark::R, at: r, grip: Grip::Fresh };
        lesson.apply(place, evidence).unwrap();
        lesson.apply(Command::Check(Landmark::R), evidence).unwrap();
        assert_eq!(lesson.session().questions_left().count(), 13);

        lesson.apply(answer(Choice::Belief), evidence).unwrap();
        lesson.apply(answer(Choice::Right), evidence).unwrap();
        let work = lesson.session().question(Question::TallIsStrong).unwrap().clone();
        assert_eq!((work.first(), work.tries.len()), (Some(Choice::Belief), 2));
        let left: Vec<_> = lesson.session().questions_left().take(2).collect();
        assert_eq!(left, [Question::AlikeIsPumping, Question::QIsAvNode]);

        // Taking an answer back shows the one before; what was tried stays on record.
        lesson.apply(Command::GoTo(Step::Results), evidence).unwrap();
        lesson.apply(Command::Undo, evidence).unwrap();
        let back = lesson.session().question(Question::TallIsStrong).unwrap().clone();
        assert_eq!((back.chosen, back.tries.len()), (Some(Choice::Belief), 2));
        assert_eq!(lesson.session().step(), Step::Place(Landmark::R));
        lesson.apply(Command::Redo, evidence).unwrap();
        assert_eq!(lesson.session().question(Question::TallIsStrong), Some(&work));
    }

    #[test]
    fn choosing_a_beat_and_the_results_have_their_questions_too() {
        let (recording, reading) = example::of_beats(3);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        for question in [Question::AlikeIsPumping, Question::QtIsSqueeze] {
            let answer = Command::Answer { question, choice: Choice::Right };
            let mut early = Lesson::default();
            assert_eq!(early.apply(answer, evidence), Err(Refusal::PointFirst));
            lesson.apply(Command::ChooseBeat(reading.beats[1].r), evidence).unwrap();
            lesson.apply(answer, evidence).unwrap();
            lesson.apply(Command::GoTo(Step::Place(Landmark::R)), evidence).unwrap();
            lesson.apply(Command::Undo, evidence).unwrap();
            assert_eq!(lesson.session().step(), question.step());
        }
    }

    #[test]
    fn work_from_before_there_were_questions_opens() {
        let old = r#"{"step":"choose_beat","beat":null,"work":[],"later":{"kept":1}}"#;
        let session: Session = serde_json::from_str(old).unwrap();
        assert_eq!(session.questions_left().count(), 13);
        let written = serde_json::to_string(&session).unwrap();
        assert!(written.contains("later") && !written.contains("questions"), "{written}");
    }
}
