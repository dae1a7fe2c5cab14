//! The class desk: many files at once, one row each, compared over people.
//!
//! Files are taken one after another by a worker of its own, so that two hundred of them neither freeze the
//! page nor lie in memory together. What is on the desk is not kept: it holds the work of others.

use crate::ui::browser::{Dropped, read_bytes};
use crate::ui::queue::Queue;
use crate::ui::state::{App, Problem};
use crate::worker::{Answer, Request};
use beatwalk::inquiry::{Entry, Measured};
use beatwalk::report::PoolEntry;
use gloo_file::File;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::ops::Deref;

/// The comparison is made anew after so many files, not after each.
const TOGETHER: usize = 20;

/// What lies on the class desk.
#[derive(Clone, Copy)]
pub struct ClassState {
    /// The numbers of each recording, with a number of its own to know the row by.
    pub entries: RwSignal<Vec<(usize, PoolEntry)>>,
    /// Files that did not fit, and why.
    pub refused: RwSignal<Vec<(String, Problem)>>,
    /// The quantity that is compared.
    pub measured: RwSignal<Measured>,
    /// The files that are still to be taken.
    pub queue: Queue<File>,
    found: StoredValue<Vec<PoolEntry>>,
    rows: StoredValue<usize>,
    at: StoredValue<String>,
}

/// The class desk and the page it belongs to.
#[derive(Clone, Copy)]
pub struct ClassDesk {
    app: App,
    state: ClassState,
}

impl Deref for ClassDesk {
    type Target = ClassState;

    fn deref(&self) -> &ClassState {
        &self.state
    }
}

impl ClassState {
    /// An empty desk; made once, at the root.
    pub fn new() -> Self {
        let [first, ..] = Measured::ALL;
        Self {
            entries: RwSignal::new(Vec::new()),
            refused: RwSignal::new(Vec::new()),
            measured: RwSignal::new(first),
            queue: Queue::new(),
            found: StoredValue::new(Vec::new()),
            rows: StoredValue::new(0),
            at: StoredValue::new(String::new()),
        }
    }
}

impl App {
    /// The class desk of the page.
    pub fn class_desk(self) -> ClassDesk {
        ClassDesk { app: self, state: self.class_state }
    }
}

impl ClassDesk {
    /// The class desk, from the context.
    pub fn here() -> Self {
        App::here().class_desk()
    }

    /// Connects the worker; called once, at the root.
    pub fn connect(self) {
        self.queue.connect(move |answer, _| self.hear(answer));
    }

    /// Takes more files.
    pub fn take(self, files: Dropped) {
        if self.queue.add(files) {
            self.next();
        }
    }

    /// Stops taking files; the rows that are there stay.
    pub fn stop(self) {
        self.queue.stop();
        self.show_found();
    }

    /// Clears the desk.
    pub fn clear(self) {
        self.stop();
        self.entries.set(Vec::new());
        self.refused.set(Vec::new());
    }

    /// Takes one row away.
    pub fn remove(self, row: usize) {
        self.entries.update(|entries| entries.retain(|(number, _)| *number != row));
    }

    /// Changes whose a row is, or its condition.
    pub fn change(self, row: usize, change: impl FnOnce(&mut PoolEntry)) {
        self.entries.update(|entries| {
            if let Some((_, entry)) = entries.iter_mut().find(|(number, _)| *number == row) {
                change(entry);
            }
        });
    }

    /// The conditions, in the order in which they came.
    pub fn conditions(self) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        for (_, entry) in self.entries.read().iter() {
            if !names.contains(&entry.condition) {
                names.push(entry.condition.clone());
            }
        }
        names
    }

    /// The values that are compared, with whose they are.
    pub fn compared(self) -> Vec<Entry> {
        let measured = self.measured.get();
        let entries = self.entries.read();
        let one = |(_, entry): &(usize, PoolEntry)| Entry {
            code: entry.code.trim().to_owned(),
            condition: entry.condition.clone(),
            value: entry.value(measured),
        };
        entries.iter().map(one).collect()
    }

    fn next(self) {
        let Some(file) = self.queue.next() else { return };
        self.at.set_value(file.name());
        spawn_local(async move {
            match read_bytes(&[file]).await {
                Err((what, remedy)) => self.refuse(Problem { what, remedy }),
                Ok(mut read) => {
                    let Some((name, bytes)) = read.pop() else { return };
                    let request = Request::Pool { name, known: self.app.shapes.get_untracked() };
                    self.queue.open(&request, &[bytes]);
                }
            }
        });
    }

    fn hear(self, answer: Answer) {
        match answer {
            Answer::Pooled(mut more) => {
                self.found.update_value(|found| found.append(&mut more));
                self.go_on();
            }
            Answer::Failed { what, remedy } => self.refuse(Problem { what, remedy }),
            _ => {}
        }
    }

    fn refuse(self, problem: Problem) {
        self.refused.update(|refused| refused.push((self.at.get_value(), problem)));
        self.go_on();
    }

    fn go_on(self) {
        if let Some((done, of)) = self.queue.one_done() {
            if done % TOGETHER == 0 || done == of {
                self.show_found();
            }
            self.next();
        }
    }

    /// Puts what was found on the desk.
    fn show_found(self) {
        let found = self.found.try_update_value(std::mem::take).unwrap_or_default();
        self.entries.update(|entries| {
            for entry in found {
                let row = self.rows.get_value();
                self.rows.set_value(row + 1);
                entries.push((row, entry));
            }
        });
    }
}
