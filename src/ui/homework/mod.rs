//! A student's homework on the page: the assignment that was opened, what was answered, and which of its
//! recordings lies on the desk.
//!
//! The desk is the one of the lesson. While a recording of the homework lies on it, each change of the work
//! there goes into the homework; opening anything else takes the homework's recording off the desk first.

mod keep;
mod time;

pub use keep::as_file_name;

use super::state::{App, Screen};
use beatwalk::homework::{Answered, Assignment, Help, Homework, Material};
use beatwalk::report::SavedRecording;
use leptos::prelude::*;
use std::sync::Arc;

/// What is being done at home.
#[derive(Clone, Copy)]
pub struct HomeworkState {
    /// What the teacher set.
    pub assignment: RwSignal<Option<Arc<Assignment>>>,
    /// What the student did.
    pub done: RwSignal<Homework>,
    /// The key of its recording that lies on the desk.
    pub at: RwSignal<Option<String>>,
    /// What the student is at, for the time it takes: the key of a task or of a recording.
    busy_with: StoredValue<Option<String>>,
}

/// The homework of the page.
#[derive(Clone, Copy)]
pub struct HomeworkDesk {
    app: App,
    state: HomeworkState,
}

impl std::ops::Deref for HomeworkDesk {
    type Target = HomeworkState;

    fn deref(&self) -> &HomeworkState {
        &self.state
    }
}

impl HomeworkState {
    /// Nothing set; made once, at the root.
    pub fn new() -> Self {
        Self {
            assignment: RwSignal::new(None),
            done: RwSignal::new(Homework::default()),
            at: RwSignal::new(None),
            busy_with: StoredValue::new(None),
        }
    }
}

impl App {
    /// The homework of the page.
    pub fn homework(self) -> HomeworkDesk {
        HomeworkDesk { app: self, state: self.homework_state }
    }

    /// What help may be used on the desk now: all of it, unless a homework says otherwise.
    pub fn help(self) -> Help {
        let desk = self.homework();
        let on_desk = desk.at.read().is_some();
        let set = desk.assignment.with(|set| set.as_ref().map(|set| set.help.clone()));
        set.filter(|_| on_desk).unwrap_or_default()
    }
}

impl HomeworkDesk {
    /// The homework, from the context.
    pub fn here() -> Self {
        App::here().homework()
    }

    /// Begins what a teacher set.
    pub fn begin(self, assignment: Assignment) {
        self.lay_out(assignment, None);
        self.keep_assignment();
        self.app.screen.set(Screen::Homework);
    }

    fn lay_out(self, assignment: Assignment, done: Option<Homework>) {
        if let Some(language) = assignment.language {
            self.app.speak(language);
        }
        self.put_away();
        let mut homework = done.unwrap_or_else(|| Homework::of(&assignment));
        if homework.started.is_empty() {
            homework.started = super::browser::now();
        }
        self.done.set(homework);
        self.assignment.set(Some(Arc::new(assignment)));
    }

    /// Lets the homework go, on the page and in the browser's storage.
    pub fn leave(self) {
        self.put_away();
        self.assignment.set(None);
        self.done.set(Homework::default());
        self.forget();
    }

    /// Answers a task.
    pub fn answer(self, task: &str, answer: Answered) {
        self.done.update(|done| {
            done.answers.insert(task.to_owned(), answer);
        });
    }

    /// Lays a recording of the homework on the desk, with the work that was done on it.
    pub fn work_on(self, material: &str, screen: Screen) {
        if self.at.with_untracked(|at| at.as_deref() != Some(material)) {
            let found = untrack(|| {
                let assignment = self.assignment.get()?;
                self.done.with(|done| {
                    let recording = done.recording(&assignment, material)?.clone();
                    Some((done.works.get(material).cloned().unwrap_or_default(), recording))
                })
            });
            let Some((work, recording)) = found else { return };
            self.app.set_aside();
            self.app.take_up_saved(work, recording);
            self.app.keep_recording();
            self.at.set(Some(material.to_owned()));
            self.keep_place();
        }
        self.app.screen.set(screen);
    }

    /// Takes what lies on the desk as the student's own recording for the homework.
    pub fn bring(self, material: &str) {
        let Some(raw) = self.app.raw.get_untracked() else { return };
        let mut brought = self.app.work_now();
        brought.student.clear();
        let own: SavedRecording = (*raw).clone();
        self.done.update(|done| {
            done.own.insert(material.to_owned(), own);
            done.works.insert(material.to_owned(), brought);
        });
        self.at.set(Some(material.to_owned()));
        self.keep_own();
        self.keep_place();
    }

    /// Takes the recording of the homework off the desk; the work on it stays in the homework.
    pub(super) fn put_away(self) -> bool {
        self.take_over();
        let was = self.at.with_untracked(Option::is_some);
        if was {
            self.at.set(None);
            self.keep_place();
        }
        was
    }

    /// Puts the work on the desk into the homework, when it belongs there.
    fn take_over(self) {
        let Some(material) = self.at.get_untracked() else { return };
        let work = self.app.work_now();
        let same = self
            .done
            .with_untracked(|done| done.works.get(&material).is_some_and(|it| *it == work));
        if !same {
            self.done.update(|done| {
                done.works.insert(material, work);
            });
        }
    }

    /// The recording of the homework that lies on the desk.
    pub fn on_desk(self) -> Option<Material> {
        let at = self.at.get()?;
        self.assignment.with(|set| set.as_ref()?.material(&at).cloned())
    }
}
