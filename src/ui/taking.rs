//! How the trace is taken: turned over, quietened, calibrated, a part of it, with marks by hand. The recording
//! itself stays as it was opened.

use super::browser::Drawer;
use super::state::{App, ScaleTyped, Shown};
use beatwalk::analysis::Cleaning;
use beatwalk::chart::Viewport;
use beatwalk::lesson::Lesson;
use beatwalk::report::Settings;
use beatwalk::signal::{Calibration, Mark, MarkKind, SampleIndex, SampleSpan};
use leptos::prelude::*;
use std::sync::Arc;

impl App {
    /// Turns the trace over, or back: the student decides.
    pub fn turn_over(self) {
        self.set_up(|settings| settings.orientation = settings.orientation.turned());
    }

    /// Gives heights in millivolts, or takes that back.
    pub fn calibrate(self, calibration: Option<Calibration>) {
        self.set_up(|settings| settings.calibration = calibration);
    }

    /// Takes noise out of the trace, or puts it back.
    pub fn clean(self, cleaning: Cleaning) {
        self.set_up(|settings| settings.cleaning = cleaning);
    }

    /// Keeps what was filled in for the scale, so that the next file of the sensor needs only a look.
    pub fn keep_scale(self, typed: ScaleTyped) {
        self.write_data(Drawer::Scale, &typed);
        self.scale_before.set(Some(typed));
    }

    /// Works on a part of the recording, or on all of it. Marks of the lesson that lie in it stay.
    pub fn use_part(self, part: Option<SampleSpan>) {
        let Some(samples) = self.raw_samples() else { return };
        let mut work = self.work_now();
        work.use_part(part, samples);
        self.lesson.set(Lesson::resume(work.session.clone()));
        self.work.set(work);
        self.retake();
    }

    /// Notes something at a sample of the trace.
    pub fn add_mark(self, at: SampleIndex, text: &str) {
        let mark = Mark { at, kind: MarkKind::Note, text: text.trim().to_owned() };
        self.work.update(|work| work.settings.add_mark(mark));
        self.take_marks();
    }

    /// Takes a note away that was added by hand, by its place among them.
    pub fn remove_mark(self, place: usize) {
        self.work.update(|work| work.settings.remove_mark(place));
        self.take_marks();
    }

    /// How many samples the recording has as opened.
    pub fn raw_samples(self) -> Option<usize> {
        self.raw.with_untracked(|raw| raw.as_ref().map(|raw| raw.recording.samples.len()))
    }

    /// Changes settings that alter heights: the stretch in view stays.
    fn set_up(self, change: impl FnOnce(&mut Settings)) {
        let view = self.view.get_untracked();
        self.work.update(|work| change(&mut work.settings));
        self.retake();
        if let (Some(view), Some(shown)) = (view, self.shown.get_untracked()) {
            let rate = shown.recording.rate;
            let span = view.samples(rate, shown.recording.samples.len());
            self.view.set(Some(Viewport::stretch(shown.tallest(), rate, span)));
        }
    }

    fn retake(self) {
        let Some(raw) = self.raw.get_untracked() else { return };
        let trace =
            self.shown.with_untracked(|shown| shown.as_ref().map_or(0, |shown| shown.trace));
        self.work_on(trace, (*raw).clone());
    }

    /// Puts the marks on the trace; nothing else has changed, so nothing is read anew.
    fn take_marks(self) {
        let (Some(raw), Some(shown)) = (self.raw.get_untracked(), self.shown.get_untracked())
        else {
            return;
        };
        let settings = self.work.with_untracked(|work| work.settings.clone());
        let marks = settings.marks_on(&raw.recording);
        self.shown.set(Some(Arc::new(Shown::with_marks(&shown, marks))));
    }
}
