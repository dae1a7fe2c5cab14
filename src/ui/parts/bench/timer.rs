//! Leads through the phases of a protocol: which one it is, how long it still takes, what comes next.

use crate::ui::browser::while_running;
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Protocol;
use beatwalk::words::{say, say_with};
use leptos::prelude::*;

/// A clock that counts each phase down.
#[component]
pub fn Timer(protocol: Protocol) -> impl IntoView {
    let app = App::here();
    let phases = protocol.phases;
    let length = move |phase: usize| phases.get(phase).map_or(0.0, |it| f64::from(it.seconds));
    let phase = RwSignal::new(0_usize);
    let left = RwSignal::new(length(0));
    let running = RwSignal::new(false);
    let turn_to = move |to: usize| {
        phase.set(to.min(phases.len()));
        left.set(length(to));
        if to >= phases.len() {
            running.set(false);
        }
    };
    while_running(running, move |since| {
        left.update(|left| *left -= since.to_seconds().seconds());
        while running.get_untracked() && left.get_untracked() <= 0.0 {
            // What ran over belongs to the next phase.
            let over = left.get_untracked();
            turn_to(phase.get_untracked() + 1);
            left.update(|left| *left += over);
        }
    });
    let done = move || phase.get() >= phases.len();
    let now = move || {
        let language = app.language.get();
        match phases.get(phase.get()) {
            Some(it) => protocol.phase_name(it, language),
            None => say(language, "bench.timer.done"),
        }
    };
    let next = move || {
        let language = app.language.get();
        let it = phases.get(phase.get() + 1)?;
        let seconds = it.seconds.to_string();
        let name = protocol.phase_name(it, language);
        let places = [("phase", &*name), ("seconds", &*seconds)];
        Some(say_with(language, "bench.timer.next", &places))
    };
    let clock = move || {
        let seconds = left.get().max(0.0).ceil() as u32;
        format!("{}:{:02}", seconds / 60, seconds % 60)
    };
    let begin_key = move || if running.get() { "bench.timer.pause" } else { "bench.timer.start" };
    view! {
        <section class="card bench__timer" aria-labelledby="timer-title">
            <h2 id="timer-title">{tr("bench.timer.title")}</h2>
            <p class="bench__phase" role="status">{live(now)}</p>
            <p class="bench__clock" role="timer" aria-live="off">{live(clock)}</p>
            <progress
                max="1"
                value=move || {
                    let all = length(phase.get());
                    if all > 0.0 { 1.0 - left.get().max(0.0) / all } else { 1.0 }
                }
                aria-label=now
            ></progress>
            <p class="soft">{live(next)}</p>
            <div class="button-row">
                <button
                    class="button button--main"
                    disabled=done
                    on:click=move |_| running.update(|running| *running = !*running)
                >
                    {move || say(app.language.get(), begin_key())}
                </button>
                <button class="button" disabled=done on:click=move |_| turn_to(phase.get_untracked() + 1)>
                    {tr("bench.timer.skip")}
                </button>
                <button
                    class="button"
                    on:click=move |_| {
                        running.set(false);
                        turn_to(0);
                    }
                >
                    {tr("bench.timer.again")}
                </button>
            </div>
        </section>
    }
}
