//! The heart rate against time with its breaths: where it was highest and lowest in each.
//!
//! Breathing in is shaded where it is known, otherwise every other breath; a breath that is left out is hatched
//! along its foot and named. Rates that count are dots, joined where one follows the other, others are crosses; the
//! highest of a breath is a triangle that points up, the lowest one that points down. Without rates there is
//! only paper and axes.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::key::{Sign, draw_key};
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::scene::Look;
use crate::inquiry::{Breath, Breathing, Swing};
use crate::words::say;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

/// Room above and below the rates, and the least that their axis spans, 1/min.
const ROOM: f64 = 4.0;
const LEAST: f64 = 20.0;

/// Draws the rate with its breaths over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_breathing<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    breathing: &Breathing,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let text = look.palette.text_size * look.scale;
    let plot =
        Rect::new(4.0 * text, 1.8 * text, f64::from(width) - text, f64::from(height) - 3.2 * text);
    let pen = Pen::new(area);
    pen.cover(look.palette.paper)?;
    let axes = axes_of(breathing, plot);
    draw_breaths(&pen, &axes, breathing, look)?;
    let words = |key| say(look.language, key);
    let (time, rate) = (words("chart.axis.time"), words("breathing.chart.rate"));
    axes.draw(&pen, look, Below::Seconds, (&time, &rate))?;
    draw_rates(&pen, &axes, breathing, look)?;
    for (_, swing) in breathing.counted() {
        draw_swing(&pen, &axes, &swing, look)?;
    }
    let (highest, lowest) = (words("breathing.chart.highest"), words("breathing.chart.lowest"));
    let free_from = 0.5 * text + written_width(&rate, text) + text;
    let signs =
        [(Sign::Up, look.palette.answer, &*highest), (Sign::Down, look.palette.student, &*lowest)];
    draw_key(&pen, look, (free_from, axes.plot.right, 0.9 * text), &signs)
}

fn axes_of(breathing: &Breathing, plot: Rect) -> Axes {
    let points = &breathing.course.points;
    let moment = |point: &crate::inquiry::RatePoint| point.at.seconds();
    let start = points.first().map_or(0.0, moment);
    let end = points.last().map_or(1.0, moment);
    let rates = breathing.course.counted().into_iter().map(|point| point.1);
    let up = span(rates, ROOM, LEAST).unwrap_or((60.0, 60.0 + LEAST));
    Axes { plot, across: (start, end.max(start + 1.0)), up }
}

fn draw_breaths<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    breathing: &Breathing,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let Rect { left, top, right, bottom } = axes.plot;
    let text = palette.text_size * scale;
    let x = |seconds: f64| axes.x(seconds).max(left).min(right);
    let write = |words: &str, from: f64, to: f64| {
        let fits = written_width(words, text) < to - from;
        let at = (f64::midpoint(from, to), top + 0.8 * text);
        let writing = Writing::new(palette.text, text, HPos::Center);
        if fits { pen.write(words, at, writing) } else { Ok(()) }
    };
    for (place, &(Breath { start, out, end }, ref swing)) in breathing.breaths.iter().enumerate() {
        let (from, to) = (x(start.seconds()), x(end.seconds()));
        if swing.is_err() {
            pen.fill(Rect::new(from, top, to, bottom), palette.unusable, 1.0)?;
            // Strokes along the foot tell it without colour.
            let step = 0.6 * text;
            let strokes = ((to - from) / step).floor().clamp(0.0, 1000.0) as u32;
            for stroke in 0..strokes {
                let at = from + step * f64::from(stroke);
                let ends = [(at, bottom), (at + step, bottom - step)];
                pen.line(&ends, palette.set_aside, palette.line_weight * scale)?;
            }
            write(&say(language, "breathing.chart.left_out"), from, to)?;
        } else if let Some(out) = out {
            let middle = x(out.seconds());
            pen.fill(Rect::new(from, top, middle, bottom), palette.chosen, 1.0)?;
            write(&say(language, "breathing.chart.inward"), from, middle)?;
            write(&say(language, "breathing.chart.outward"), middle, to)?;
        } else {
            if place % 2 == 0 {
                pen.fill(Rect::new(from, top, to, bottom), palette.chosen, 1.0)?;
            }
            write(&(place + 1).to_string(), from, to)?;
        }
        for edge in [from, to] {
            pen.upright(edge, top, bottom, palette.axis, (palette.line_weight * scale).max(1.0))?;
        }
    }
    Ok(())
}

fn draw_rates<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    breathing: &Breathing,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let points = &breathing.course.points;
    for run in points.chunk_by(|a, b| a.left_out.is_none() && b.left_out.is_none()) {
        let line: Vec<(f64, f64)> =
            run.iter().map(|one| axes.at((one.at.seconds(), one.rate.per_minute()))).collect();
        if line.len() > 1 {
            pen.line(&line, palette.beneath, palette.line_weight * scale)?;
        }
    }
    let arm = 0.6 * palette.symbol * scale;
    for point in points {
        let (x, y) = axes.at((point.at.seconds(), point.rate.per_minute()));
        if point.left_out.is_none() {
            pen.dot((x, y), 0.5 * arm.max(4.0), palette.trace)?;
        } else {
            // A rate far off the axis stands at its edge.
            let y = y.max(axes.plot.top).min(axes.plot.bottom);
            pen.cross((x, y), arm, palette.set_aside, palette.line_weight * scale)?;
        }
    }
    Ok(())
}

fn draw_swing<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    swing: &Swing,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let side = palette.symbol * scale;
    for (point, ink, up) in
        [(swing.highest, palette.answer, -1.0), (swing.lowest, palette.student, 1.0)]
    {
        let (x, y) = axes.at((point.at.seconds(), point.rate.per_minute()));
        pen.triangle((x, y + 1.3 * up * side), side, up, ink)?;
    }
    Ok(())
}
