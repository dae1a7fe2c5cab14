//! A canvas that plotters draws on: sharp on any screen, redrawn when what it shows changes.

use crate::ui::browser::{CanvasSize, observe_size};
use crate::ui::reactive::follow;
use leptos::html::Canvas;
use leptos::prelude::*;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters_canvas::CanvasBackend;

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
    follow(move || {
        let size = size.get();
        let Some(element) = canvas.get() else { return };
        if size.fit(&element)
            && let Some(backend) = CanvasBackend::with_canvas_object(element)
        {
            draw(&backend.into_drawing_area(), size);
        }
    });
    view! { <canvas node_ref=canvas></canvas> }
}
