//! Keeping homework: in this browser at each change, in a file to hand in when the student is done.

use super::HomeworkDesk;
use crate::ui::browser::{Drawer, Store, now};
use crate::ui::reactive::follow_gathered;
use crate::ui::state::Screen;
use beatwalk::homework::{Assignment, HandIn, Homework};
use beatwalk::report::{EXTENSION, SavedError, SavedRecording};
use beatwalk::signal::map_of;
use beatwalk::words::Phrase;
use leptos::prelude::*;
use std::collections::BTreeMap;

impl HomeworkDesk {
    /// Writes each change into the browser's storage, and takes over what is done on the desk.
    pub fn keep_up(self) {
        let app = self.app;
        let changed = move || {
            // What else is done on the desk is none of the homework's.
            if self.at.read().is_some() {
                app.lesson.track();
                app.work.track();
            }
            self.done.track();
            self.assignment.read().is_some()
        };
        follow_gathered(changed, move || {
            self.take_over();
            self.keep_done();
        });
    }

    fn keep_done(self) {
        if let Ok(text) = self.done.with_untracked(Homework::to_json) {
            self.app.write(Drawer::Homework, text);
        }
    }

    pub(super) fn keep_assignment(self) {
        let text = self.assignment.with_untracked(|set| set.as_ref().map(|set| set.to_json()));
        if let Some(Ok(text)) = text {
            self.app.write(Drawer::Assignment, text);
        }
        self.keep_own();
        self.keep_done();
    }

    /// The student's own recordings are large, and written only when one is brought.
    pub(super) fn keep_own(self) {
        let own = self.done.with_untracked(|done| {
            let written =
                |(key, own): (&String, &SavedRecording)| Some((key.clone(), own.to_json().ok()?));
            map_of(done.own.iter().filter_map(written))
        });
        self.app.write_data(Drawer::Brought, &own);
    }

    pub(super) fn keep_place(self) {
        self.at.with_untracked(|at| self.app.write_data(Drawer::HomeworkAt, at));
    }

    pub(super) fn forget(self) {
        for drawer in [Drawer::Assignment, Drawer::Homework, Drawer::Brought, Drawer::HomeworkAt] {
            self.app.write(drawer, String::new());
        }
    }

    /// Takes up the homework that this browser kept; what can't be read any more is not missed.
    pub(in crate::ui) async fn resume(self, store: &Store) {
        let Some(set) = store.text(Drawer::Assignment).await else { return };
        let Ok(assignment) = Assignment::from_json(&set) else { return };
        let done = store.text(Drawer::Homework).await.and_then(|it| Homework::from_json(&it).ok());
        let own = store.text(Drawer::Brought).await.unwrap_or_default();
        let at = store.text(Drawer::HomeworkAt).await.unwrap_or_default();
        let own: BTreeMap<String, String> = serde_json::from_str(&own).unwrap_or_default();
        let own = own
            .into_iter()
            .filter_map(|(key, it)| Some((key, SavedRecording::from_json(&it).ok()?)));
        let done = done.map(|mut done| {
            done.own = map_of(own);
            done
        });
        let fitting = done.filter(|done| done.fits(&assignment).is_ok());
        // Something may have been begun while the storage was being read: that is newer.
        if self.assignment.with_untracked(Option::is_some) {
            return;
        }
        self.lay_out(assignment, fitting);
        self.at.set(serde_json::from_str(&at).ok().flatten());
        self.app.screen.set(Screen::Homework);
    }

    /// Shows the tasks, when what lies on the desk belongs to them: a student goes on from there.
    pub(in crate::ui) fn come_back(self) {
        if self.at.with_untracked(Option::is_some) {
            self.app.screen.set(Screen::Homework);
        }
    }

    /// The homework as one file, named after the assignment and the student's code.
    pub fn hand_in(self) -> Option<(String, String)> {
        self.take_over();
        let language = self.app.language.get_untracked();
        self.done.update(|done| done.language = Some(language));
        let document = self.done.with_untracked(|done| done.hand_in(now())).ok()?;
        let (title, student) =
            self.done.with_untracked(|done| (done.title.clone(), done.student.clone()));
        let name = [as_file_name(&title), as_file_name(&student)];
        let name: Vec<String> = name.into_iter().filter(|part| !part.is_empty()).collect();
        Some((format!("{}{EXTENSION}", name.join("-")), document))
    }

    /// Opens an assignment or, when its assignment is open, a homework that was handed in, to go on with it.
    ///
    /// # Errors
    /// [`SavedError`] when it is neither, newer or damaged.
    pub fn open_saved(self, text: &str) -> Result<(), SavedError> {
        match Assignment::from_json(text) {
            Ok(assignment) if assignment.is_teachers_copy() => {
                self.app.setting().open(assignment);
                self.app.screen.set(Screen::Set);
            }
            Ok(assignment) => self.begin(assignment),
            Err(SavedError::SomethingElse { .. }) => {
                let HandIn { homework, .. } = HandIn::from_json(text)?;
                self.go_on_with(homework)?;
            }
            Err(error) => return Err(error),
        }
        Ok(())
    }

    fn go_on_with(self, homework: Homework) -> Result<(), SavedError> {
        let set = self.assignment.get_untracked();
        let set = set.filter(|set| set.fingerprint() == homework.fingerprint);
        let Some(set) = set else {
            let title = homework.title;
            self.app.fail(
                Phrase::message("tasks.other_assignment").with("title", &*title),
                Phrase::message("tasks.open_assignment_first"),
            );
            return Ok(());
        };
        homework.fits(&set)?;
        self.lay_out((*set).clone(), Some(homework));
        self.keep_assignment();
        self.app.screen.set(Screen::Homework);
        Ok(())
    }
}

/// A text as a part of a file's name: letters, digits and hyphens, not too long.
pub fn as_file_name(text: &str) -> String {
    let kept = text.chars().map(|sign| if sign.is_alphanumeric() { sign } else { '-' });
    let kept: String = kept.take(60).collect();
    kept.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-").to_lowercase()
}
