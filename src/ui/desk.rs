//! The desk: what the worker says is taken up here; choosing a trace, reading it, cancelling.

use super::state::{App, Problem, Shown};
use crate::ui::reactive::soon;
use crate::worker::{Analyst, Answer, Stage};
use beatwalk::analysis::Reading;
use beatwalk::chart::Viewport;
use beatwalk::lesson::{Command, Lesson, Session, Step, suggest_beat};
use beatwalk::report::{SavedRecording, SavedWork};
use beatwalk::signal::{SampleIndex, SampleSpan, Seconds};
use beatwalk::words::Phrase;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen::JsValue;

impl App {
    /// Connects the worker; called once, at the root.
    pub fn connect(self) {
        let analyst = Analyst::new(move |answer, traces| self.hear(answer, traces));
        self.analyst.set_value(Some(analyst));
    }

    /// Works on another trace of the open file. The marks placed on the one before are let go.
    pub fn choose_trace(self, trace: usize) {
        let Some(opened) = self.opened.get_untracked() else { return };
        let Some(recording) = opened.recordings.get(trace) else { return };
        let raw = SavedRecording::new(opened.file.clone(), (**recording).clone())
            .with_notes(opened.notes.clone());
        self.set_aside();
        let student = self.work.with_untracked(|work| work.student.clone());
        let mut work = SavedWork::default();
        work.student = student;
        self.work.set(work);
        self.lesson.set(Lesson::default());
        self.correct_anew();
        self.work_on(trace, raw);
        self.keep_recording();
    }

    /// Carries out what the student asks for in the guided reading.
    pub fn lesson(self, command: Command) {
        let looked_at = || self.lesson.with_untracked(|lesson| wanted_view(lesson.session()));
        let before = looked_at();
        let outcome = untrack(|| {
            self.with_evidence(|evidence| {
                self.lesson.try_update(|lesson| lesson.apply(command, evidence))
            })
        });
        self.refusal.set(outcome.flatten().and_then(Result::err));
        if looked_at() != before {
            self.look_at_beat();
        }
    }

    /// Brings the chosen beat into view on the walk: with its neighbours while it is being chosen.
    pub fn look_at_beat(self) {
        let view = untrack(|| {
            let shown = self.shown.get()?;
            self.with_evidence(|evidence| {
                let session = self.lesson.read();
                let (_, beat) = evidence.in_hand(session.session())?;
                let (envelope, rate) = (&shown.envelope, shown.recording.rate);
                Some(match wanted_view(session.session()) {
                    (_, true) => {
                        let reach = rate.count(NEIGHBOURS);
                        let start = beat.r.get().saturating_sub(reach);
                        Viewport::stretch(envelope, rate, SampleSpan::new(start, start + 2 * reach))
                    }
                    _ => Viewport::around(beat, envelope, rate),
                })
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
    pub fn fail(self, what: Phrase, remedy: Phrase) {
        self.job.set(None);
        self.problem.set(Some(Problem { what, remedy }));
    }

    /// Says so when a file could not be saved, or there was nothing to make it from.
    pub fn check_saved(self, saved: Option<Result<(), JsValue>>) {
        if !matches!(saved, Some(Ok(()))) {
            self.fail(
                Phrase::message("page.results.save_failed"),
                Phrase::message("page.results.save_again"),
            );
        }
    }

    /// Takes up a trace: shows it and has it read.
    pub(super) fn work_on(self, trace: usize, raw: SavedRecording) {
        let settings = self.work.with_untracked(|work| work.settings.clone());
        let uncleaned = Arc::new(settings.uncleaned(&raw.recording));
        self.raw.set(Some(Arc::new(raw)));
        let shown = if settings.cleaning.is_none() {
            Shown::new(trace, uncleaned)
        } else {
            let copy = Arc::new(settings.cleaning.apply(&uncleaned));
            Shown::new(trace, copy).with_uncleaned(uncleaned)
        };
        self.view.set(Some(first_view(&shown)));
        self.shown.set(Some(Arc::new(shown)));
        self.read_beats();
    }

    /// Has the beats of the trace found and measured.
    pub fn read_beats(self) {
        let Some(shown) = self.shown.get_untracked() else { return };
        self.reading.set(None);
        self.begin(Stage::Reading);
        self.ask_to_read(&shown);
    }

    /// Hands the trace to the worker. What it was at is given up.
    pub(super) fn ask_to_read(self, shown: &Shown) {
        if let Some(waiting) = self.measuring.try_update_value(Option::take).flatten() {
            waiting.clear();
        }
        let edits = self.raw.with_untracked(|raw| {
            let raw = &raw.as_ref()?.recording;
            Some(self.work.with_untracked(|work| work.settings.beats_on(raw)))
        });
        self.with_analyst(|analyst| analyst.read(&shown.recording, edits.unwrap_or_default()));
    }

    pub(super) fn begin(self, stage: Stage) {
        self.problem.set(None);
        self.rate_wanted.set(None);
        self.job.set(Some((stage, 0.0)));
    }

    pub(super) fn with_analyst(self, act: impl FnOnce(&Analyst)) {
        self.analyst.with_value(|analyst| {
            if let Some(analyst) = analyst {
                act(analyst);
            }
        });
    }

    fn hear(self, answer: Answer, traces: Vec<Vec<f32>>) {
        match answer {
            // The class desk, the hand-ins and the final check have workers of their own.
            Answer::Ready | Answer::Pooled(_) | Answer::Marked(_) | Answer::Made(_) => {}
            Answer::Progress(stage, part) => self.job.set(Some((stage, part))),
            Answer::Failed { what, remedy } => {
                // What is known of the beats may be older than they are.
                if matches!(self.job.get_untracked(), Some((Stage::Reading, _))) {
                    self.reading.set(None);
                }
                self.fail(what, remedy);
            }
            Answer::RateWanted(wanted) => self.take_rate_wanted(wanted),
            Answer::Opened(head) => self.take_up(head, traces),
            Answer::Read(reading) => self.take_reading(*reading),
        }
    }

    fn take_reading(self, reading: Reading) {
        self.job.set(None);
        self.reading.set(Some(Arc::new(reading)));
        soon(move || {
            self.suggest();
            self.look_at_beat();
        });
    }

    /// Chooses a good beat to read, unless one is chosen.
    fn suggest(self) {
        if self.lesson.with_untracked(|lesson| lesson.session().beat().is_none()) {
            let suggested = untrack(|| {
                self.with_evidence(|evidence| {
                    let place = suggest_beat(evidence.recording, evidence.reading)?;
                    evidence.reading.beats.get(place).map(|beat| beat.r)
                })
            });
            if let Some(r) = suggested.flatten() {
                self.lesson(Command::ChooseBeat(r));
                // The student has not done anything yet that could be taken back.
                self.lesson.update(|lesson| *lesson = Lesson::resume(lesson.session().clone()));
            }
        }
    }
}

/// How far to each side one sees while a beat is being chosen: two or three beats at rest.
const NEIGHBOURS: Seconds = Seconds::new(2.5);

/// What the walk looks at: a beat, and whether with its neighbours.
fn wanted_view(session: &Session) -> (Option<SampleIndex>, bool) {
    (session.beat_in_hand(), session.step() == Step::ChooseBeat)
}

/// How much of a long recording is shown at first: enough beats to see the rhythm, few enough to see
/// each. The strip below the trace shows the whole.
const FIRST_LOOK: Seconds = Seconds::new(10.0);

fn first_view(shown: &Shown) -> Viewport {
    let (rate, samples) = (shown.recording.rate, shown.recording.samples.len());
    let span = SampleSpan::new(0, samples.min(rate.count(FIRST_LOOK)));
    Viewport::stretch(shown.tallest(), rate, span)
}
