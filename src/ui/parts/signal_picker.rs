//! The signals and runs of a file, each with a small picture, to choose the one to work on.
//!
//! A picture is drawn when it first comes into view: a file may hold 64 signals of an hour each.

use super::chart::{Chart, Drawing};
use super::file_facts::unit_key;
use super::trace_view::{bare_scene, look};
use crate::ui::browser::{CanvasSize, observe_seen};
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, Shown, tr};
use beatwalk::chart::{Viewport, draw_overview};
use beatwalk::signal::Recording;
use beatwalk::words::{figure, say, say_with};
use leptos::html::Canvas;
use leptos::prelude::*;
use std::sync::Arc;

/// The choice, where a file has more than one signal or run.
#[component]
pub fn SignalPicker() -> impl IntoView {
    let app = App::here();
    let several = move || {
        let opened = app.opened.get().filter(|opened| opened.recordings.len() > 1)?;
        let entries = (0..).zip(&opened.recordings).map(|(place, recording)| {
            let suggested = place == opened.suggested;
            view! { <Entry place=place recording=recording.clone() suggested=suggested /> }
        });
        Some(view! {
            <section class="card">
                <h2>{tr("page.pick.title")}</h2>
                <p class="soft">{tr("page.pick.how")}</p>
                <ul class="picker">{entries.views()}</ul>
            </section>
        })
    };
    view! { {several} }
}

#[component]
fn Entry(place: usize, recording: Arc<Recording>, suggested: bool) -> impl IntoView {
    let app = App::here();
    let chosen = Memo::new(move |_| {
        app.shown.with(|shown| shown.as_ref().is_some_and(|shown| shown.trace == place))
    });
    let own_name = recording.name.clone();
    let name = move || match own_name.as_str() {
        name if !name.is_empty() && !app.projector.get() => name.to_owned(),
        _ => {
            let number = (place + 1).to_string();
            say_with(app.language.get(), "page.pick.nameless", &[("number", &number)])
        }
    };
    let (unit, rate, duration) = (recording.unit, recording.rate, recording.duration());
    let facts = move || {
        let language = app.language.get();
        say_with(
            language,
            "page.pick.facts",
            &[
                ("unit", &say(language, unit_key(unit))),
                ("hz", &figure(language, rate.hz(), 2)),
                ("seconds", &figure(language, duration.seconds(), 1)),
            ],
        )
    };
    view! {
        <li>
            <button
                class="picker__entry"
                aria-pressed=move || chosen.get().to_string()
                on:click=move |_| {
                    if !chosen.get_untracked() {
                        app.choose_trace(place);
                    }
                }
            >
                <span class="picker__name">
                    {live(name)} " " {suggested.then(|| view! { <em>{tr("page.pick.suggested")}</em> })}
                </span>
                <span class="picker__picture">
                    <Thumbnail place=place recording=recording />
                </span>
                <small>{live(facts)}</small>
            </button>
        </li>
    }
}

/// The whole of a trace, small.
#[component]
fn Thumbnail(place: usize, recording: Arc<Recording>) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    let seen = observe_seen(canvas);
    let prepared = StoredValue::new_local(None::<Shown>);
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        if !seen.get() {
            return;
        }
        prepared.update_value(|prepared| {
            let shown = prepared.get_or_insert_with(|| Shown::new(place, recording.clone()));
            let whole = Viewport::fit(&shown.envelope, shown.recording.rate);
            // A picture that can't be drawn leaves its name and its facts.
            let _ = draw_overview(drawing, &bare_scene(shown, whole), &look(app, size, None));
        });
    };
    view! { <Chart canvas=canvas draw=draw attr:aria-hidden="true" /> }
}
