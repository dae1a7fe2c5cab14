//! The tachogram: each RR interval against the time at which it ends.
//!
//! Intervals that count are dots, joined where one follows the other; those that are left out are
//! crosses, and no line runs through them. Without intervals there is only paper and axes.

use super::DrawError;
use super::pen::{Drawn, Pen, Rect, Writing};
use super::scene::Look;
use super::ticks::Ticks;
use crate::analysis::RrInterval;
use crate::signal::SampleRate;
use crate::words::say;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

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
    let axes = Axes::of(scene, plot);
    draw_axes(&pen, &axes, look)?;
    draw_intervals(&pen, scene, &axes, look)
}

/// Where moments and intervals lie.
struct Axes {
    plot: Rect,
    seconds: (f64, f64),
    milliseconds: (f64, f64),
}

impl Axes {
    fn of(scene: &TachogramScene<'_>, plot: Rect) -> Self {
        let all = scene.intervals.iter().map(|rr| rr.rr.milliseconds());
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), rr| {
            (low.min(rr), high.max(rr))
        });
        let (low, high) = if low <= high { (low, high) } else { (700.0, 900.0) };
        let wanted = (high - low + 2.0 * ROOM).max(LEAST);
        let middle = f64::midpoint(low, high);
        let time = |at| scene.rate.time_of(at).seconds();
        let start = scene.intervals.first().map_or(0.0, |rr| time(rr.from));
        let end = scene.intervals.last().map_or(1.0, |rr| time(rr.to));
        Self {
            plot,
            seconds: (start, end.max(start + 1.0)),
            milliseconds: (middle - wanted / 2.0, middle + wanted / 2.0),
        }
    }

    fn x(&self, seconds: f64) -> f64 {
        let (from, to) = self.seconds;
        self.plot.left + (seconds - from) / (to - from) * self.plot.width()
    }

    fn y(&self, milliseconds: f64) -> f64 {
        let (from, to) = self.milliseconds;
        self.plot.bottom - (milliseconds - from) / (to - from) * (self.plot.bottom - self.plot.top)
    }
}

fn draw_axes<DB: DrawingBackend>(pen: &Pen<'_, DB>, axes: &Axes, look: &Look<'_>) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let (plot, text) = (axes.plot, palette.text_size * scale);
    let line = (palette.line_weight * scale).max(1.0);
    let writing = |align| Writing::new(palette.text, text, align);
    let room = |span: (f64, f64), pixels: f64, letters: f64| {
        (span.1 - span.0) * letters * text / pixels.max(1.0)
    };
    let times =
        Ticks::of_time(axes.seconds.0, axes.seconds.1, room(axes.seconds, plot.width(), 4.0));
    for seconds in times.values() {
        let x = axes.x(seconds);
        pen.upright(x, plot.top, plot.bottom, palette.grid_large, palette.grid_weight * scale)?;
        pen.write(
            &times.written(language, seconds),
            (x, plot.bottom + 0.9 * text),
            writing(HPos::Center),
        )?;
    }
    let (low, high) = axes.milliseconds;
    let heights = Ticks::of_value(low, high, room(axes.milliseconds, plot.bottom - plot.top, 2.5));
    for milliseconds in heights.values() {
        let y = axes.y(milliseconds);
        pen.level(y, plot.left, plot.right, palette.grid_large, palette.grid_weight * scale)?;
        pen.write(
            &heights.written(language, milliseconds),
            (plot.left - 0.5 * text, y),
            writing(HPos::Right),
        )?;
    }
    pen.level(plot.bottom, plot.left, plot.right, palette.axis, line)?;
    pen.upright(plot.left, plot.top, plot.bottom, palette.axis, line)?;
    pen.write(
        &say(language, "chart.axis.time"),
        (plot.left, plot.bottom + 2.3 * text),
        writing(HPos::Left),
    )?;
    pen.write(&say(language, "chart.axis.rr"), (0.5 * text, 0.7 * text), writing(HPos::Left).bold())
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
            pen.line(&[(x - arm, y - arm), (x + arm, y + arm)], palette.set_aside, weight)?;
            pen.line(&[(x - arm, y + arm), (x + arm, y - arm)], palette.set_aside, weight)?;
        }
    }
    Ok(())
}
