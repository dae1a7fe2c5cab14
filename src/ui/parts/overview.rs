//! The whole trace as a strip, with the part in view picked out.
//!
//! What picks it out lies over the strip: the strip is drawn once, not with each pixel of a drag.

use super::chart::{Chart, Drawing};
use super::trace_view::{bare_scene, capture, look, note_marks};
use crate::ui::browser::CanvasSize;
use crate::ui::state::{App, Shown};
use beatwalk::chart::{TraceScene, Viewport, draw_overview};
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
        let Some(shown) = app.shown.get() else { return };
        let notes = note_marks(app, &shown);
        let scene = TraceScene { notes: &notes, ..bare_scene(&shown, whole(&shown)) };
        let _ = draw_overview(drawing, &scene, &look(app, size, None));
    };
    // Where the part in view begins and ends, in per cent of the strip.
    let seen = move |of: fn(&Viewport) -> Seconds| {
        let part = app.shown.with(|shown| {
            Some(of(&viewport.get()?).seconds() / shown.as_ref()?.bounds.duration.seconds())
        });
        format!("{:.3}%", 100.0 * part.unwrap_or_default().clamp(0.0, 1.0))
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
        <div
            class="see__seen"
            style:--from=move || seen(|view| view.start)
            style:--to=move || seen(Viewport::end)
        ></div>
    }
}
