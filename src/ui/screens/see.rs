//! See the trace: the whole recording, its beats, how the file was understood and what is wrong with it.

use crate::ui::parts::{
    BeatFacts, BeatsCard, CleaningCard, FileFacts, FindingsList, Overlay, Overview, PartStrip,
    RhythmCard, ScaleCard, SignalPicker, ToolTray, Tools, TraceView, TurnOver, middle_of_view,
    span_label, zoom_key, zoom_middle,
};
use crate::ui::reactive::{Later, Show, live};
use crate::ui::state::{App, Shown, tr};
use beatwalk::analysis::Standing;
use beatwalk::chart::{CSS_PX_PER_MM, Frame, Viewport};
use beatwalk::lesson::aside_words;
use beatwalk::signal::{Seconds, VoltageUnit};
use beatwalk::words::{decimal, say, say_with};
use leptos::ev::KeyboardEvent;
use leptos::html::Div;
use leptos::prelude::*;

/// How much of the view one press of an arrow moves.
const PAN_STEP: f64 = 0.2;

/// The second screen.
#[component]
pub fn SeeScreen() -> impl IntoView {
    let app = App::here();
    let tools = Tools::of(app);
    view! {
        <h1 class="hidden-visually">{tr("page.screen.see")}</h1>
        <div class="see">
            <TracePane tools=tools />
            <aside class="see__facts">
                <Later>
                    <SignalPicker />
                    <BeatFacts />
                    <BeatsCard tools=tools />
                    <section class="card">
                        <h2>{tr("page.see.signal")}</h2>
                        <FindingsList />
                        <TurnOver />
                    </section>
                    <CleaningCard />
                </Later>
                <Later>
                    <Show when=move || app.help().verdicts>
                        <RhythmCard />
                    </Show>
                    <ScaleCard />
                    <FileFacts tools=tools />
                </Later>
            </aside>
        </div>
    }
}

#[component]
fn TracePane(tools: Tools) -> impl IntoView {
    let app = App::here();
    let beat = RwSignal::new(None::<usize>);
    let frame = NodeRef::<Div>::new();
    let overlay = Signal::derive(move || Overlay {
        cursor: if tools.beats.get() {
            tools.hand.line()
        } else if tools.note.get() {
            middle_of_view(app)
        } else {
            let beat = beat.get();
            app.standing.with(|reading| Some(reading.as_ref()?.beats.get(beat?)?.r))
        },
        measured: tools.calipers.legs.get().and_then(|legs| Some((legs, span_label(app, legs)?))),
        ..Overlay::default()
    });
    let with_shown = move |act: &dyn Fn(&Shown)| {
        if let Some(shown) = app.shown.get_untracked() {
            act(&shown);
        }
    };
    let step = move |by: isize| {
        if tools.beats.get_untracked() {
            tools.hand.step(by);
        } else {
            with_shown(&|shown| step_beat(app, shown, beat, by));
        }
    };
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
        if tools.beats.get_untracked() && correct_key(tools, &event) {
            event.prevent_default();
            return;
        }
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
    let told = move || {
        let beat = beat.get().filter(|_| !tools.beats.get());
        beat.map(|beat| tell_beat(app, beat))
    };
    let chart_name = move || if tools.beats.get() { "beats.tool.chart" } else { "page.see.chart" };
    let keys = move || if tools.beats.get() { "beats.tool.keys" } else { "page.see.keys" };
    let say_now = move |key: &str| say(app.language.get(), key).into_owned();
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
                <button
                    class="button"
                    aria-expanded=move || tools.calipers.legs.read().is_some().to_string()
                    on:click=move |_| tools.toggle_calipers()
                >
                    {tr("by_hand.open")}
                </button>
                <span class="button-row button-row--together">
                    <button class="button" aria-label=tr("page.see.beat_before") on:click=move |_| step(-1)>
                        "◀"
                    </button>
                    <span>{tr("page.see.beat")}</span>
                    <button class="button" aria-label=tr("page.see.beat_after") on:click=move |_| step(1)>
                        "▶"
                    </button>
                </span>
                <span role="status">{live(told)}</span>
            </div>
            <div
                class="chart see__chart"
                node_ref=frame
                tabindex="0"
                role="application"
                aria-roledescription=tr("page.see.chart_role")
                aria-label=move || say_now(chart_name())
                aria-describedby="chart-summary trace-keys"
                on:keydown=on_key
            >
                <TraceView viewport=app.view overlay=overlay grab=tools.grab() />
            </div>
            <div class="chart see__overview">
                <Show
                    when=move || tools.part.read().is_some()
                    fallback=move || view! { <Overview viewport=app.view /> }
                >
                    <PartStrip draft=tools.part />
                </Show>
            </div>
            <ToolTray tools=tools />
            <p id="trace-keys" class="soft" hidden=move || tools.in_use() && !tools.beats.get()>
                {move || say_now(keys())}
            </p>
        </section>
    }
}

/// Does what a key means while beats are corrected; whether it meant anything.
fn correct_key(tools: Tools, event: &KeyboardEvent) -> bool {
    let done = tools.hand.key(event);
    if !done && event.key() == "Escape" {
        tools.put_away();
        return true;
    }
    done
}

/// Goes to the next beat, or the one before, and brings it into view.
fn step_beat(app: App, shown: &Shown, beat: RwSignal<Option<usize>>, by: isize) {
    let Some(reading) = app.standing.get_untracked() else { return };
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
    let (Some(shown), Some(reading)) = (app.shown.get(), app.standing.get()) else {
        return String::new();
    };
    let Some(found) = reading.beats.get(beat) else { return String::new() };
    let rate = shown.recording.rate;
    let language = app.language.get();
    let time = decimal(language, rate.time_of(found.r).seconds(), 2);
    let number = (beat + 1).to_string();
    let count = reading.beats.len().to_string();
    let mut told = say_with(
        language,
        "page.see.tell_beat",
        &[("beat", &number), ("beats", &count), ("time", &time)],
    );
    if let Some(before) = beat.checked_sub(1).and_then(|before| reading.beats.get(before)) {
        let rr = decimal(language, found.r.minus(before.r) as f64 * 1000.0 / rate.hz(), 0);
        told.push_str(&say_with(language, "page.see.tell_interval", &[("rr", &rr)]));
    }
    if let Standing::SetAside(why) = found.standing {
        let why = aside_words(why, language);
        told.push_str(&say_with(language, "beats.aside.told", &[("why", &why)]));
    }
    told
}
