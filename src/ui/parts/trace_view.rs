//! A trace that can be moved and zoomed by mouse, touch and wheel, and pointed at where that is wanted.

use super::chart::{Chart, Drawing};
use super::gesture::{Gesture, Pointers, wheeled};
use super::grab::{FINGER, Grab, Holding};
use crate::ui::browser::CanvasSize;
use crate::ui::reactive::follow_gathered;
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

/// What lies on the trace besides the trace.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Overlay {
    /// Points of the cycle.
    pub points: Vec<PointMark>,
    /// Where the cursor stands.
    pub cursor: Option<SampleIndex>,
    /// A stretch that is being measured, with its words.
    pub measured: Option<(SampleSpan, String)>,
    /// Leaves the marks of the beats away: they stand over R and would give it away.
    pub hides_beats: bool,
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

    let marks = shown_marks(app, overlay);
    let flawed = Memo::new(move |_| flawed_stretches(app));

    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let (Some(shown), Some(viewport)) = (app.shown.get(), viewport.get()) else { return };
        let (overlay, marks, flawed) = (overlay.read(), marks.read(), flawed.read());
        let shades: Vec<Shade<'_>> = flawed
            .iter()
            .map(|(span, tone, word)| Shade { span: *span, tone: *tone, label: word })
            .chain(overlay.measured.iter().map(|(span, words)| Shade {
                span: *span,
                tone: Tone::Chosen,
                label: words,
            }))
            .collect();
        let notes = note_marks(app, &shown);
        let scene = TraceScene {
            beats: &marks,
            points: &overlay.points,
            notes: &notes,
            shades: &shades,
            cursor: overlay.cursor,
            hurries: size.hurries,
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
    let holding = Holding::of(grab);

    let on_down = move |event: PointerEvent| {
        capture(&event);
        pointers.update_value(|pointers| pointers.down(&event));
        let at = (f64::from(event.offset_x()), f64::from(event.offset_y()));
        holding.down(at, under(at.0));
        point(at.0, Grip::Fresh);
    };
    let on_move = move |event: PointerEvent| {
        let gesture = pointers.try_update_value(|pointers| pointers.moved(&event)).flatten();
        match (gesture, place()) {
            (Some(Gesture::Drag { to, .. }), _) if on_point.is_some() => point(to.0, Grip::Held),
            (Some(Gesture::Drag { to, .. }), _) if holding.dragged(to, under(to.0)) => {}
            (Some(gesture), Some((shown, projection))) => {
                viewport.set(Some(gesture.applied(&projection, &shown.bounds)));
            }
            _ => {}
        }
    };
    let on_up = move |event: PointerEvent| {
        pointers.update_value(|pointers| pointers.up(&event));
        holding.up(under(event.offset_x().into()));
    };
    let on_lost = move |event: PointerEvent| {
        pointers.update_value(|pointers| pointers.up(&event));
        holding.lost();
    };
    let on_wheel = move |event: WheelEvent| {
        if let Some((shown, projection)) = place() {
            event.prevent_default();
            viewport.set(Some(wheeled(&event, &projection, &shown.bounds)));
        }
    };

    let told = told(app, viewport, marks, overlay);

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

/// What is drawn, for screen readers, who ask for it: it is not announced, nor written with each pixel of a drag.
fn told(
    app: App,
    viewport: RwSignal<Option<Viewport>>,
    marks: Memo<Vec<BeatMark>>,
    overlay: Signal<Overlay>,
) -> RwSignal<String> {
    let told = RwSignal::new(String::new());
    let changed = move || {
        app.language.track();
        marks.track();
        overlay.track();
        app.shown.with(Option::is_some) && viewport.get().is_some()
    };
    let tell = move || {
        let (shown, viewport) = (app.shown.get()?, viewport.get()?);
        let (beats, overlay, notes) = (marks.read(), overlay.read(), note_marks(app, &shown));
        let bare = bare_scene(&shown, viewport);
        let scene = TraceScene { beats: &beats, points: &overlay.points, notes: &notes, ..bare };
        Some(summary(&scene, app.language.get()))
    };
    follow_gathered(changed, move || {
        // The trace may have left the screen meanwhile.
        if !told.is_disposed() {
            told.set(untrack(tell).unwrap_or_default());
        }
    });
    told
}

/// How a chart is drawn on the screen.
pub fn look(app: App, size: CanvasSize, px_per_mm: Option<f64>) -> Look<'static> {
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
pub(super) fn note_marks(app: App, shown: &Shown) -> Vec<NoteMark<'_>> {
    let marks = shown.recording.marks.iter().filter(|mark| mark.kind == MarkKind::Note);
    marks.map(|mark| NoteMark { at: mark.at, text: app.note_text(mark) }).collect()
}

/// The marks of the beats; none where they would give an answer away.
fn shown_marks(app: App, overlay: Signal<Overlay>) -> Memo<Vec<BeatMark>> {
    Memo::new(move |_| {
        if overlay.with(|overlay| overlay.hides_beats) {
            return Vec::new();
        }
        app.standing.with(|reading| {
            reading.as_ref().map(|reading| beat_marks(&reading.beats)).unwrap_or_default()
        })
    })
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
