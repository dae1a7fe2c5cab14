//! A canvas that plotters draws on: sharp on any screen, redrawn when what it shows changes.

use crate::ui::browser::{CanvasSize, observe_size, since_start};
use crate::ui::reactive::follow;
use beatwalk::chart::{LATE, Pace, REST, Way};
use leptos::html::Canvas;
use leptos::prelude::*;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::style::WHITE;
use plotters_canvas::CanvasBackend;
use std::time::Duration;
use web_sys::HtmlCanvasElement;

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
    let again = Trigger::new();
    let made_for = StoredValue::new(None::<CanvasSize>);
    follow(move || {
        again.track();
        let size = size.get();
        let Some(element) = canvas.get() else { return };
        let before = made_for.get_value();
        if before.is_none() && !blank(&element, size) {
            return;
        }
        made_for.set_value(Some(size));
        if before.is_none() {
            return in_next_frame(again);
        }
        let now = since_start();
        // A chart that gets another size is not being moved.
        let way = match pace.try_update_value(|pace| pace.draw(now)) {
            Some(way) if before == Some(size) => way,
            _ => Way::AtRest,
        };
        let size = if way == Way::Hurried { size.coarse() } else { size };
        if size.fit(&element)
            && let Some(backend) = CanvasBackend::with_canvas_object(element)
        {
            draw(&backend.into_drawing_area(), size);
        }
        match way {
            Way::Hurried => once_at_rest(pace, again),
            Way::Moving => time_frame(pace),
            Way::AtRest => {}
        }
    });
    view! { <canvas node_ref=canvas></canvas> }
}

/// Makes the canvas, which takes a frame of its own where it is large; whether there was room for one.
fn blank(element: &HtmlCanvasElement, size: CanvasSize) -> bool {
    size.fit(element)
        && CanvasBackend::with_canvas_object(element.clone())
            .is_some_and(|backend| backend.into_drawing_area().fill(&WHITE).is_ok())
}

fn in_next_frame(again: Trigger) {
    request_animation_frame(move || {
        // The chart may have left the screen meanwhile.
        if !again.is_disposed() {
            again.notify();
        }
    });
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
    let took = move |since| pace.try_update_value(|pace| pace.took(since_start() - since));
    let drawn = since_start();
    request_animation_frame(move || {
        let begun = since_start();
        // What was drawn within a frame was shown by now; what was drawn before one is about to be.
        if begun - drawn > LATE {
            took(drawn);
        } else {
            request_animation_frame(move || {
                took(begun);
            });
        }
    });
}
