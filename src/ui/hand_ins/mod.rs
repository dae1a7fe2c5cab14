//! Marking on the page: the teacher's copy of an assignment, what was handed in, points and comments.
//!
//! Files come in any order and number, packed or not. Each stands for itself: one that can't be read is named
//! with the reason, and the others are marked all the same, by a worker that reads each recording once.

mod bring;
mod keep;

use super::queue::Queue;
use super::state::{App, Problem};
use beatwalk::homework::{Assignment, Doubled, Marks, Sheet, doubled};
use leptos::prelude::*;
use std::sync::Arc;

/// What is being marked.
#[derive(Clone, Copy)]
pub struct HandInsState {
    /// The teacher's copy of the assignment.
    pub assignment: RwSignal<Option<Arc<Assignment>>>,
    /// What was marked so far.
    pub sheets: RwSignal<Vec<Sheet>>,
    /// Files that could not be marked.
    pub refused: RwSignal<Vec<(String, Problem)>>,
    /// The teacher's points and comments.
    pub marks: RwSignal<Marks>,
    /// The hand-ins that are still to be marked.
    pub queue: Queue<(String, Vec<u8>)>,
    /// Whether hand-ins for another copy of the assignment are marked too.
    pub takes_others: RwSignal<bool>,
    /// The hand-ins as they came, to be marked again.
    texts: StoredValue<Vec<(String, Vec<u8>)>>,
    /// Marked, but not shown yet: the table is built anew for some together.
    found: StoredValue<Vec<Sheet>>,
}

/// The hand-ins of the page.
#[derive(Clone, Copy)]
pub struct HandIns {
    app: App,
    state: HandInsState,
}

impl std::ops::Deref for HandIns {
    type Target = HandInsState;

    fn deref(&self) -> &HandInsState {
        &self.state
    }
}

impl HandInsState {
    /// Nothing to mark; made once, at the root.
    pub fn new() -> Self {
        Self {
            assignment: RwSignal::new(None),
            sheets: RwSignal::new(Vec::new()),
            refused: RwSignal::new(Vec::new()),
            marks: RwSignal::new(Marks::default()),
            queue: Queue::new(),
            takes_others: RwSignal::new(false),
            texts: StoredValue::new(Vec::new()),
            found: StoredValue::new(Vec::new()),
        }
    }
}

impl App {
    /// What is being marked.
    pub fn hand_ins(self) -> HandIns {
        HandIns { app: self, state: self.hand_ins_state }
    }
}

impl HandIns {
    /// The hand-ins, from the context.
    pub fn here() -> Self {
        App::here().hand_ins()
    }

    /// Which hand-ins repeat an earlier one.
    pub fn doubled(self) -> Vec<Option<Doubled>> {
        self.sheets.with(|sheets| doubled(sheets))
    }

    /// Gives points for a task in place of those marked; what is no number takes them back.
    pub fn give(self, sheet: &Sheet, task: &str, points: Option<f64>) {
        self.marks.update(|marks| marks.give(sheet, task, points));
    }

    /// Comments on a task.
    pub fn comment(self, sheet: &Sheet, task: &str, text: &str) {
        self.marks.update(|marks| marks.comment_on(sheet, task, text));
    }

    /// Lets everything go, on the page and in the browser's storage.
    pub fn leave(self) {
        self.stop();
        self.clear_sheets();
        self.assignment.set(None);
        self.marks.set(Marks::default());
        self.forget();
    }

    fn clear_sheets(self) {
        self.sheets.set(Vec::new());
        self.refused.set(Vec::new());
        self.texts.set_value(Vec::new());
    }
}
