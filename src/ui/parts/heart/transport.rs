//! Play, pause, scrub, step and slow motion. Nothing ever moves by itself; for those who asked their
//! system for less motion there are steps only.

use super::Cursor;
use crate::ui::browser::{each_frame, prefers_less_motion};
use crate::ui::parts::select::Select;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::Timeline;
use beatwalk::signal::Milliseconds;
use beatwalk::words::say;
use leptos::prelude::*;

/// How fast the cursor goes, the slowest first: a share of real time and its message.
const SPEEDS: [(f64, &str); 3] =
    [(0.1, "heart.speed.tenth"), (0.25, "heart.speed.quarter"), (1.0, "heart.speed.real")];

/// The buttons and the slider under the beat.
#[component]
pub fn Transport(cursor: Cursor) -> impl IntoView {
    let app = App::here();
    let speed = RwSignal::new(SPEEDS[0].0);
    each_frame(cursor.playing, move |since: Milliseconds| {
        if let Some(speed) = speed.try_get_untracked() {
            cursor.advance(Milliseconds::new(since.milliseconds() * speed));
        }
    });
    let step = move |turn: fn(&Timeline, Milliseconds) -> Milliseconds| {
        cursor.playing.set(false);
        let at = untrack(|| cursor.with(|timeline| turn(timeline, cursor.at())));
        if let Some(at) = at {
            cursor.put_at(at);
        }
    };
    let scrub = move |event| {
        if let Ok(at) = event_target_value(&event).parse() {
            cursor.playing.set(false);
            cursor.put_at(Milliseconds::new(at));
        }
    };
    let told = move || {
        let (at, language) = (cursor.at(), app.language.get());
        cursor.with(|timeline| timeline.at(at).words(at, timeline, language))
    };
    view! {
        <input
            class="heart__scrub"
            type="range"
            min="0"
            step="1"
            max=move || format!("{:.0}", cursor.length().milliseconds())
            prop:value=move || format!("{:.0}", cursor.at().milliseconds())
            aria-label=tr("heart.moment")
            aria-valuetext=told
            on:input=scrub
        />
        <div class="button-row button-row--fields">
            <Show when=|| !prefers_less_motion()>
                <Play cursor=cursor />
            </Show>
            <button class="button" aria-label=tr("heart.earlier") on:click=move |_| step(Timeline::turn_before)>
                "◀"
            </button>
            <button class="button" aria-label=tr("heart.later") on:click=move |_| step(Timeline::turn_after)>
                "▶"
            </button>
            <Show when=|| !prefers_less_motion()>
                <Speed speed=speed />
            </Show>
        </div>
    }
}

#[component]
fn Play(cursor: Cursor) -> impl IntoView {
    let app = App::here();
    let name = move || {
        let key = if cursor.playing.get() { "heart.pause" } else { "heart.play" };
        say(app.language.get(), key).into_owned()
    };
    view! {
        <button class="button button--main" on:click=move |_| cursor.playing.update(|playing| *playing = !*playing)>
            {live(name)}
        </button>
    }
}

#[component]
fn Speed(speed: RwSignal<f64>) -> impl IntoView {
    let app = App::here();
    let choose = Callback::new(move |place: usize| {
        if let Some((share, _)) = SPEEDS.get(place) {
            speed.set(*share);
        }
    });
    live(move || {
        let language = app.language.get();
        let chosen = SPEEDS.iter().position(|(share, _)| *share == speed.get_untracked());
        view! {
            <Select
                label=say(language, "heart.speed.label").into_owned()
                options=SPEEDS.iter().map(|(_, key)| say(language, key).into_owned()).collect()
                chosen=chosen
                on_choose=choose
            />
        }
    })
}
