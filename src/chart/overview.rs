//! The whole recording as a strip without axes, with the part picked out that is in view elsewhere.

use super::DrawError;
use super::marks::{draw_holes, draw_shades};
use super::notes::draw_notes;
use super::pen::Pen;
use super::projection::{Frame, Margins, Projection};
use super::scene::{Look, TraceScene};
use super::trace::draw_line;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// Room above and below the strip, in CSS pixels.
const ROOM: f64 = 4.0;

/// Draws the trace, its holes, its shaded stretches and its notes over the whole of an area; nothing else.
///
/// # Errors
/// Only those of the backend.
pub fn draw_overview<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let room = ROOM * look.scale;
    let margins = Margins { top: room, bottom: room, ..Margins::default() };
    let frame = Frame { width: width.into(), height: height.into(), margins };
    let projection = Projection::new(scene.viewport, frame);
    let pen = Pen::new(area);
    pen.cover(look.palette.paper)?;
    draw_shades(&pen, scene, &projection, look)?;
    draw_holes(&pen, scene, &projection, look)?;
    let weight = look.palette.line_weight * look.scale;
    draw_line(&pen, scene.envelope, scene, &projection, (look.palette.trace, weight, look.scale))?;
    draw_notes(&pen, scene, &projection, look, true)
}
