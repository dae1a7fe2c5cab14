//! A trace that can be moved and zoomed by mouse, touch and wheel, and pointed at where that is wanted.

use super::chart::{Chart, Drawing};
use super::gesture::{Gesture, Pointers, wheeled};
use crate::ui::browser::CanvasSize;
use crate::ui::state::{App, Shown};
use beatwalk::analysis::{FindingKind, Severity};
use beatwalk::chart::{
    BeatMark, CSS_PX_PER_MM, Frame, Look, NoteMark, PointMark, Projection, Shade, Tone, TraceScene,
    Viewport, draw_trace, summary,
};
use beatwalk::lesson::{FindingWords, Grip};
use beatwalk::signal::{MarkKind, SampleIndex, SampleSpan, Seconds};
use leptos::ev;
use leptos::html::Canvas;
use leptos::prelude::*;
use std::sync::Arc;
use web_sys::{Element, PointerEvent, WheelEvent};

/// Within so many CSS pixels of something a finger means it: half of what is easily hit.
const FINGER: f64 = 22.0;
/// A pointer that has moved less than this many CSS pixels has tapped.
const SLOP: f64 = 5.0;

/// What lies on the trace besides the trace.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Overlay {
    /// Points of the cycle.
    pub points: Vec<PointMark>,
    /// Where the cursor stands.
    pub cursor: Option<SampleIndex>,
}

/// What a pointer can take hold of on the trace. A drag of nothing moves the trace.
#[derive(Clone, Copy)]
pub struct Grab {
    /// A pointer comes down at a sample, and so many samples around are under it: whether it takes hold.
    pub take: Callback<(SampleIndex, usize), bool>,
    /// What was taken is dragged to a sample.
    pub drag: Callback<SampleIndex>,
    /// A sample is tapped where there was nothing to take.
    pub tap: Callback<SampleIndex>,
}

/// A pointer that is down.
#[derive(Clone, Copy)]
struct Press {
    at: (f64, f64),
    holds: bool,
    moved: bool,
}

/// The trace that is worked on, in a viewport of its own.
#[component]
pub fn TraceView(
    /// What is in view; moves change it.
    viewport: RwSignal<Option<Viewport>>,
    /// What lies on the trace.
    #[prop(into)]
    overlay: Signal<Overlay>,
    /// Hears the sample that is tapped (a fresh grip) or dragged to (held); without it, dragging
    /// moves the trace.
    #[prop(optional)]
    on_point: Option<Callback<(SampleIndex, Grip)>>,
    /// What can be taken hold of.
    #[prop(optional)]
    grab: Option<Grab>,
) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    let pointers = StoredValue::new_local(Pointers::default());

    let marks = Memo::new(move |_| {
        app.standing.with(|reading| {
            reading.as_ref().map(|reading| beat_marks(&reading.beats)).unwrap_or_default()
        })
    });
    let flawed = Memo::new(move |_| flawed_stretches(app));

    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let (Some(shown), Some(viewport)) = (app.shown.get(), viewport.get()) else { return };
        let (overlay, marks, flawed) = (overlay.read(), marks.read(), flawed.read());
        let shades: Vec<Shade<'_>> = flawed
            .iter()
            .map(|(span, tone, word)| Shade { span: *span, tone: *tone, label: word })
            .collect();
        let notes = note_marks(&shown);
        let scene = TraceScene {
            beats: &marks,
            points: &overlay.points,
            notes: &notes,
            shades: &shades,
            cursor: overlay.cursor,
            ..bare_scene(&shown, viewport)
        };
        // The canvas never refuses to draw; if it did, the table beside it still tells everything.
        let _ = draw_trace(drawing, &scene, &look(app, size, Some(CSS_PX_PER_MM)));
    };

    // Where things are on the canvas right now, for the pointer.
    let place = move || -> Option<(Arc<Shown>, Projection)> {
        let element = canvas.get_untracked()?;
        let shown = app.shown.get_untracked()?;
        let frame = Frame::of_trace(
            element.client_width().into(),
            element.client_height().into(),
            untrack(|| app.palette()),
        );
        Some((shown, Projection::new(viewport.get_untracked()?, frame)))
    };
    // The sample under the pointer, and how many samples around are under a finger.
    let under = move |x: f64| {
        let (shown, projection) = place()?;
        let (rate, samples) = (shown.recording.rate, shown.recording.samples.len());
        let reach = FINGER / projection.px_per_second() * rate.hz();
        Some((projection.sample_at(x, rate, samples)?, reach as usize))
    };
    let point = move |x: f64, grip: Grip| {
        if let (Some(on_point), Some((sample, _))) = (on_point, under(x)) {
            on_point.run((sample, grip));
        }
    };
    let press = StoredValue::new_local(None::<Press>);
    let dragged = move |to: (f64, f64)| -> bool {
        let Some(mut now) = press.get_value() else { return false };
        now.moved = now.moved || (to.0 - now.at.0).hypot(to.1 - now.at.1) > SLOP;
        press.set_value(Some(now));
        if now.holds
            && now.moved
            && let (Some(grab), Some((sample, _))) = (grab, under(to.0))
        {
            grab.drag.run(sample);
        }
        now.holds
    };

    let on_down = move |event: PointerEvent| {
        capture(&event);
        pointers.update_value(|pointers| pointers.down(&event));
        let at = (f64::from(event.offset_x()), f64::from(event.offset_y()));
        if let Some(grab) = grab {
            let first = press.with_value(Option::is_none);
            let holds = first && under(at.0).is_some_and(|under| grab.take.run(under));
            // Of two fingers neither taps nor drags.
            press.set_value(Some(Press { at, holds, moved: !first }));
        }
        point(at.0, Grip::Fresh);
    };
    let on_move = move |event: PointerEvent| {
        let gesture = pointers.try_update_value(|pointers| pointers.moved(&event)).flatten();
        match (gesture, place()) {
            (Some(Gesture::Drag { to, .. }), _) if on_point.is_some() => point(to.0, Grip::Held),
            (Some(Gesture::Drag { to, .. }), _) if dragged(to) => {}
            (Some(gesture), Some((shown, projection))) => {
                viewport.set(Some(gesture.applied(&projection, &shown.bounds)));
            }
            _ => {}
        }
    };
    let on_lost = move |event: PointerEvent| {
        pointers.update_value(|pointers| pointers.up(&event));
        press.set_value(None);
    };
    let on_up = move |event: PointerEvent| {
        if let (Some(grab), Some(Press { at, holds: false, moved: false })) =
            (grab, press.get_value())
            && let Some((sample, _)) = under(at.0)
        {
            grab.tap.run(sample);
        }
        on_lost(event);
    };
    let on_wheel = move |event: WheelEvent| {
        if let Some((shown, projection)) = place() {
            event.prevent_default();
            viewport.set(Some(wheeled(&event, &projection, &shown.bounds)));
        }
    };

    // Described to screen readers, who ask for it: it is not announced with each pixel of a drag.
    let told = move || {
        let (shown, viewport) = (app.shown.get()?, viewport.get()?);
        let marks = marks.read();
        let overlay = overlay.read();
        let notes = note_marks(&shown);
        let scene = TraceScene {
            beats: &marks,
            points: &overlay.points,
            notes: &notes,
            ..bare_scene(&shown, viewport)
        };
        Some(summary(&scene, app.language.get()))
    };

    view! {
        <Chart
            canvas=canvas
            draw=draw
            on:pointerdown=on_down
            on:pointermove=on_move
            on:pointerup=on_up
            on:pointercancel=on_lost
            on:wheel=on_wheel
        />
        <p class="hidden-visually" id="chart-summary">{told}</p>
    }
}

pub(super) fn look(app: App, size: CanvasSize, px_per_mm: Option<f64>) -> Look<'static> {
    Look { palette: app.palette(), scale: size.scale, px_per_mm, language: app.language.get() }
}

pub(super) fn bare_scene(shown: &Shown, viewport: Viewport) -> TraceScene<'_> {
    TraceScene {
        beneath: shown.uncleaned.as_ref().map(|uncleaned| &*uncleaned.envelope),
        unit: shown.recording.unit,
        holes: &shown.recording.holes,
        ..TraceScene::bare(&shown.envelope, shown.recording.rate, viewport)
    }
}

/// The notes on a trace, those of the file and those by hand.
pub(super) fn note_marks(shown: &Shown) -> Vec<NoteMark<'_>> {
    let marks = shown.recording.marks.iter().filter(|mark| mark.kind == MarkKind::Note);
    marks.map(|mark| NoteMark { at: mark.at, text: &mark.text }).collect()
}

fn beat_marks(beats: &[beatwalk::analysis::Beat]) -> Vec<BeatMark> {
    beats
        .iter()
        .enumerate()
        .map(|(place, beat)| BeatMark {
            number: place + 1,
            at: beat.r,
            origin: beat.origin,
            standing: beat.standing,
        })
        .collect()
}

/// The stretches where something is wrong, with a word each. Tops that are cut off are many and narrow:
/// they are shaded, and the list beside the trace says what they are.
fn flawed_stretches(app: App) -> Vec<(SampleSpan, Tone, String)> {
    let language = app.language.get();
    let stretches = app.with_evidence(|evidence| {
        let rate = evidence.recording.rate;
        let findings = evidence.reading.findings.iter();
        findings
            .flat_map(|finding| {
                let word = match finding.kind {
                    FindingKind::Clipped => String::new(),
                    _ => FindingWords::of(finding, rate, language).word,
                };
                let tone = match finding.severity {
                    Severity::Unusable => Tone::Unusable,
                    Severity::Limits | Severity::Remark => Tone::Doubtful,
                };
                finding.spans.iter().map(move |span| (*span, tone, word.clone()))
            })
            .collect()
    });
    stretches.unwrap_or_default()
}

/// Keeps hearing a pointer when it leaves the canvas during a drag.
pub(super) fn capture(event: &PointerEvent) {
    let target = event.current_target().or_else(|| event.target());
    if let Some(element) =
        target.and_then(|target| wasm_bindgen::JsCast::dyn_into::<Element>(target).ok())
    {
        let _ = element.set_pointer_capture(event.pointer_id());
    }
}

/// Keys that zoom: `+`, `-` and `0`. True when the key was one of them.
pub fn zoom_key(
    event: &ev::KeyboardEvent,
    viewport: RwSignal<Option<Viewport>>,
    shown: &Shown,
) -> bool {
    let key = event.key();
    let factor = match key.as_str() {
        "+" | "=" => 0.8,
        "-" => 1.25,
        "0" => {
            viewport.set(Some(Viewport::fit(&shown.envelope, shown.recording.rate)));
            return true;
        }
        _ => return false,
    };
    zoom_middle(viewport, shown, factor, 1.0);
    true
}

/// Zooms about the middle of the view.
pub fn zoom_middle(viewport: RwSignal<Option<Viewport>>, shown: &Shown, time: f64, value: f64) {
    viewport.update(|view| {
        *view = view.map(|view| {
            let middle = Seconds::new(view.start.seconds() + view.span.seconds() / 2.0);
            view.zoomed((middle, view.middle), time, value, &shown.bounds)
        });
    });
}
