//! A disc that grows while one breathes in and shrinks while one breathes out, six breaths a minute.

use crate::ui::browser::{each_frame, prefers_less_motion};
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::words::{say, say_with};
use leptos::prelude::*;

/// How long a breath in takes, and one out, s.
const INWARD: f64 = 5.0;
const OUTWARD: f64 = 5.0;

/// Leads through slow breathing.
#[component]
pub fn PaceCard() -> impl IntoView {
    let app = App::here();
    let running = RwSignal::new(false);
    let seconds = RwSignal::new(0.0_f64);
    each_frame(running, move |since| {
        seconds.update(|seconds| *seconds += since.to_seconds().seconds());
    });
    let within = move || seconds.get() % (INWARD + OUTWARD);
    let is_in = Memo::new(move |_| within() < INWARD);
    let said = move || {
        let key = if is_in.get() { "breathing.timer.inward" } else { "breathing.timer.outward" };
        say(app.language.get(), key)
    };
    let breath = Memo::new(move |_| (seconds.get() / (INWARD + OUTWARD)) as usize + 1);
    let count = move || {
        let number = breath.get().to_string();
        say_with(app.language.get(), "bench.pace.breath", &[("number", &number)])
    };
    // Whoever wants no motion sees a disc in two sizes.
    let size = move || {
        let part =
            if is_in.get() { within() / INWARD } else { 1.0 - (within() - INWARD) / OUTWARD };
        let part = if prefers_less_motion() { f64::from(u8::from(is_in.get())) } else { part };
        format!("{:.3}", 0.35 + 0.65 * part)
    };
    let key = move || if running.get() { "bench.timer.pause" } else { "bench.timer.start" };
    view! {
        <section class="card bench__pace" aria-labelledby="pace-title">
            <h2 id="pace-title">{tr("bench.pace.title")}</h2>
            <div class="bench__disc" aria-hidden="true">
                <div style:transform=move || format!("scale({})", size())></div>
            </div>
            <p class="bench__phase" role="status">{move || running.get().then(said)}</p>
            <p class="soft">{live(count)}</p>
            <p class="notice notice--caution">{tr("bench.pace.caution")}</p>
            <div class="button-row">
                <button class="button button--main" on:click=move |_| running.update(|on| *on = !*on)>
                    {move || say(app.language.get(), key())}
                </button>
                <button
                    class="button"
                    on:click=move |_| {
                        running.set(false);
                        seconds.set(0.0);
                    }
                >
                    {tr("bench.timer.again")}
                </button>
            </div>
        </section>
    }
}
