//! How long a student is at a task: only while the page is in sight and something was done in the last minute.

use super::HomeworkDesk;
use crate::ui::state::Screen;
use leptos::ev::{keydown, pointerdown};
use leptos::prelude::*;
use std::time::Duration;

/// How often the time is added up.
const TICK: Duration = Duration::from_secs(5);
/// After so many ticks without a key or a touch the student is taken to be elsewhere. Common practice.
const AWAY: u32 = 12;

impl HomeworkDesk {
    /// Says what the student turned to.
    pub fn turn_to(self, task: &str) {
        self.busy_with.set_value(Some(task.to_owned()));
    }

    /// Adds the time up, from now on.
    pub fn keep_time(self) {
        let idle = StoredValue::new(0_u32);
        window_event_listener(pointerdown, move |_| idle.set_value(0));
        window_event_listener(keydown, move |_| idle.set_value(0));
        let tick = move || {
            idle.update_value(|ticks| *ticks = ticks.saturating_add(1));
            let seen = web_sys::window()
                .and_then(|window| window.document())
                .is_some_and(|document| !document.hidden());
            let set = self.assignment.with_untracked(Option::is_some);
            if set && seen && idle.get_value() <= AWAY {
                self.add_time();
            }
        };
        set_interval(tick, TICK);
    }

    fn add_time(self) {
        let key = match self.app.screen.get_untracked() {
            Screen::Homework => self.busy_with.get_value(),
            Screen::See | Screen::Walk | Screen::Results => self.at.get_untracked(),
            _ => None,
        };
        if let Some(key) = key {
            self.done.update(|done| *done.seconds.entry(key).or_default() += TICK.as_secs_f64());
        }
    }
}
