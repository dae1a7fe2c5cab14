//! Where everything that changes what is open gets done: opening, choosing, reading, cancelling.

use super::browser::{self, Dropped};
use super::state::{App, OpenFile, Problem, Screen, Shown, Source};
use crate::worker::{Analyst, Answer, Opened, Request, Stage};
use beatwalk::analysis::Reading;
use beatwalk::chart::Viewport;
use beatwalk::formats::Choices;
use beatwalk::lesson::{Command, Lesson, suggest_beat};
use beatwalk::report::{Orientation, SavedRecording, SavedWork, is_saved_reading};
use beatwalk::signal::{Recording, SampleSpan, Seconds};
use gloo_file::File;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

impl App {
    /// Connects the worker; called once, at the root.
    pub fn connect(self) {
        let analyst = Analyst::new(move |answer, traces| self.hear(answer, traces));
        self.analyst.set_value(Some(analyst));
    }

    /// Opens dropped or picked files. One of our own documents brings its work along.
    pub fn open_files(self, files: Dropped) {
        if !files.is_empty() {
            self.open(Source::Files(files), Choices::default());
        }
    }

    /// Opens text that was pasted, as if it were a file.
    pub fn open_pasted(self, text: &str) {
        self.open_files(vec![File::new("pasted text", text)]);
    }

    /// Opens one of the invented recordings.
    pub fn open_demo(self, key: &'static str) {
        self.open(Source::Demo(key), Choices::default());
    }

    /// Reads what is open again, with what the student corrected.
    pub fn correct(self, choices: Choices) {
        if let Some(source) = self.source.get_value() {
            self.open(source, choices);
        }
    }

    /// Gives the sampling rate that was asked for.
    pub fn answer_rate(self, rate_hz: f64) {
        if let Some(asked) = self.asked.get_value() {
            self.open(asked, Choices { rate_hz: Some(rate_hz), ..Choices::default() });
        }
    }

    fn open(self, source: Source, choices: Choices) {
        self.problem.set(None);
        self.asked.set_value(Some(source.clone()));
        let files = match source {
            Source::Files(files) => files,
            Source::Demo(key) => {
                self.begin(Stage::Opening);
                let request = Request::Demo { key: key.to_owned(), choices };
                return self.with_analyst(|analyst| analyst.open(&request, &[]));
            }
        };
        spawn_local(async move {
            match browser::read_bytes(&files).await {
                Err((what, remedy)) => self.fail(what, remedy),
                Ok(read) => match read.as_slice() {
                    [(_, bytes)] if is_saved_reading(bytes) => self.open_saved(bytes),
                    _ => self.ask_to_open(read, choices),
                },
            }
        });
    }

    /// Works on another trace of the open file. The marks placed on the one before are let go.
    pub fn choose_trace(self, trace: usize) {
        let Some(recording) =
            self.opened.with_untracked(|opened| opened.as_ref()?.recordings.get(trace).cloned())
        else {
            return;
        };
        let file = self.opened.with_untracked(|opened| {
            opened.as_ref().map(|opened| opened.file.clone()).unwrap_or_default()
        });
        self.set_aside();
        let student = self.work.with_untracked(|work| work.student.clone());
        let mut work = SavedWork::default();
        work.student = student;
        self.work.set(work);
        self.lesson.set(Lesson::default());
        self.work_on(trace, SavedRecording::new(file, (*recording).clone()));
        self.keep_recording();
    }

    /// Turns the trace over, or back: the student decides, the recording itself stays as it is.
    pub fn turn_over(self) {
        let Some(raw) = self.raw.get_untracked() else { return };
        let trace =
            self.shown.with_untracked(|shown| shown.as_ref().map_or(0, |shown| shown.trace));
        self.work.update(|work| {
            work.settings.orientation = match work.settings.orientation {
                Orientation::AsRecorded => Orientation::TurnedOver,
                Orientation::TurnedOver => Orientation::AsRecorded,
            };
        });
        self.work_on(trace, (*raw).clone());
    }

    /// Carries out what the student asks for in the guided reading.
    pub fn lesson(self, command: Command) {
        let beat_before = self.lesson.with_untracked(|lesson| lesson.session().beat());
        let outcome = untrack(|| {
            self.with_evidence(|evidence| {
                self.lesson.try_update(|lesson| lesson.apply(command, evidence))
            })
        });
        self.refusal.set(outcome.flatten().and_then(Result::err));
        if self.lesson.with_untracked(|lesson| lesson.session().beat()) != beat_before {
            self.look_at_beat();
        }
    }

    /// Brings the chosen beat into view on the walk.
    pub fn look_at_beat(self) {
        let view = untrack(|| {
            let shown = self.shown.get()?;
            self.with_evidence(|evidence| {
                let (_, beat) = self.lesson.with(|lesson| evidence.chosen(lesson.session()))?;
                Some(Viewport::around(beat, &shown.envelope, shown.recording.rate))
            })
            .flatten()
        });
        self.walk_view.set(view);
    }

    /// Gives up what the worker is doing.
    pub fn cancel(self) {
        self.with_analyst(Analyst::cancel);
        self.job.set(None);
    }

    /// Says what went wrong; what is open stays open.
    pub fn fail(self, what: String, remedy: String) {
        self.job.set(None);
        self.problem.set(Some(Problem { what, remedy }));
    }

    /// Takes up a trace: shows it and has it read.
    pub(super) fn work_on(self, trace: usize, raw: SavedRecording) {
        let orientation = self.work.with_untracked(|work| work.settings.orientation);
        let recording = Arc::new(orientation.of(&raw.recording));
        self.raw.set(Some(Arc::new(raw)));
        let shown = Shown::new(trace, recording);
        self.view.set(Some(first_view(&shown)));
        self.shown.set(Some(Arc::new(shown)));
        self.read_beats();
    }

    /// Has the beats of the trace found and measured.
    pub fn read_beats(self) {
        let Some(shown) = self.shown.get_untracked() else { return };
        self.reading.set(None);
        self.begin(Stage::Reading);
        self.with_analyst(|analyst| analyst.read(&shown.recording));
    }

    fn begin(self, stage: Stage) {
        self.problem.set(None);
        self.rate_wanted.set(None);
        self.job.set(Some((stage, 0.0)));
    }

    fn with_analyst(self, act: impl FnOnce(&Analyst)) {
        self.analyst.with_value(|analyst| {
            if let Some(analyst) = analyst {
                act(analyst);
            }
        });
    }

    fn ask_to_open(self, read: Vec<(String, Vec<u8>)>, choices: Choices) {
        self.begin(Stage::Opening);
        let (names, bytes): (Vec<String>, Vec<Vec<u8>>) = read.into_iter().unzip();
        self.with_analyst(|analyst| analyst.open(&Request::Open { names, choices }, &bytes));
    }

    fn hear(self, answer: Answer, traces: Vec<Vec<f32>>) {
        match answer {
            Answer::Ready => {}
            Answer::Progress(stage, part) => self.job.set(Some((stage, part))),
            Answer::Failed { what, remedy } => self.fail(what, remedy),
            Answer::RateWanted(wanted) => {
                self.job.set(None);
                self.screen.set(Screen::Open);
                self.rate_wanted.set(Some(wanted));
            }
            Answer::Opened(head) => self.take_up(head, traces),
            Answer::Read(reading) => self.take_reading(*reading),
        }
    }

    fn take_up(self, head: Opened, traces: Vec<Vec<f32>>) {
        let Opened { file, traces: heads, suggested, notes, layout } = head;
        let recordings: Vec<Arc<Recording>> = heads
            .into_iter()
            .zip(traces)
            .map(|(trace, samples)| Arc::new(trace.with_samples(samples)))
            .collect();
        self.source.set_value(self.asked.get_value());
        self.opened.set(Some(Arc::new(OpenFile { file, recordings, notes, layout })));
        self.choose_trace(suggested);
        self.screen.set(Screen::See);
    }

    fn take_reading(self, reading: Reading) {
        self.job.set(None);
        self.reading.set(Some(Arc::new(reading)));
        if self.lesson.with_untracked(|lesson| lesson.session().beat().is_none()) {
            let suggested = untrack(|| {
                self.with_evidence(|evidence| {
                    let place = suggest_beat(evidence.recording, evidence.reading)?;
                    evidence.reading.beats.get(place).map(|beat| beat.r)
                })
            });
            if let Some(r) = suggested.flatten() {
                self.lesson(Command::ChooseBeat(r));
            }
        }
        self.look_at_beat();
    }
}

/// How much of a long recording is shown at first: enough beats to see the rhythm, few enough to see
/// each. The strip below the trace shows the whole.
const FIRST_LOOK: Seconds = Seconds::new(10.0);

fn first_view(shown: &Shown) -> Viewport {
    let (rate, samples) = (shown.recording.rate, shown.recording.samples.len());
    let span = SampleSpan::new(0, samples.min(rate.count(FIRST_LOOK)));
    Viewport::stretch(&shown.envelope, rate, span)
}
