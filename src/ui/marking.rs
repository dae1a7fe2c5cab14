//! Moving the mark of the step that is being walked: by pointer, by sample, by beat.

use super::state::{App, Screen};
use beatwalk::lesson::{Command, Grip, Step};
use beatwalk::signal::{SampleIndex, Seconds};
use leptos::prelude::*;

impl App {
    /// A tap or a drag on the trace: chooses a beat, or moves the mark of this step.
    pub fn point_at(self, at: SampleIndex, grip: Grip) {
        match self.lesson.with_untracked(|lesson| lesson.session().step()) {
            Step::ChooseBeat => self.lesson(Command::ChooseBeat(at)),
            Step::Place(landmark) => self.lesson(Command::Place { landmark, at, grip }),
            Step::Results => self.screen.set(Screen::Results),
        }
    }

    /// Where the mark of this step stands.
    pub fn mark_now(self) -> Option<SampleIndex> {
        self.lesson.with(|lesson| {
            let session = lesson.session();
            match session.step().landmark() {
                Some(landmark) => session.marks_in_hand().at(landmark),
                None => session.beat(),
            }
        })
    }

    /// Moves the mark by samples, or the choice by beats. A mark that has no place yet starts in the
    /// middle of the view: it must not give the answer away.
    pub fn nudge(self, by: isize, held: bool) {
        let step = self.lesson.with_untracked(|lesson| lesson.session().step());
        let Some(landmark) = step.landmark() else {
            if step == Step::ChooseBeat {
                self.neighbour(by.signum());
            }
            return;
        };
        let (Some(shown), Some(view)) =
            (self.shown.get_untracked(), self.walk_view.get_untracked())
        else {
            return;
        };
        let rate = shown.recording.rate;
        let middle = Seconds::new(view.start.seconds() + view.span.seconds() / 2.0);
        let at = match untrack(|| self.mark_now()) {
            Some(at) => at.offset(by),
            None => rate.nearest(middle),
        };
        let last = SampleIndex::new(shown.recording.samples.len().saturating_sub(1));
        let grip = if held { Grip::Held } else { Grip::Fresh };
        self.lesson(Command::Place { landmark, at: at.min(last), grip });
    }

    /// Goes to another point of the final check; before the first and after the last there is none.
    pub fn check_step(self, to: impl Fn(Step) -> Option<Step>) {
        let step = self.lesson.with_untracked(|lesson| lesson.session().step());
        if let Some(step) = to(step).filter(|step| step.landmark().is_some()) {
            self.lesson(Command::GoTo(step));
        }
    }

    /// Chooses the beat before or after the chosen one.
    fn neighbour(self, by: isize) {
        let next = untrack(|| {
            self.with_evidence(|evidence| {
                let place = self
                    .lesson
                    .with(|lesson| evidence.chosen(lesson.session()).map(|(place, _)| place))?;
                evidence.reading.beats.get(place.checked_add_signed(by)?).map(|beat| beat.r)
            })
        });
        if let Some(r) = next.flatten() {
            self.lesson(Command::ChooseBeat(r));
        }
    }
}
