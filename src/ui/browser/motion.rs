//! Motion on the page: whether it is wanted, and the beat of the screen that it goes by.

use super::since_start;
use beatwalk::signal::Milliseconds;
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::VecDeque;

/// The longest step: a page that slept in a hidden tab goes on where it was.
const LONGEST_STEP_MS: f64 = 100.0;

/// Whether the owner of the browser asked for less motion.
pub fn prefers_less_motion() -> bool {
    let asked = web_sys::window()
        .and_then(|window| window.match_media("(prefers-reduced-motion: reduce)").ok().flatten());
    asked.is_some_and(|list| list.matches())
}

/// While a signal is true, calls a function before each frame with the time since the one before.
pub fn each_frame(running: RwSignal<bool>, step: impl Fn(Milliseconds) + Copy + 'static) {
    // Every start has a number, so that one started anew does not run twice.
    let current = StoredValue::new(0_u32);
    Effect::new(move |before: Option<u32>| {
        let number = before.unwrap_or_default().wrapping_add(1);
        current.set_value(number);
        if running.get() {
            let goes_on = move || {
                // The signals are gone with the part of the page they belonged to.
                running.try_get_untracked() == Some(true) && current.try_get_value() == Some(number)
            };
            next_frame(goes_on, step, since_start());
        }
        number
    });
}

thread_local! {
    static WAITING: RefCell<VecDeque<Box<dyn FnOnce()>>> = RefCell::default();
}

/// Does something before a frame, where a frame has room for one of its kind: a screen full of charts is drawn one
/// after the other, and the page can be used meanwhile.
pub fn in_turn(act: impl FnOnce() + 'static) {
    let was_empty = WAITING.with_borrow_mut(|waiting| {
        waiting.push_back(Box::new(act));
        waiting.len() == 1
    });
    if was_empty {
        request_animation_frame(take_turn);
    }
}

fn take_turn() {
    let (act, more) = WAITING.with_borrow_mut(|waiting| {
        let act = waiting.pop_front();
        (act, !waiting.is_empty())
    });
    if more {
        request_animation_frame(take_turn);
    }
    if let Some(act) = act {
        act();
    }
}

fn next_frame(
    goes_on: impl Fn() -> bool + Copy + 'static,
    step: impl Fn(Milliseconds) + Copy + 'static,
    before: Milliseconds,
) {
    request_animation_frame(move || {
        if goes_on() {
            let now = since_start();
            step(Milliseconds::new((now - before).milliseconds().min(LONGEST_STEP_MS)));
            next_frame(goes_on, step, now);
        }
    });
}
