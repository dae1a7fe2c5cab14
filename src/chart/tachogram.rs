//! The tachogram: each RR interval against the time at which it ends.
//!
//! Intervals that count are dots, joined where one follows the other; those that are left out are
//! crosses, and no line runs through them. Without intervals there is only paper and axes.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::pen::{Drawn, Pen, Rect};
use super::scene::Look;
use crate::analysis::RrInterval;
use crate::signal::SampleRate;
use crate::words::say;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// What a tachogram shows.
#[derive(Clone, Copy, Debug)]
pub struct TachogramScene<'a> {
    /// The intervals, in order.
    pub intervals: &'a [RrInterval],
    /// Samples a second.
    pub rate: SampleRate,
}

/// Room about the longest and the shortest interval, ms.
const ROOM: f64 = 50.0;
/// The least that the axis of intervals spans, ms: a steady heart looks steady.
const LEAST: f64 = 300.0;
/// The middle of the axis without any interval, ms.
const USUAL: f64 = 800.0;

/// Draws a tachogram over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_tachogram<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TachogramScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let text = look.palette.text_size * look.scale;
    let plot =
        Rect::new(4.0 * text, 1.6 * text, f64::from(width) - text, f64::from(height) - 3.2 * text);
    let pen = Pen::new(area);
    pen.cover(look.palette.paper)?;
    let axes = axes_of(scene, plot);
    let (below, above) =
        (say(look.language, "chart.axis.time"), say(look.language, "chart.axis.rr"));
    axes.draw(&pen, look, Below::Seconds, (&below, &above))?;
    draw_intervals(&pen, scene, &axes, look)
}

/// Where moments, s, and intervals, ms, lie.
fn axes_of(scene: &TachogramScene<'_>, plot: Rect) -> Axes {
    let all = scene.intervals.iter().map(|rr| rr.rr.milliseconds());
    let time = |at| scene.rate.time_of(at).seconds();
    let start = scene.intervals.first().map_or(0.0, |rr| time(rr.from));
    let end = scene.intervals.last().map_or(1.0, |rr| time(rr.to));
    let up = span(all, ROOM, LEAST).unwrap_or((USUAL - LEAST / 2.0, USUAL + LEAST / 2.0));
    Axes { plot, across: (start, end.max(start + 1.0)), up }
}

fn draw_intervals<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TachogramScene<'_>,
    axes: &Axes,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let place = |rr: &RrInterval| {
        (axes.x(scene.rate.time_of(rr.to).seconds()), axes.y(rr.rr.milliseconds()))
    };
    let weight = palette.line_weight * scale;
    for run in scene.intervals.chunk_by(|a, b| a.left_out.is_none() && b.left_out.is_none()) {
        let points: Vec<(f64, f64)> = run.iter().map(place).collect();
        if points.len() > 1 {
            pen.line(&points, palette.beneath, weight)?;
        }
    }
    let arm = 0.6 * palette.symbol * scale;
    for rr in scene.intervals {
        let (x, y) = place(rr);
        if rr.left_out.is_none() {
            pen.dot((x, y), 0.5 * arm.max(4.0), palette.trace)?;
        } else {
            pen.cross((x, y), arm, palette.set_aside, weight)?;
        }
    }
    Ok(())
}
