//! The tachogram: each RR interval against the time at which it ends.
//!
//! Intervals that count are dots, joined where one follows the other; those that are left out are
//! crosses, and no line runs through them. Where dots would cover each other there is the line alone, in each
//! column of pixels as tall as its intervals reach. Without intervals there is only paper and axes.

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
    let arm = 0.6 * palette.symbol * scale;
    let radius = 0.5 * arm.max(4.0);
    let crowded = scene.intervals.len() as f64 * radius > axes.plot.width();
    let ink = if crowded { palette.trace } else { palette.beneath };
    for run in scene.intervals.chunk_by(|a, b| a.left_out.is_none() && b.left_out.is_none()) {
        let points = reach_of_columns(&run.iter().map(place).collect::<Vec<_>>());
        if points.len() > 1 {
            pen.line(&points, ink, weight)?;
        }
    }
    for rr in scene.intervals {
        let (x, y) = place(rr);
        if rr.left_out.is_some() {
            pen.cross((x, y), arm, palette.set_aside, weight)?;
        } else if !crowded {
            pen.dot((x, y), radius, palette.trace)?;
        }
    }
    Ok(())
}

/// The same line with at most two points in a column of pixels: the lowest and the highest, as they come.
fn reach_of_columns(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let columns = points.chunk_by(|a, b| a.0.round() == b.0.round());
    let ends = columns.flat_map(|column| {
        let place = |(place, &(_, y)): (usize, &(f64, f64))| (place, y);
        let by_height = |a: &(usize, f64), b: &(usize, f64)| a.1.total_cmp(&b.1);
        let (highest, lowest) = (
            column.iter().enumerate().map(place).min_by(by_height),
            column.iter().enumerate().map(place).max_by(by_height),
        );
        let mut ends: Vec<usize> = highest.iter().chain(&lowest).map(|it| it.0).collect();
        ends.sort_unstable();
        ends.dedup();
        ends.into_iter().filter_map(|place| column.get(place).copied())
    });
    ends.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_keeps_its_lowest_and_its_highest_in_order() {
        let crowded = [(1.0, 5.0), (1.1, 9.0), (1.2, 7.0), (1.3, 2.0), (2.0, 4.0), (3.0, 4.0)];
        let kept = [(1.1, 9.0), (1.3, 2.0), (2.0, 4.0), (3.0, 4.0)];
        assert_eq!(reach_of_columns(&crowded), kept);
        assert_eq!(reach_of_columns(&kept), kept);
        assert_eq!(reach_of_columns(&[]), []);
    }
}
