//! Opening: from files, text or an invented recording to a trace on the screen, and reading it anew
//! when the student corrects how.

use super::browser::{self, Drawer, Dropped};
use super::state::{App, Asked, Memory, OpenFile, Screen, Source};
use crate::ui::reactive::soon;
use crate::worker::{Opened, RateWanted, Request, Stage, recordings};
use beatwalk::formats::{
    Choices, How, KnownShapes, SourceFile, TextShape, is_packed, is_saved_work, only_member,
};
use beatwalk::words::say;
use gloo_file::File;
use js_sys::{ArrayBuffer, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

impl App {
    /// Opens dropped or picked files. One of our own documents brings its work along.
    pub fn open_files(self, files: Dropped) {
        if !files.is_empty() {
            self.open(Asked { source: Source::Files(files), choices: None, found: None });
        }
    }

    /// Opens text that was pasted, as if it were a file.
    pub fn open_pasted(self, text: &str) {
        let name = say(self.language.get_untracked(), "page.open.pasted");
        self.open_files(vec![File::new(&name, text)]);
    }

    /// Opens one of the invented recordings.
    pub fn open_demo(self, key: &'static str) {
        self.open(Asked { source: Source::Demo(key), choices: None, found: None });
    }

    /// Reads the open file again, with what the student corrected.
    pub fn correct(self, choices: Choices) {
        let found = self.opened.with_untracked(|opened| opened.as_ref()?.found.clone());
        if let Some(source) = self.source.get_value() {
            self.open(Asked { source, choices: Some(choices), found });
        }
    }

    /// Reads the file again that waits for its rate, with what the student corrected.
    pub fn correct_waiting(self, choices: Choices) {
        if let Some(asked) = self.asked.get_value() {
            self.open(Asked { choices: Some(choices), ..asked });
        }
    }

    /// Gives the sampling rate that was asked for.
    pub fn answer_rate(self, rate_hz: f64) {
        let before = self.rate_wanted.with_untracked(|wanted| {
            wanted.as_ref().map(|wanted| wanted.choices.clone()).unwrap_or_default()
        });
        if let Some(asked) = self.asked.get_value() {
            let choices = Some(Choices { rate_hz: Some(rate_hz), ..before });
            self.open(Asked { choices, ..asked });
        }
    }

    /// Forgets how files like the open one were corrected, and reads it as found.
    pub fn forget_shape(self) {
        let found = self.opened.with_untracked(|opened| opened.as_ref()?.found.clone());
        if let (Some(found), Some(source)) = (found, self.source.get_value()) {
            self.shapes.update(|shapes| shapes.forget(&found));
            self.keep_shapes();
            self.open(Asked { source, choices: None, found: None });
        }
    }

    fn open(self, asked: Asked) {
        self.problem.set(None);
        let known = match asked.source {
            Source::Files(_) => self.shapes.get_untracked(),
            Source::Demo(_) => KnownShapes::default(),
        };
        let how = asked.choices.clone().map_or(How::AsBefore(known), How::AsChosen);
        self.asked.set_value(Some(asked.clone()));
        let files = match asked.source {
            Source::Files(files) => files,
            Source::Demo(key) => {
                self.begin(Stage::Opening);
                let request = Request::Demo { key: key.to_owned(), how };
                return self.with_analyst(|analyst| analyst.open(&request, &[]));
            }
        };
        spawn_local(async move {
            match browser::read_buffers(&files).await {
                Err((what, remedy)) => self.fail(what, remedy),
                Ok(read) => match saved_in(&read) {
                    Some(saved) => self.open_saved(&saved),
                    None => self.ask_to_open(read, how),
                },
            }
        });
    }

    fn ask_to_open(self, read: Vec<(String, ArrayBuffer)>, how: How) {
        self.begin(Stage::Opening);
        let (names, bytes): (Vec<String>, Vec<ArrayBuffer>) = read.into_iter().unzip();
        self.with_analyst(|analyst| analyst.hand_over(&Request::Open { names, how }, bytes));
    }

    /// Asks for the rate, on the first screen.
    pub(super) fn take_rate_wanted(self, wanted: RateWanted) {
        self.job.set(None);
        self.asked.update_value(|asked| {
            if let Some(asked) = asked {
                asked.found = wanted.found.clone().or(asked.found.take());
            }
        });
        self.screen.set(Screen::Open);
        self.rate_wanted.set(Some(wanted));
    }

    /// Takes up what the worker has opened.
    pub(super) fn take_up(self, head: Opened, traces: Vec<Vec<f32>>) {
        let Opened { file, traces: heads, suggested, notes, layout, found, choices } = head;
        let recordings = recordings(heads, traces);
        let Some(asked) = self.asked.get_value() else { return };
        let found = found.or_else(|| asked.found.clone());
        let memory = self.remember(&asked, found.as_ref(), &choices);
        self.source.set_value(Some(asked.source));
        let opened =
            OpenFile { file, recordings, suggested, notes, layout, found, choices, memory };
        self.opened.set(Some(Arc::new(opened)));
        // Each takes its time with a long recording, and together they would be felt.
        soon(move || {
            self.choose_trace(suggested);
            soon(move || self.screen.set(Screen::See));
        });
    }

    /// Keeps what the student chose for files of this shape; an invented recording teaches nothing.
    fn remember(self, asked: &Asked, found: Option<&TextShape>, used: &Choices) -> Memory {
        let (Source::Files(_), Some(shape)) = (&asked.source, found) else { return Memory::None };
        match &asked.choices {
            None if *used == Choices::default() => Memory::None,
            None => Memory::Used,
            Some(chosen) => {
                self.shapes.update(|shapes| shapes.remember(shape, chosen));
                self.keep_shapes();
                let kept = self.shapes.with_untracked(|shapes| shapes.choices(shape).is_some());
                if kept { Memory::Kept } else { Memory::None }
            }
        }
    }

    fn keep_shapes(self) {
        self.shapes.with_untracked(|shapes| self.write_data(Drawer::Shapes, shapes));
    }
}

/// Packed files up to this many bytes are looked into on the page itself: saved work is opened there.
const LOOKED_INTO: u32 = 20 << 20;
/// What a file is shows within so many bytes.
const BEGINNING: u32 = 1024;

/// The bytes of saved work, when that is all there is, packed or not. Of other files only the beginning is copied.
fn saved_in(read: &[(String, ArrayBuffer)]) -> Option<Vec<u8>> {
    let [(name, buffer)] = read else { return None };
    let bytes = Uint8Array::new(buffer);
    let beginning = bytes.subarray(0, BEGINNING.min(bytes.length())).to_vec();
    if is_saved_work(&beginning) {
        return Some(bytes.to_vec());
    }
    let file = SourceFile { name: name.clone(), bytes: beginning };
    if !is_packed(std::slice::from_ref(&file)) || bytes.length() > LOOKED_INTO {
        return None;
    }
    only_member(&SourceFile { bytes: bytes.to_vec(), ..file })
        .map(|only| only.bytes)
        .filter(|bytes| is_saved_work(bytes))
}
