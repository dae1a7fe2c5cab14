//! A trace that can be moved and zoomed by mouse, touch and wheel, and pointed at where that is wanted.

use super::chart::{Chart, Drawing};
use super::gesture::{Gesture, Pointers};
use crate::ui::browser::CanvasSize;
use crate::ui::state::{App, Shown};
use beatwalk::chart::{
    BeatMark, CSS_PX_PER_MM, Frame, Look, PointMark, Projection, Shade, Tone, TraceScene, Viewport,
    draw_overview, draw_trace, summary,
};
use beatwalk::lesson::Grip;
use beatwalk::signal::{SampleIndex, SampleSpan, Seconds};
use leptos::ev;
use leptos::html::Canvas;
use leptos::prelude::*;
use std::sync::Arc;
use web_sys::{Element, PointerEvent, WheelEvent};

/// How much one notch of a wheel zooms.
const WHEEL_ZOOM: f64 = 0.0015;

/// What lies on the trace besides the trace.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Overlay {
    /// Points of the cycle.
    pub points: Vec<PointMark>,
    /// Where the cursor stands.
    pub cursor: Option<SampleIndex>,
    /// A stretch that is picked out.
    pub chosen: Option<SampleSpan>,
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
) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    let pointers = StoredValue::new_local(Pointers::default());

    let marks = Memo::new(move |_| {
        app.reading.with(|reading| {
            reading.as_ref().map(|reading| beat_marks(&reading.beats)).unwrap_or_default()
        })
    });
    let bad = Memo::new(move |_| unusable_stretches(app));

    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let (Some(shown), Some(viewport)) = (app.shown.get(), viewport.get()) else { return };
        let overlay = overlay.read();
        let marks = marks.read();
        let bad = bad.read();
        let mut shades: Vec<Shade<'_>> = bad
            .iter()
            .map(|(span, word)| Shade { span: *span, tone: Tone::Unusable, label: word })
            .collect();
        shades.extend(overlay.chosen.map(|span| Shade { span, tone: Tone::Chosen, label: "" }));
        let scene = TraceScene {
            beats: &marks,
            points: &overlay.points,
            shades: &shades,
            cursor: overlay.cursor,
            ..bare_scene(&shown, viewport)
        };
        let look = Look {
            palette: app.palette(),
            scale: size.scale,
            px_per_mm: Some(CSS_PX_PER_MM),
            language: app.language.get(),
        };
        // The canvas never refuses to draw; if it did, the table beside it still tells everything.
        let _ = draw_trace(drawing, &scene, &look);
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
    let point = move |x: f64, grip: Grip| {
        if let (Some(on_point), Some((shown, projection))) = (on_point, place())
            && let Some(sample) =
                projection.sample_at(x, shown.recording.rate, shown.recording.samples.len())
        {
            on_point.run((sample, grip));
        }
    };

    let on_down = move |event: PointerEvent| {
        capture(&event);
        pointers.update_value(|pointers| pointers.down(&event));
        point(event.offset_x().into(), Grip::Fresh);
    };
    let on_move = move |event: PointerEvent| {
        let gesture = pointers.try_update_value(|pointers| pointers.moved(&event)).flatten();
        let (Some(gesture), Some((shown, projection))) = (gesture, place()) else { return };
        let (time, value) = (|x| projection.time(x), |y| projection.value(y));
        match gesture {
            Gesture::Drag { to, .. } if on_point.is_some() => point(to.0, Grip::Held),
            Gesture::Drag { from, to } => viewport.update(|view| {
                *view = view.map(|view| {
                    view.panned(
                        time(from.0) - time(to.0),
                        value(from.1) - value(to.1),
                        &shown.bounds,
                    )
                });
            }),
            Gesture::Pinch { about, factor } => viewport.update(|view| {
                *view = view.map(|view| {
                    view.zoomed((time(about.0), value(about.1)), factor, 1.0, &shown.bounds)
                });
            }),
        }
    };
    let on_up = move |event: PointerEvent| pointers.update_value(|pointers| pointers.up(&event));
    let on_wheel = move |event: WheelEvent| {
        let Some((shown, projection)) = place() else { return };
        event.prevent_default();
        let sideways = event.delta_x().abs() > event.delta_y().abs() || event.shift_key();
        let delta = if event.delta_x().abs() > event.delta_y().abs() {
            event.delta_x()
        } else {
            event.delta_y()
        };
        viewport.update(|view| {
            *view = view.map(|view| {
                if sideways {
                    let later = Seconds::new(delta / projection.px_per_second());
                    view.panned(later, 0.0, &shown.bounds)
                } else {
                    let about = (
                        projection.time(event.offset_x().into()),
                        projection.value(event.offset_y().into()),
                    );
                    view.zoomed(about, (delta * WHEEL_ZOOM).exp(), 1.0, &shown.bounds)
                }
            });
        });
    };

    // Told to screen readers; not with each pixel of a drag, so it follows the viewport a while later.
    let told = move || {
        let (shown, viewport) = (app.shown.get()?, viewport.get()?);
        let marks = marks.read();
        let overlay = overlay.read();
        let scene =
            TraceScene { beats: &marks, points: &overlay.points, ..bare_scene(&shown, viewport) };
        Some(summary(&scene, app.language.get()))
    };

    view! {
        <Chart
            canvas=canvas
            draw=draw
            on:pointerdown=on_down
            on:pointermove=on_move
            on:pointerup=on_up
            on:pointercancel=on_up
            on:wheel=on_wheel
        />
        <p class="hidden-visually" id="chart-summary">{told}</p>
    }
}

/// The whole trace, small, with the part in view picked out; a tap or drag moves that part.
#[component]
pub fn Overview(
    /// What is in view elsewhere.
    viewport: RwSignal<Option<Viewport>>,
) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    let whole = move |shown: &Shown| Viewport::fit(&shown.envelope, shown.recording.rate);

    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let (Some(shown), Some(view)) = (app.shown.get(), viewport.get()) else { return };
        let rate = shown.recording.rate;
        let span = view.samples(rate, shown.recording.samples.len());
        let shades = [Shade { span, tone: Tone::Chosen, label: "" }];
        let scene = TraceScene { shades: &shades, ..bare_scene(&shown, whole(&shown)) };
        let look = Look {
            palette: app.palette(),
            scale: size.scale,
            px_per_mm: None,
            language: app.language.get(),
        };
        let _ = draw_overview(drawing, &scene, &look);
    };
    let go = move |event: PointerEvent| {
        let (Some(element), Some(shown)) = (canvas.get_untracked(), app.shown.get_untracked())
        else {
            return;
        };
        let part = f64::from(event.offset_x()) / f64::from(element.client_width().max(1));
        let moment = Seconds::new(part * shown.bounds.duration.seconds());
        viewport.update(|view| *view = view.map(|view| view.centred(moment, &shown.bounds)));
    };
    view! {
        <Chart
            canvas=canvas
            draw=draw
            attr:aria-hidden="true"
            on:pointerdown=move |event: PointerEvent| {
                capture(&event);
                go(event);
            }
            on:pointermove=move |event: PointerEvent| {
                if event.buttons() != 0 {
                    go(event);
                }
            }
        />
    }
}

fn bare_scene(shown: &Shown, viewport: Viewport) -> TraceScene<'_> {
    TraceScene {
        envelope: &shown.envelope,
        beneath: None,
        rate: shown.recording.rate,
        unit: shown.recording.unit,
        holes: &shown.recording.holes,
        viewport,
        beats: &[],
        points: &[],
        shades: &[],
        cursor: None,
    }
}

fn beat_marks(beats: &[beatwalk::analysis::Beat]) -> Vec<BeatMark> {
    beats
        .iter()
        .enumerate()
        .map(|(place, beat)| BeatMark { number: place + 1, at: beat.r, standing: beat.standing })
        .collect()
}

/// The stretches that can't be used, each with a word.
fn unusable_stretches(app: App) -> Vec<(SampleSpan, String)> {
    use beatwalk::analysis::Severity;
    app.reading.with(|reading| {
        let findings = reading.iter().flat_map(|reading| &reading.findings);
        findings
            .filter(|finding| finding.severity == Severity::Unusable)
            .flat_map(|finding| {
                let word = crate::ui::parts::finding_word(finding.kind, app.language.get());
                finding.spans.iter().map(move |span| (*span, word.clone()))
            })
            .collect()
    })
}

/// Keeps hearing a pointer when it leaves the canvas during a drag.
fn capture(event: &PointerEvent) {
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
