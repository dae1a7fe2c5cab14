//! Bringing recordings to the bench: opened and read by a worker of the bench's own, one after another.

use super::{Bench, Seat};
use crate::ui::browser::{Dropped, read_bytes};
use crate::worker::{Answer, Opened, Request, Stage, recordings};
use beatwalk::analysis::Reading;
use beatwalk::formats::{How, KnownShapes, is_saved_work};
use beatwalk::inquiry::Role;
use beatwalk::report::{SavedReading, SavedRecording, SavedWork};
use beatwalk::signal::Recording;
use beatwalk::synth::Demo;
use beatwalk::words::Phrase;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A recording that is wanted in some place.
#[derive(Clone, Debug)]
pub(super) struct Errand {
    role: Role,
    from: From,
}

/// Where a recording comes from.
#[derive(Clone, Debug)]
enum From {
    Files(Dropped),
    Demo(Demo),
    Saved(Box<SavedReading>),
    Trace(Box<SavedReading>, Vec<Arc<Recording>>, usize),
}

impl Bench {
    /// Connects the worker; called once, at the root.
    pub fn connect(self) {
        self.queue.connect(move |answer, traces| self.hear(answer, traces));
    }

    /// Opens files for a place.
    pub fn open_files(self, role: Role, files: Dropped) {
        if !files.is_empty() {
            self.enqueue(role, From::Files(files));
        }
    }

    /// Takes an invented recording.
    pub fn open_demo(self, role: Role, demo: Demo) {
        self.enqueue(role, From::Demo(demo));
    }

    /// Takes the recording that is open in the guided reading, with all that was set and corrected there.
    pub fn take_open(self, role: Role) {
        if let Some(raw) = self.app.raw.get_untracked() {
            let saved = SavedReading::new(self.app.work_now(), (*raw).clone());
            self.put(role, saved);
        }
    }

    /// Takes a recording with the work on it.
    pub(super) fn put(self, role: Role, saved: SavedReading) {
        self.enqueue(role, From::Saved(Box::new(saved)));
    }

    /// Takes a recording away again.
    pub fn remove(self, role: Role) {
        self.seats.update(|seats| {
            seats.remove(&role);
        });
    }

    /// Gives up what the worker is doing and what was to follow.
    pub fn stop(self) {
        self.queue.stop();
        let given_up = self.job.get_untracked().map(|(role, ..)| role);
        self.job.set(None);
        given_up.into_iter().for_each(|role| self.remove_unread(role));
    }

    /// A recording that will not be read any more has no place.
    fn remove_unread(self, role: Role) {
        let unread = |seats: &BTreeMap<Role, Arc<Seat>>| {
            seats.get(&role).is_some_and(|seat| seat.reading.is_none())
        };
        if !role.is_muscle() && self.seats.with_untracked(unread) {
            self.remove(role);
        }
    }

    fn enqueue(self, role: Role, from: From) {
        if self.queue.add(vec![Errand { role, from }]) {
            self.next();
        }
    }

    fn go_on(self) {
        self.queue.one_done();
        self.next();
    }

    fn next(self) {
        let Some(Errand { role, from }) = self.queue.next() else {
            self.job.set(None);
            return;
        };
        self.app.problem.set(None);
        self.job.set(Some((role, Stage::Opening, 0.0)));
        match from {
            From::Saved(saved) => self.read(role, *saved),
            From::Trace(saved, traces, trace) => {
                self.seat_and_read(role, Seat { traces, trace, ..Seat::unread(*saved) });
            }
            From::Demo(demo) => {
                let how = How::AsBefore(KnownShapes::default());
                self.queue.open(&Request::Demo { key: demo.key().to_owned(), how }, &[]);
            }
            From::Files(files) => spawn_local(async move {
                match read_bytes(&files).await {
                    Err((what, remedy)) => self.fail(what, remedy),
                    Ok(read) => self.open(role, read),
                }
            }),
        }
    }

    fn open(self, role: Role, read: Vec<(String, Vec<u8>)>) {
        if let [(_, bytes)] = read.as_slice()
            && is_saved_work(bytes)
        {
            return match SavedReading::from_json(&String::from_utf8_lossy(bytes)) {
                Ok(saved) => self.read(role, saved),
                Err(error) => self.fail(error.said(), error.remedy()),
            };
        }
        let how = How::AsBefore(self.app.shapes.get_untracked());
        let (names, bytes): (Vec<String>, Vec<Vec<u8>>) = read.into_iter().unzip();
        self.queue.open(&Request::Open { names, how }, &bytes);
    }

    /// Puts a recording in its place and has its beats found.
    fn read(self, role: Role, saved: SavedReading) {
        self.seat_and_read(role, Seat::unread(saved));
    }

    fn seat_and_read(self, role: Role, seat: Seat) {
        let seat = Arc::new(seat);
        self.seats.update(|seats| {
            seats.insert(role, seat.clone());
        });
        if role.is_muscle() {
            return self.go_on();
        }
        self.job.set(Some((role, Stage::Reading, 0.0)));
        let edits = seat.saved.work.settings.beats_on(&seat.saved.recording.recording);
        self.queue.with_worker(|worker| worker.read(&seat.recording, edits.clone()));
    }

    fn hear(self, answer: Answer, traces: Vec<Vec<f32>>) {
        let Some((role, ..)) = self.job.get_untracked() else { return };
        match answer {
            Answer::Ready | Answer::Pooled(_) | Answer::Marked(_) | Answer::Made(_) => {}
            Answer::Progress(stage, part) => self.job.set(Some((role, stage, part))),
            Answer::Failed { what, remedy } => self.fail(what, remedy),
            Answer::RateWanted(wanted) => self.fail(
                Phrase::message("bench.rate_wanted").with("file", &wanted.file),
                Phrase::message("bench.rate_remedy"),
            ),
            Answer::Opened(head) => self.take_up(role, head, traces),
            Answer::Read(reading) => self.take_reading(role, *reading),
        }
    }

    /// Takes the trace of a file that most looks like the wanted one.
    fn take_up(self, role: Role, head: Opened, traces: Vec<Vec<f32>>) {
        let Opened { file, traces: heads, suggested, notes, .. } = head;
        let traces = recordings(heads, traces);
        if let Some(trace) = traces.get(suggested) {
            let recording = SavedRecording::new(file, (**trace).clone()).with_notes(notes);
            let seat = Seat::unread(SavedReading::new(SavedWork::default(), recording));
            self.seat_and_read(role, Seat { traces, trace: suggested, ..seat });
        }
    }

    /// Takes another trace of the file that is there.
    pub fn choose_trace(self, role: Role, place: usize) {
        let Some(seat) = self.seats.with_untracked(|seats| seats.get(&role).cloned()) else {
            return;
        };
        if let Some(trace) = seat.traces.get(place) {
            let before = &seat.saved.recording;
            let recording = SavedRecording::new(before.file.clone(), (**trace).clone())
                .with_notes(before.notes.clone());
            let saved = SavedReading::new(SavedWork::default(), recording);
            self.enqueue(role, From::Trace(Box::new(saved), seat.traces.clone(), place));
        }
    }

    fn take_reading(self, role: Role, reading: Reading) {
        let reading = Some(Arc::new(reading));
        self.seats.update(|seats| {
            if let Some(seat) = seats.get_mut(&role) {
                *seat = Arc::new(Seat { reading, ..(**seat).clone() });
            }
        });
        self.go_on();
    }

    /// Says what went wrong; the recordings that are there stay, and the next is taken up.
    fn fail(self, what: Phrase, remedy: Phrase) {
        let at = self.job.get_untracked().map(|(role, ..)| role);
        self.go_on();
        at.into_iter().for_each(|role| self.remove_unread(role));
        self.app.fail(what, remedy);
    }
}
