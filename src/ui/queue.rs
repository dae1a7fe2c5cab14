//! What is given to a worker of its own, one after another, and how far that has come.

use crate::worker::{Analyst, Answer, Request};
use leptos::prelude::*;
use std::collections::VecDeque;

/// Things that wait for a worker. The worker starts with the first of them.
pub struct Queue<T: 'static> {
    /// How many are done, and of how many; `None` while nothing is under way.
    pub count: RwSignal<Option<(usize, usize)>>,
    waiting: StoredValue<VecDeque<T>, LocalStorage>,
    worker: StoredValue<Option<Analyst>, LocalStorage>,
}

impl<T> Clone for Queue<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Queue<T> {}

impl<T: 'static> Queue<T> {
    /// Nothing waits; made once, at the root.
    pub fn new() -> Self {
        Self {
            count: RwSignal::new(None),
            waiting: StoredValue::new_local(VecDeque::new()),
            worker: StoredValue::new_local(None),
        }
    }

    /// Connects the worker with what hears its answers; called once, at the root.
    pub fn connect(self, hear: impl Fn(Answer, Vec<Vec<f32>>) + 'static) {
        self.worker.set_value(Some(Analyst::new(hear)));
    }

    /// Lets more wait; whether nothing was under way, so that the first has to be taken up now.
    pub fn add(self, more: Vec<T>) -> bool {
        let count = self.count.get_untracked();
        let (done, of) = count.unwrap_or_default();
        if !more.is_empty() {
            self.count.set(Some((done, of + more.len())));
        }
        let begins = count.is_none() && !more.is_empty();
        self.waiting.update_value(|waiting| waiting.extend(more));
        begins
    }

    /// The next that waits.
    pub fn next(self) -> Option<T> {
        self.waiting.try_update_value(VecDeque::pop_front).flatten()
    }

    /// Everything that waits, to be given to the worker together.
    pub fn all(self) -> VecDeque<T> {
        self.waiting.try_update_value(std::mem::take).unwrap_or_default()
    }

    /// How many wait.
    pub fn waiting(self) -> usize {
        self.waiting.with_value(VecDeque::len)
    }

    /// Counts one more that is done, and tells the count; with the last one nothing is under way any more.
    pub fn one_done(self) -> Option<(usize, usize)> {
        let (before, of) = self.count.get_untracked()?;
        let done = before + 1;
        self.count.set((done < of).then_some((done, of)));
        Some((done, of))
    }

    /// Gives files to the worker.
    pub fn open(self, request: &Request, files: &[Vec<u8>]) {
        self.with_worker(|worker| worker.open(request, files));
    }

    /// Gives the worker something else to do.
    pub fn with_worker(self, act: impl Fn(&Analyst)) {
        self.worker.with_value(|worker| worker.iter().for_each(act));
    }

    /// Gives up what the worker is doing and what waits.
    pub fn stop(self) {
        self.waiting.update_value(VecDeque::clear);
        self.with_worker(Analyst::cancel);
        self.count.set(None);
    }
}
