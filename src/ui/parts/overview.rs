//! The whole trace as a strip, with the part in view picked out.

use super::chart::{Chart, Drawing};
use super::trace_view::{bare_scene, capture, look, note_marks};
use crate::ui::browser::CanvasSize;
use crate::ui::state::{App, Shown};
use beatwalk::chart::{Shade, Tone, TraceScene, Viewport, draw_overview};
use beatwalk::signal::Seconds;
use leptos::html::Canvas;
use leptos::prelude::*;
use web_sys::PointerEvent;

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
        let notes = note_marks(app, &shown);
        let scene =
            TraceScene { shades: &shades, notes: &notes, ..bare_scene(&shown, whole(&shown)) };
        let _ = draw_overview(drawing, &scene, &look(app, size, None));
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
