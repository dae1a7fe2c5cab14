//! The strip with the whole recording and a handle at each end of the part, and the ends as numbers.

use super::chart::{Chart, Drawing};
use super::tools::Tools;
use super::trace_view::{bare_scene, look};
use crate::ui::browser::CanvasSize;
use crate::ui::state::{App, Shown, tr};
use beatwalk::chart::{Shade, Tone, TraceScene, Viewport, draw_overview};
use beatwalk::signal::{SampleRate, SampleSpan, Seconds};
use beatwalk::words::{decimal, say_with, typed};
use leptos::html::Canvas;
use leptos::prelude::*;

/// The shortest part: about one beat.
const SHORTEST: Seconds = Seconds::new(1.0);

/// An end of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Where it begins.
    Start,
    /// Where it ends.
    Finish,
}

/// The recording as opened, while its part is being chosen.
#[derive(Clone, Copy)]
pub struct Whole {
    rate: SampleRate,
    samples: usize,
}

impl Whole {
    /// The recording that is open, if any.
    pub fn of(app: App) -> Option<Self> {
        app.raw.with(|raw| {
            let recording = &raw.as_ref()?.recording;
            Some(Self { rate: recording.rate, samples: recording.samples.len() })
        })
    }

    /// All of it.
    pub fn span(self) -> SampleSpan {
        SampleSpan::new(0, self.samples)
    }

    fn with_end(self, part: SampleSpan, end: End, seconds: f64) -> SampleSpan {
        let at = self.rate.nearest(Seconds::new(seconds)).get();
        let shortest = self.rate.count(SHORTEST).max(1);
        match end {
            End::Start => part.with_start(at, shortest),
            End::Finish => part.with_end(at, shortest, self.samples),
        }
    }

    /// When a part begins or ends.
    pub fn seconds(self, part: SampleSpan, end: End) -> f64 {
        let at = if end == End::Start { part.start() } else { part.end() };
        self.rate.time_of(at).seconds()
    }

    /// How long all of it is, s.
    pub fn duration(self) -> f64 {
        self.samples as f64 / self.rate.hz()
    }
}

/// The ends as numbers, and what to do with the part.
#[component]
pub fn PartFields(tools: Tools) -> impl IntoView {
    let app = App::here();
    let finish = move |_| {
        let chosen = tools.part.get_untracked();
        tools.put_away();
        app.use_part(chosen);
    };
    view! {
        <p class="soft">{tr("page.part.how")}</p>
        <div class="button-row button-row--fields">
            <EndField draft=tools.part end=End::Start />
            <EndField draft=tools.part end=End::Finish />
            <button class="button button--main" on:click=finish>
                {tr("page.part.go")}
            </button>
            <button class="button" on:click=move |_| tools.put_away()>
                {tr("page.part.leave")}
            </button>
        </div>
    }
}

#[component]
fn EndField(draft: RwSignal<Option<SampleSpan>>, end: End) -> impl IntoView {
    let app = App::here();
    let value = move || {
        let seconds = Whole::of(app)?.seconds(draft.get()?, end);
        Some(decimal(app.language.get(), seconds, 2))
    };
    let label = if end == End::Start { "page.part.from" } else { "page.part.to" };
    let change = move |event: web_sys::Event| {
        if let Some(seconds) = typed(&event_target_value(&event)) {
            move_end(app, draft, end, seconds);
        }
    };
    view! {
        <label class="field field--short">
            {tr(label)}
            <input
                type="text"
                inputmode="decimal"
                autocomplete="off"
                prop:value=move || value().unwrap_or_default()
                on:change=change
            />
        </label>
    }
}

fn move_end(app: App, draft: RwSignal<Option<SampleSpan>>, end: End, seconds: f64) {
    if let Some(whole) = untrack(|| Whole::of(app)) {
        draft.update(|draft| {
            *draft = draft.map(|part| whole.with_end(part, end, seconds));
        });
    }
}

/// The whole recording as a strip with a handle at each end of the part.
#[component]
pub fn PartStrip(
    /// The part that is being chosen.
    draft: RwSignal<Option<SampleSpan>>,
) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    // The strip is there only while a part is chosen, and nothing else changes the recording then.
    let shown = StoredValue::new_local(untrack(|| {
        let raw = app.raw.get()?;
        let mut settings = app.work.with(|work| work.settings.clone());
        settings.part = None;
        Some(Shown::new(0, settings.prepare(&raw.recording).into()))
    }));
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let Some(part) = draft.get() else { return };
        shown.with_value(|shown| {
            let Some(shown) = shown else { return };
            let shades = [Shade { span: part, tone: Tone::Chosen, label: "" }];
            let whole = Viewport::fit(&shown.envelope, shown.recording.rate);
            let scene = TraceScene { shades: &shades, ..bare_scene(shown, whole) };
            let _ = draw_overview(drawing, &scene, &look(app, size, None));
        });
    };
    view! {
        <Chart canvas=canvas draw=draw attr:aria-hidden="true" />
        <Handle draft=draft end=End::Start />
        <Handle draft=draft end=End::Finish />
    }
}

/// A handle over the strip: a slider of the browser's, for fingers, keys and screen readers alike.
#[component]
fn Handle(draft: RwSignal<Option<SampleSpan>>, end: End) -> impl IntoView {
    let app = App::here();
    let whole = move || Whole::of(app);
    let seconds = move || Some(whole()?.seconds(draft.get()?, end));
    let duration = move || whole().map_or(0.0, Whole::duration);
    // With both handles at the right, the left one has to be within reach.
    let on_top = move || end == End::Start && seconds().unwrap_or(0.0) > duration() / 2.0;
    let label = if end == End::Start { "page.part.start" } else { "page.part.end" };
    let told = move || {
        let language = app.language.get();
        let seconds = decimal(language, seconds().unwrap_or(0.0), 2);
        say_with(language, "page.part.told", &[("seconds", &seconds)])
    };
    let slide = move |event: web_sys::Event| {
        let to = event_target_value(&event).parse().ok();
        if let Some(to) = to {
            move_end(app, draft, end, to);
        }
    };
    view! {
        <input
            type="range"
            class="part__handle"
            class:part__handle--top=on_top
            min="0"
            max=move || duration().to_string()
            step=move || (duration() / 1000.0).to_string()
            aria-label=tr(label)
            aria-valuetext=told
            prop:value=move || seconds().unwrap_or(0.0).to_string()
            on:input=slide
        />
    }
}
