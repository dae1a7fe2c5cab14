//! See the trace: the whole recording, its beats, how the file was understood and what is wrong with it.

use crate::ui::parts::{
    FindingsList, LayoutForm, Overlay, Overview, Select, TraceView, zoom_key, zoom_middle,
};
use crate::ui::state::{App, Screen, Shown, tr};
use beatwalk::analysis::{Measurement, Polarity, Standing, WhySetAside};
use beatwalk::chart::{CSS_PX_PER_MM, Frame, Viewport};
use beatwalk::report::Orientation;
use beatwalk::signal::{Seconds, VoltageUnit};
use beatwalk::words::{say, say_with};
use leptos::ev::KeyboardEvent;
use leptos::html::Div;
use leptos::prelude::*;

/// How much of the view one press of an arrow moves.
const PAN_STEP: f64 = 0.2;

/// The second screen.
#[component]
pub fn SeeScreen() -> impl IntoView {
    view! {
        <h1 class="hidden-visually">{tr("page.screen.see")}</h1>
        <div class="see">
            <TracePane />
            <aside class="see__facts">
                <BeatFacts />
                <section class="card">
                    <h2>{tr("page.see.signal")}</h2>
                    <FindingsList />
                    <TurnOver />
                </section>
                <FileFacts />
            </aside>
        </div>
    }
}

#[component]
fn TracePane() -> impl IntoView {
    let app = App::here();
    let beat = RwSignal::new(None::<usize>);
    let frame = NodeRef::<Div>::new();
    let overlay = Signal::derive(move || Overlay {
        cursor: beat.get().and_then(|beat| {
            app.reading.with(|reading| Some(reading.as_ref()?.beats.get(beat)?.r))
        }),
        ..Overlay::default()
    });
    let with_shown = move |act: &dyn Fn(&Shown)| {
        if let Some(shown) = app.shown.get_untracked() {
            act(&shown);
        }
    };
    let step = move |by: isize| with_shown(&|shown| step_beat(app, shown, beat, by));
    let pan = move |part: f64| {
        with_shown(&|shown| {
            app.view.update(|view| {
                *view = view.map(|view| {
                    view.panned(Seconds::new(view.span.seconds() * part), 0.0, &shown.bounds)
                });
            });
        });
    };
    let on_key = move |event: KeyboardEvent| {
        let Some(shown) = app.shown.get_untracked() else { return };
        match (event.key().as_str(), event.shift_key()) {
            ("ArrowRight", false) => step(1),
            ("ArrowLeft", false) => step(-1),
            ("ArrowRight", true) => pan(PAN_STEP),
            ("ArrowLeft", true) => pan(-PAN_STEP),
            ("PageDown", _) => pan(1.0),
            ("PageUp", _) => pan(-1.0),
            ("Home", _) => pan(-1.0e6),
            ("End", _) => pan(1.0e6),
            ("ArrowUp", _) => zoom_middle(app.view, &shown, 1.0, 0.8),
            ("ArrowDown", _) => zoom_middle(app.view, &shown, 1.0, 1.25),
            _ if zoom_key(&event, app.view, &shown) => {}
            _ => return,
        }
        event.prevent_default();
    };
    let paper = move |_| {
        let (Some(element), Some(shown)) = (frame.get_untracked(), app.shown.get_untracked())
        else {
            return;
        };
        let palette = untrack(|| app.palette());
        let size =
            Frame::of_trace(element.client_width().into(), element.client_height().into(), palette);
        app.view.update(|view| {
            *view = view.map(|view| {
                Viewport::paper(&size, CSS_PX_PER_MM, view.start, view.middle)
                    .clamped(&shown.bounds)
            });
        });
    };
    let told = move || beat.get().map(|beat| tell_beat(app, beat));
    let in_millivolts = move || {
        app.shown.with(|shown| {
            shown.as_ref().is_some_and(|shown| shown.recording.unit == VoltageUnit::Millivolt)
        })
    };
    view! {
        <section class="see__trace" aria-label=tr("page.see.trace")>
            <div class="button-row" role="toolbar" aria-label=tr("page.see.tools")>
                <button class="button" on:click=move |_| with_shown(&|shown| zoom_middle(app.view, shown, 0.5, 1.0))>
                    {tr("page.see.nearer")}
                </button>
                <button class="button" on:click=move |_| with_shown(&|shown| zoom_middle(app.view, shown, 2.0, 1.0))>
                    {tr("page.see.farther")}
                </button>
                <button
                    class="button"
                    on:click=move |_| {
                        with_shown(&|shown| {
                            app.view.set(Some(Viewport::fit(&shown.envelope, shown.recording.rate)));
                        });
                    }
                >
                    {tr("page.see.whole")}
                </button>
                <Show when=in_millivolts>
                    <button class="button" on:click=paper>
                        {tr("page.see.paper")}
                    </button>
                </Show>
                <button class="button" aria-label=tr("page.see.beat_before") on:click=move |_| step(-1)>
                    "◀"
                </button>
                <span>{tr("page.see.beat")}</span>
                <button class="button" aria-label=tr("page.see.beat_after") on:click=move |_| step(1)>
                    "▶"
                </button>
                <span role="status">{told}</span>
            </div>
            <div
                class="chart see__chart"
                node_ref=frame
                tabindex="0"
                role="application"
                aria-roledescription=tr("page.see.chart_role")
                aria-label=tr("page.see.chart")
                aria-describedby="chart-summary trace-keys"
                on:keydown=on_key
            >
                <TraceView viewport=app.view overlay=overlay />
            </div>
            <div class="chart see__overview">
                <Overview viewport=app.view />
            </div>
            <p id="trace-keys" class="soft">
                {tr("page.see.keys")}
            </p>
        </section>
    }
}

/// Goes to the next beat, or the one before, and brings it into view.
fn step_beat(app: App, shown: &Shown, beat: RwSignal<Option<usize>>, by: isize) {
    let Some(reading) = app.reading.get_untracked() else { return };
    let Some(last) = reading.beats.len().checked_sub(1) else { return };
    let next = match beat.get_untracked() {
        Some(now) => now.saturating_add_signed(by).min(last),
        None => 0,
    };
    beat.set(Some(next));
    if let Some(found) = reading.beats.get(next) {
        let moment = shown.recording.rate.time_of(found.r);
        app.view.update(|view| *view = view.map(|view| view.centred(moment, &shown.bounds)));
    }
}

/// Which beat it is, when it comes and how long after the one before.
fn tell_beat(app: App, beat: usize) -> String {
    let (Some(shown), Some(reading)) = (app.shown.get(), app.reading.get()) else {
        return String::new();
    };
    let Some(found) = reading.beats.get(beat) else { return String::new() };
    let rate = shown.recording.rate;
    let language = app.language.get();
    let time = format!("{:.2}", rate.time_of(found.r).seconds());
    let number = (beat + 1).to_string();
    let count = reading.beats.len().to_string();
    let mut told = say_with(
        language,
        "page.see.tell_beat",
        &[("beat", &number), ("beats", &count), ("time", &time)],
    );
    if let Some(before) = beat.checked_sub(1).and_then(|before| reading.beats.get(before)) {
        let rr = format!("{:.0}", found.r.minus(before.r) as f64 * 1000.0 / rate.hz());
        told.push_str(&say_with(language, "page.see.tell_interval", &[("rr", &rr)]));
    }
    if let Standing::SetAside(why) = found.standing {
        told.push_str(&say(language, aside_key(why)));
    }
    told
}

const fn aside_key(why: WhySetAside) -> &'static str {
    match why {
        WhySetAside::OtherShape => "page.see.aside.other_shape",
        WhySetAside::OtherTiming => "page.see.aside.other_timing",
        WhySetAside::Unclear => "page.see.aside.unclear",
    }
}

#[component]
fn BeatFacts() -> impl IntoView {
    let app = App::here();
    let facts = move || {
        app.reading.get().map(|reading| {
            let counted =
                reading.beats.iter().filter(|beat| beat.standing == Standing::Counts).count();
            let rate = number(app, reading.intervals.rate_bpm, 0, "page.unit.per_minute");
            let rr = number(app, reading.intervals.rr_ms, 0, "page.unit.ms");
            view! {
                <dl class="facts">
                    <dt>{tr("page.see.beats_found")}</dt>
                    <dd>{reading.beats.len()}</dd>
                    <dt>{tr("page.see.beats_counted")}</dt>
                    <dd>{counted}</dd>
                    <dt>{tr("page.see.rate")}</dt>
                    <dd>{rate}</dd>
                    <dt>{tr("page.see.rr")}</dt>
                    <dd>{rr}</dd>
                </dl>
            }
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.see.beats")}</h2>
            {facts}
            <Show when=move || app.reading.read().is_none() && app.job.read().is_none()>
                <p>{tr("page.see.not_read")}</p>
                <button class="button" on:click=move |_| app.read_beats()>
                    {tr("page.see.read_now")}
                </button>
            </Show>
            <button
                class="button button--main"
                disabled=move || !app.can_show(Screen::Walk)
                on:click=move |_| app.screen.set(Screen::Walk)
            >
                {tr("page.see.go_walk")}
            </button>
        </section>
    }
}

/// An upside-down trace can be turned over, and back; the student decides.
#[component]
fn TurnOver() -> impl IntoView {
    let app = App::here();
    let turned = move || app.work.with(|work| work.settings.orientation == Orientation::TurnedOver);
    let looks_inverted = move || {
        app.reading.with(|reading| {
            reading.as_ref().is_some_and(|reading| reading.polarity == Polarity::LooksInverted)
        })
    };
    view! {
        <Show when=turned>
            <p>{tr("page.see.turned")}</p>
        </Show>
        <Show when=move || turned() || looks_inverted()>
            <button class="button" aria-pressed=move || turned().to_string() on:click=move |_| app.turn_over()>
                {tr("page.see.turn_over")}
            </button>
        </Show>
    }
}

/// A measurement with its spread and count, or that there is none.
fn number(app: App, measured: Option<Measurement>, decimals: usize, unit_key: &str) -> String {
    let language = app.language.get();
    match measured {
        Some(Measurement { value, spread, n }) => say_with(
            language,
            "page.see.measured",
            &[
                ("value", &format!("{value:.decimals$}")),
                ("unit", &say(language, unit_key)),
                ("spread", &format!("{spread:.decimals$}")),
                ("n", &n.to_string()),
            ],
        ),
        None => say(language, "page.not_measurable").into_owned(),
    }
}

#[component]
fn FileFacts() -> impl IntoView {
    let app = App::here();
    let facts = move || {
        let (opened, shown) = (app.opened.get()?, app.shown.get()?);
        let recording = &shown.recording;
        let language = app.language.get();
        let unit = say(language, unit_key(recording.unit)).into_owned();
        let names: Vec<String> =
            opened.head.traces.iter().map(|trace| trace.name.clone()).collect();
        let chosen = shown.trace;
        let several = names.len() > 1;
        let notes = opened.head.notes.clone();
        let layout = opened.head.layout.clone();
        Some(view! {
            <Show when=move || several>
                <Select
                    label=Signal::derive(tr("page.see.choose_signal"))
                    options=names.clone()
                    chosen=Some(chosen)
                    on_choose=Callback::new(move |trace: usize| app.choose_trace(trace))
                />
            </Show>
            <dl class="facts">
                <dt>{tr("page.see.file")}</dt>
                <dd>{opened.head.file.clone()}</dd>
                <dt>{tr("page.see.signal_name")}</dt>
                <dd>{recording.name.clone()}</dd>
                <dt>{tr("page.see.sampling")}</dt>
                <dd>{format!("{:.2} Hz", recording.rate.hz())}</dd>
                <dt>{tr("page.see.length")}</dt>
                <dd>
                    {say_with(
                        language,
                        "page.see.length_value",
                        &[
                            ("seconds", &format!("{:.1}", recording.duration().seconds())),
                            ("samples", &recording.recorded_samples().to_string()),
                        ],
                    )}
                </dd>
                <dt>{tr("page.see.unit")}</dt>
                <dd>{unit}</dd>
            </dl>
            <Notes notes=notes />
            {layout
                .map(|layout| {
                    view! {
                        <details>
                            <summary>{tr("page.layout.title")}</summary>
                            <LayoutForm layout=layout />
                        </details>
                    }
                })}
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.see.file_title")}</h2>
            {facts}
        </section>
    }
}

/// What was guessed or repaired.
#[component]
fn Notes(notes: Vec<String>) -> impl IntoView {
    let any = !notes.is_empty();
    let notes = StoredValue::new(notes);
    view! {
        <Show when=move || any>
            <details open>
                <summary>{tr("page.see.notes")}</summary>
                <ul>
                    {notes.get_value().into_iter().map(|note| view! { <li>{note}</li> }).collect_view()}
                </ul>
            </details>
        </Show>
    }
}

const fn unit_key(unit: VoltageUnit) -> &'static str {
    match unit {
        VoltageUnit::Millivolt => "page.unit.millivolt",
        VoltageUnit::Counts => "page.unit.counts",
        VoltageUnit::Unstated => "page.unit.unstated",
    }
}
