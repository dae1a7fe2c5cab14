//! A canvas that plotters draws on: sharp on any screen, redrawn when what it shows changes.

use crate::ui::browser::{CanvasSize, observe_size, since_start};
use crate::ui::reactive::follow;
use beatwalk::chart::{Pace, REST};
use leptos::html::Canvas;
use leptos::prelude::*;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters_canvas::CanvasBackend;
use std::time::Duration;

/// Where a chart is drawn.
pub type Drawing = DrawingArea<CanvasBackend, Shift>;

/// A canvas and what is drawn on it. Pointer and keys are the business of whoever puts it in place.
#[component]
pub fn Chart(
    /// Names the canvas, so that the parent can listen to it.
    canvas: NodeRef<Canvas>,
    /// Draws; every signal that it reads makes it draw again.
    draw: impl Fn(&Drawing, CanvasSize) + 'static,
) -> impl IntoView {
    let size = observe_size(canvas);
    let pace = StoredValue::new_local(Pace::default());
    let rested = Trigger::new();
    follow(move || {
        rested.track();
        let size = size.get();
        let Some(element) = canvas.get() else { return };
        let is_coarse = pace.try_update_value(|pace| pace.draw(since_start())) == Some(true);
        let size = if is_coarse { size.coarse() } else { size };
        if size.fit(&element)
            && let Some(backend) = CanvasBackend::with_canvas_object(element)
        {
            draw(&backend.into_drawing_area(), size);
        }
        if is_coarse {
            once_at_rest(pace, rested);
        } else {
            time_frame(pace);
        }
    });
    view! { <canvas node_ref=canvas></canvas> }
}

/// Tells when nothing was drawn for a while, unless something was drawn meanwhile.
fn once_at_rest(pace: StoredValue<Pace, LocalStorage>, rested: Trigger) {
    let look = move || {
        if pace.try_with_value(|pace| pace.rests(since_start())) == Some(true) {
            rested.notify();
        }
    };
    set_timeout(look, Duration::from_millis(REST.milliseconds() as u64 + 1));
}

/// Times the frame that what was just drawn is shown in.
fn time_frame(pace: StoredValue<Pace, LocalStorage>) {
    request_animation_frame(move || {
        let begun = since_start();
        request_animation_frame(move || {
            pace.try_update_value(|pace| pace.took(since_start() - begun));
        });
    });
}
