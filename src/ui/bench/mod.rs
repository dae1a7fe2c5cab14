//! The bench: the recordings of an investigation, what was chosen and what was written about the outcome.
//!
//! Beside the desk of the guided reading, not on it: neither touches what the other has open.

mod jobs;
mod keep;

use crate::ui::browser::Drawer;
use crate::ui::queue::Queue;
use crate::ui::state::App;
use crate::worker::Stage;
use beatwalk::analysis::Reading;
use beatwalk::inquiry::{Investigation, Role};
use beatwalk::lesson::Evidence;
use beatwalk::report::{InquirySheet, SavedReading};
use beatwalk::signal::Recording;
use jobs::Errand;
use leptos::prelude::*;
use std::collections::BTreeMap;
use std::ops::Deref;
use std::sync::Arc;

/// A recording in its place.
#[derive(Clone, Debug)]
pub struct Seat {
    /// The recording as opened and the work on it.
    pub saved: Arc<SavedReading>,
    /// The recording that is measured.
    pub recording: Arc<Recording>,
    /// What was found in it; `None` while it is being read, and of a muscle.
    pub reading: Option<Arc<Reading>>,
    /// All traces of the file it came from, itself among them; alone what is saved has no others.
    pub traces: Vec<Arc<Recording>>,
    /// Its place among them.
    pub trace: usize,
}

/// What lies on the bench.
#[derive(Clone, Copy)]
pub struct BenchState {
    /// What was chosen and written; `None` until an investigation is chosen.
    pub sheet: RwSignal<Option<InquirySheet>>,
    /// What was chosen, without what was written: results follow it, and no letter typed makes them anew.
    pub plan: Memo<Option<InquirySheet>>,
    /// The recordings that are there.
    pub seats: RwSignal<BTreeMap<Role, Arc<Seat>>>,
    /// The recording that the worker is at, and how far.
    pub job: RwSignal<Option<(Role, Stage, f64)>>,
    queue: Queue<Errand>,
}

/// The bench and the page it belongs to.
#[derive(Clone, Copy)]
pub struct Bench {
    app: App,
    state: BenchState,
}

impl Deref for Bench {
    type Target = BenchState;

    fn deref(&self) -> &BenchState {
        &self.state
    }
}

impl BenchState {
    /// An empty bench; made once, at the root.
    pub fn new() -> Self {
        let sheet = RwSignal::new(None);
        Self {
            sheet,
            plan: Memo::new(move |_| sheet.get().as_ref().map(InquirySheet::unwritten)),
            seats: RwSignal::new(BTreeMap::new()),
            job: RwSignal::new(None),
            queue: Queue::new(),
        }
    }
}

impl App {
    /// The bench of the page.
    pub fn bench(self) -> Bench {
        Bench { app: self, state: self.bench_state }
    }
}

impl Bench {
    /// The bench, from the context.
    pub fn here() -> Self {
        App::here().bench()
    }

    /// Begins another investigation. What lies on the bench for the one before is let go.
    pub fn choose(self, investigation: Investigation) {
        self.sweep();
        self.sheet.set(Some(InquirySheet::of(investigation)));
    }

    /// Goes back to the choice of investigations; the bench is cleared, here and in the browser's storage.
    pub fn leave(self) {
        self.sweep();
        self.app.write(Drawer::Bench, String::new());
    }

    /// Clears the bench on the page.
    fn sweep(self) {
        self.stop();
        self.seats.set(BTreeMap::new());
        self.sheet.set(None);
    }

    /// Changes what was chosen or written.
    pub fn change(self, change: impl FnOnce(&mut InquirySheet)) {
        self.sheet.update(|sheet| {
            if let Some(sheet) = sheet {
                change(sheet);
            }
        });
    }

    /// The code of whoever works here, as entered; may be empty.
    pub fn student(self) -> String {
        self.sheet.with(|sheet| sheet.as_ref().map(|it| it.student.clone())).unwrap_or_default()
    }

    /// A recording, once it is there.
    pub fn seat(self, role: Role) -> Option<Arc<Seat>> {
        self.seats.with(|seats| seats.get(&role).cloned())
    }
}

impl Seat {
    /// A recording before its beats were found.
    fn unread(saved: SavedReading) -> Self {
        let recording = Arc::new(saved.work.settings.prepare(&saved.recording.recording));
        let traces = vec![recording.clone()];
        Self { saved: Arc::new(saved), recording, reading: None, traces, trace: 0 }
    }

    /// The other traces of its file.
    pub fn others(&self) -> Vec<&Recording> {
        let traces = self.traces.iter().enumerate();
        traces.filter(|(place, _)| *place != self.trace).map(|(_, trace)| &**trace).collect()
    }

    /// The recording and what was found in it, once it was read.
    pub fn evidence(&self) -> Option<Evidence<'_>> {
        Some(Evidence { recording: &self.recording, reading: self.reading.as_ref()? })
    }
}
