//! Keeping the work: in this browser at each change, in a file when the student asks.

use super::browser::{Drawer, Kept, Shelf, Store, fetch_messages, use_newer_page};
use super::state::{App, Keeping, Memory, OpenFile, Screen};
use crate::ui::reactive::{GATHER, GATHERED, follow_gathered, soon};
use beatwalk::formats::{Choices, KnownShapes};
use beatwalk::lesson::{Lesson, Step};
use beatwalk::report::{SavedError, SavedReading, SavedRecording, SavedWork};
use beatwalk::words::{Language, Phrase};
use js_sys::Float32Array;
use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::sync::Arc;

impl App {
    /// Takes up the work that this browser kept.
    pub fn resume(self) {
        spawn_local(async move {
            let Ok(store) = Store::open().await else {
                self.keeping.set(Keeping::Refused);
                return;
            };
            self.store.set_value(Some(store.clone()));
            if let Some(language) = read(&store, Drawer::Language).await
                && fetch_messages(language).await.is_ok()
            {
                self.language.set(language);
            }
            if let Some(shapes) = read(&store, Drawer::Shapes).await {
                self.shapes.set(shapes);
            }
            if let Some(scale) = read(&store, Drawer::Scale).await {
                self.scale_before.set(Some(scale));
            }
            if let Ok(Some(bench)) = store.take(Drawer::Bench).await {
                self.bench().resume(&bench, read(&store, Drawer::Sheet).await);
            }
            self.homework().resume(&store).await;
            self.setting().resume(&store).await;
            self.hand_ins().resume(&store).await;
            self.left_behind.set(store.left_behind().await);
            self.replaced.set(store.take(Drawer::Replaced).await.is_ok_and(|held| held.is_some()));
            let recording = store.take_apart(Drawer::Recording).await.ok().flatten();
            let work = store.text(Drawer::Work).await;
            let Some(recording) = recording else { return };
            // Something may have been opened while the storage was being read: that is newer.
            if self.raw.with_untracked(Option::is_some) {
                return;
            }
            let both = recording_of(recording).and_then(|recording| {
                let work =
                    work.map_or(Ok(SavedWork::default()), |work| SavedWork::from_json(&work))?;
                work.fits(&recording)?;
                Ok((work, recording))
            });
            match both {
                Ok((work, recording)) => {
                    self.take_up_saved(work, recording);
                    self.homework().come_back();
                }
                Err(error) => self.fail_saved(&error),
            }
        });
    }

    /// Writes each change of the work into the browser's storage.
    pub fn keep_up(self) {
        let changed = move || {
            self.lesson.track();
            self.work.track();
            self.raw.read().is_some()
        };
        follow_gathered(changed, move || {
            // There may be room again by now.
            if self.unkept.with_value(|unkept| unkept.contains(&Drawer::Recording)) {
                self.keep_recording_now();
            }
            self.write_down(Drawer::Work, self.work_now().to_json());
        });
    }

    /// Changes to the version of the page that waits, once what is being gathered is written; says so when
    /// something would be lost by it.
    pub fn use_newer(self) {
        let change = async move {
            if let Some(store) = self.store.get_value() {
                // A read comes after the writes that were asked for before it.
                let _ = store.take(Drawer::Work).await;
            }
            let kept = !matches!(self.keeping.get_untracked(), Keeping::Refused | Keeping::Full);
            // The class desk holds the work of others and is never kept.
            let desk = self.class_desk().entries.with_untracked(Vec::is_empty);
            if !kept || !desk || use_newer_page().await.is_err() {
                self.fail(
                    Phrase::message("page.offline.not_kept"),
                    Phrase::message("page.offline.save_first"),
                );
            }
        };
        set_timeout(move || spawn_local(change), GATHERED);
    }

    /// Writes the recording into the browser's storage, once the trace is on the screen; the work on it follows by
    /// itself.
    pub(super) fn keep_recording(self) {
        set_timeout(move || self.keep_recording_now(), GATHER);
    }

    fn keep_recording_now(self) {
        if let Some(raw) = self.raw.get_untracked()
            && let Ok(text) = raw.to_json_without_samples()
        {
            let samples = Some(Float32Array::from(&*raw.recording.samples));
            soon(move || self.write(Drawer::Recording, Kept { text, samples }));
        }
    }

    /// Speaks another language, now and after a reload.
    pub fn speak(self, language: Language) {
        spawn_local(async move {
            if fetch_messages(language).await.is_ok() {
                self.language.set(language);
            }
        });
        self.write_data(Drawer::Language, &language);
    }

    /// Puts the open reading away before another recording takes its place, when there is work in it.
    pub(super) fn set_aside(self) {
        // What belongs to a homework is kept there.
        if self.homework().put_away() {
            return;
        }
        let work = self.work_now();
        if let (true, Some(raw)) = (work.is_worth_keeping(), self.raw.get_untracked()) {
            self.write_down(Drawer::Replaced, SavedReading::new(work, (*raw).clone()).to_json());
            self.replaced.set(true);
        }
    }

    /// Opens the reading that was put away; the one open now is put away in its place.
    pub fn bring_back(self) {
        let Some(store) = self.store.get_value() else { return };
        spawn_local(async move {
            if let Ok(Some(document)) = store.take(Drawer::Replaced).await {
                self.replaced.set(false);
                self.open_saved(document.as_bytes());
            }
        });
    }

    /// Forgets everything: in this browser and on the screen.
    pub fn clear(self) {
        self.cancel();
        self.raw.set(None);
        self.replaced.set(false);
        self.opened.set(None);
        self.shown.set(None);
        self.reading.set(None);
        self.lesson.set(Lesson::default());
        self.correct_anew();
        self.work.set(SavedWork::default());
        self.shapes.set(KnownShapes::default());
        self.scale_before.set(None);
        self.problem.set(None);
        self.rate_wanted.set(None);
        self.bench().leave();
        self.class_desk().clear();
        self.homework().leave();
        self.setting().leave();
        self.hand_ins().leave();
        self.screen.set(Screen::Open);
        if let Some(store) = self.store.get_value() {
            spawn_local(async move {
                if store.clear().await.is_err() {
                    self.keeping.set(Keeping::Refused);
                }
            });
        }
    }

    /// Opens a document of ours.
    pub(super) fn open_saved(self, bytes: &[u8]) {
        let text = String::from_utf8_lossy(bytes);
        match SavedReading::from_json(&text) {
            Ok(SavedReading { work, recording, .. }) => {
                self.set_aside();
                self.take_up_saved(work, recording);
                self.keep_recording();
            }
            // It may be an investigation instead, or homework.
            Err(SavedError::SomethingElse { .. }) => {
                let opened = match self.bench().open_saved(&text) {
                    Err(SavedError::SomethingElse { .. }) => self.homework().open_saved(&text),
                    other => other,
                };
                if let Err(error) = opened {
                    self.fail_saved(&error);
                }
            }
            Err(error) => self.fail_saved(&error),
        }
    }

    /// The work as it stands, with the answers in it.
    pub fn work_now(self) -> SavedWork {
        let mut work = self.work.get_untracked();
        work.session = self.lesson.with_untracked(|lesson| lesson.session().clone());
        work
    }

    pub(super) fn take_up_saved(self, work: SavedWork, recording: SavedRecording) {
        let step = work.session.step();
        self.lesson.set(Lesson::resume(work.session.clone()));
        self.correct_anew();
        self.work.set(work);
        self.source.set_value(None);
        let recordings = vec![Arc::new(recording.recording.clone())];
        let opened = OpenFile {
            file: recording.file.clone(),
            recordings,
            suggested: 0,
            notes: recording.notes.clone(),
            layout: None,
            found: None,
            choices: Choices::default(),
            memory: Memory::None,
        };
        self.opened.set(Some(Arc::new(opened)));
        self.work_on(0, recording);
        self.screen.set(match step {
            Step::ChooseBeat => Screen::See,
            Step::Place(_) => Screen::Walk,
            Step::Results => Screen::Results,
        });
    }

    fn fail_saved(self, error: &SavedError) {
        self.fail(error.said(), error.remedy());
    }

    fn write_down(self, drawer: Drawer, text: Result<String, SavedError>) {
        if let Ok(text) = text {
            self.write(drawer, text);
        }
    }

    /// Writes plain data into a drawer of the browser's storage.
    pub(super) fn write_data(self, drawer: Drawer, data: &impl Serialize) {
        if let Ok(text) = serde_json::to_string(data) {
            self.write(drawer, text);
        }
    }

    /// Writes something into a drawer of the browser's storage.
    pub(super) fn write(self, drawer: Drawer, kept: impl Into<Kept>) {
        let Some(store) = self.store.get_value() else { return };
        let kept = kept.into();
        spawn_local(async move {
            let kept = store.put(drawer, &kept).await.is_ok();
            let all = self.unkept.try_update_value(|unkept| {
                if kept {
                    unkept.remove(&drawer)
                } else {
                    unkept.insert(drawer)
                };
                unkept.is_empty()
            });
            self.keeping.set(if all == Some(true) { Keeping::Kept } else { Keeping::Full });
        });
    }

    /// Goes on with what a closed tab left behind; what is open here stays kept and can be found again likewise.
    pub fn go_on_with(self, shelf: Shelf) {
        shelf.remember();
        if let Some(window) = web_sys::window() {
            let _ = window.location().reload();
        }
    }
}

/// The recording that was kept, by this version of the page or by one that kept it as one text.
fn recording_of(kept: Kept) -> Result<SavedRecording, SavedError> {
    match kept.samples {
        Some(samples) => SavedRecording::from_json_and_samples(&kept.text, samples.to_vec()),
        None => SavedRecording::from_json(&kept.text),
    }
}

/// Plain data from a drawer; what another version wrote and this one can't read is not missed.
async fn read<T: DeserializeOwned>(store: &Store, drawer: Drawer) -> Option<T> {
    let text = store.text(drawer).await?;
    serde_json::from_str(&text).ok()
}
