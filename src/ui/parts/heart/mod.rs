//! The heart beside the student's own beat: what it does electrically and mechanically at a moment that
//! is played, scrubbed or gone through step by step.

mod figure;
mod strip;
mod times;
mod transport;

use super::as_table::is_open;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::{CyclePoints, Moment, Timeline};
use beatwalk::signal::{Landmark, Milliseconds};
use figure::Figure;
use leptos::prelude::*;
use std::sync::Arc;
use strip::Strip;
use times::Times;
use transport::Transport;

/// Where the cursor was put, during which step. On another step it stands on that step's point again.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Put {
    step: Option<Landmark>,
    at: Milliseconds,
}

/// The cursor in one cycle.
#[derive(Clone, Copy)]
struct Cursor {
    /// The cycle; `None` before any point is settled.
    timeline: Memo<Option<Arc<Timeline>>>,
    put: RwSignal<Option<Put>>,
    step: Memo<Option<Landmark>>,
    /// Whether it moves by itself.
    playing: RwSignal<bool>,
}

impl Cursor {
    fn new(app: App) -> Self {
        let timeline = Memo::new(move |_| {
            let laid_out = app.with_evidence(|evidence| {
                let settled =
                    app.lesson.with(|lesson| CyclePoints::settled(lesson.session(), evidence))?;
                Timeline::of(&settled).map(Arc::new)
            });
            laid_out.flatten()
        });
        let step = Memo::new(move |_| app.lesson.with(|lesson| lesson.session().step().landmark()));
        Self { timeline, put: RwSignal::new(None), step, playing: RwSignal::new(false) }
    }

    /// Where it stands.
    fn at(self) -> Milliseconds {
        let step = self.step.get();
        let put = self.put.get().filter(|put| put.step == step).map(|put| put.at);
        let own = || self.with(|timeline| timeline.time_of(step?)).flatten();
        put.or_else(own).unwrap_or_default()
    }

    /// Puts it somewhere.
    fn put_at(self, at: Milliseconds) {
        self.put.set(Some(Put { step: self.step.get_untracked(), at }));
    }

    /// Moves it; after the end of the cycle comes its start.
    fn advance(self, by: Milliseconds) {
        let length = untrack(|| self.length());
        let at = untrack(|| self.at()) + by;
        self.put_at(if at < length { at } else { Milliseconds::new(0.0) });
    }

    fn with<T>(self, act: impl FnOnce(&Timeline) -> T) -> Option<T> {
        self.timeline.read().as_deref().map(act)
    }

    fn length(self) -> Milliseconds {
        self.with(Timeline::length).unwrap_or_default()
    }

    /// The cursor's place as a share of the cycle, in per cent.
    fn per_cent(self) -> f64 {
        share(self.at(), self.length())
    }
}

/// A part of a length, in per cent.
fn share(part: Milliseconds, length: Milliseconds) -> f64 {
    if length.milliseconds() > 0.0 {
        part.milliseconds() / length.milliseconds() * 100.0
    } else {
        0.0
    }
}

/// The heart, folded away until it is asked for; nothing before a point is settled.
#[component]
pub fn HeartCard() -> impl IntoView {
    let app = App::here();
    let cursor = Cursor::new(app);
    let open = RwSignal::new(false);
    let moment = Memo::new(move |_| cursor.with(|timeline| timeline.at(cursor.at())));
    let toggled = move |event: web_sys::Event| {
        open.set(is_open(&event));
        if !open.get_untracked() {
            cursor.playing.set(false);
        }
    };
    view! {
        <Show when=move || cursor.timeline.read().is_some()>
            <details class="card heart cover" on:toggle=toggled>
                <summary>{tr("heart.open")}</summary>
                <Show when=move || open.get()>
                    <div class="heart__now">
                        <Figure moment=moment />
                        <Told cursor=cursor moment=moment />
                    </div>
                    <Strip cursor=cursor />
                    <Transport cursor=cursor />
                    <p class="soft">{tr("heart.legend")}</p>
                    <Times cursor=cursor />
                </Show>
            </details>
        </Show>
    }
}

/// What goes on at the cursor. Read when asked for: it is not announced while the cursor moves.
#[component]
fn Told(cursor: Cursor, moment: Memo<Option<Moment>>) -> impl IntoView {
    let app = App::here();
    let electrical = move || moment.get().map(|moment| moment.electrical_words(app.language.get()));
    let mechanical = move || {
        let (moment, language) = (moment.get()?, app.language.get());
        cursor.with(|timeline| moment.mechanical_words(timeline, language))
    };
    view! {
        <div class="heart__told" aria-live="off">
            <h3 class="heart__name--electrical">{tr("heart.electrical_name")}</h3>
            <p>{live(electrical)}</p>
            <h3>{tr("heart.mechanical_name")}</h3>
            <p>{live(mechanical)}</p>
        </div>
    }
}
