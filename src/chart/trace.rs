//! Draws a trace with all that lies on it.

use super::DrawError;
use super::palette::Ink;
use super::scene::{Look, TraceScene};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend, PathElement};
use plotters::style::{RGBColor, ShapeStyle};

/// Draws a scene over the whole of an area. A scene without samples is drawn as empty paper.
///
/// # Errors
/// Only those of the backend.
pub fn draw_trace<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let colour = |ink: Ink| RGBColor::from(ink);
    area.fill(&colour(look.palette.paper))?;
    let (width, height) = area.dim_in_pixel();
    let scale = look.scale.max(0.1);
    let projection =
        scene.projection(f64::from(width) / scale, f64::from(height) / scale, look.palette);
    let projection = super::Projection::new(projection.viewport, projection.frame.scaled(scale));
    let span = scene.viewport.samples(scene.rate, scene.envelope.samples().len());
    let points: Vec<(i32, i32)> = scene.envelope.samples()[span.range()]
        .iter()
        .zip(span.range())
        .map(|(&value, index)| {
            let x = projection.x_of(crate::signal::SampleIndex::new(index), scene.rate);
            (x as i32, projection.y(value.into()) as i32)
        })
        .collect();
    let style = ShapeStyle::from(&colour(look.palette.trace)).stroke_width(2);
    area.draw(&PathElement::new(points, style))
}
