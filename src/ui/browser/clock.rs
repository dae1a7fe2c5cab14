//! Time that passes, also while the page is hidden. Only what is written down goes by the clock of the computer,
//! which somebody may set, or a network, while a class is timed.

use crate::ui::reactive::follow;
use beatwalk::signal::Milliseconds;
use js_sys::Date;
use leptos::prelude::*;
use std::time::Duration;

/// Often enough that a second is never seen to last two.
const EVERY: Duration = Duration::from_millis(200);

/// The time by the clock of this computer, as ISO 8601 writes it.
pub fn now() -> String {
    Date::new_0().to_iso_string().into()
}

/// The time since the page was opened, by a clock that nobody sets.
pub fn since_start() -> Milliseconds {
    let performance = web_sys::window().and_then(|window| window.performance());
    Milliseconds::new(performance.map_or(0.0, |performance| performance.now()))
}

/// While a signal is true, calls a function five times a second with the time since it was last called.
pub fn while_running(running: RwSignal<bool>, step: impl Fn(Milliseconds) + Copy + 'static) {
    let ticking = StoredValue::new(None::<IntervalHandle>);
    let stop = move || {
        if let Some(Some(handle)) = ticking.try_update_value(Option::take) {
            handle.clear();
        }
    };
    follow(move || {
        stop();
        if running.get() {
            let before = StoredValue::new(since_start());
            let tick = move || {
                let now = since_start();
                if let Some(since) =
                    before.try_update_value(|before| std::mem::replace(before, now))
                {
                    step(now - since);
                }
            };
            ticking.set_value(set_interval_with_handle(tick, EVERY).ok());
        }
    });
    on_cleanup(stop);
}
