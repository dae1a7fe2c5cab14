//! The rate after exercise against time, and below how far each interval lies off the curve.
//!
//! Each interval that counts is a dot, one that does not a cross; the smooth line runs through them, cut
//! where nothing counts. The resting rate is a band, the peak a diamond, the drops uprights with their
//! numbers, the curve a broken line. What has a reason in place of a number is not drawn; without any
//! interval there is only paper and axes.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::key::{Sign, draw_key};
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::scene::Look;
use crate::inquiry::Recovery;
use crate::words::{decimal, say};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

/// Room above and below the rates, and the least that their axis spans, 1/min.
const ROOM: f64 = 6.0;
const LEAST: f64 = 40.0;
/// The axis of residuals reaches to a multiple of this on both sides, 1/min.
const OFF: f64 = 10.0;
/// The part of the height that residuals take.
const BELOW: f64 = 0.24;

/// Draws a recovery over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_recovery<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let (width, height) = (f64::from(width), f64::from(height));
    let text = look.palette.text_size * look.scale;
    let pen = Pen::new(area);
    pen.cover(look.palette.paper)?;
    let residuals = recovery.residuals();
    let bottom = height - 3.2 * text;
    let upper = if residuals.is_empty() { bottom } else { bottom - BELOW * height - 2.0 * text };
    let axes = axes_of(recovery, Rect::new(4.0 * text, 1.8 * text, width - text, upper));
    let words = |key| say(look.language, key);
    let (time, rate) = (words("recovery.chart.time"), words("recovery.chart.rate"));
    if residuals.is_empty() {
        axes.draw(&pen, look, Below::Seconds, (&time, &rate))?;
    } else {
        axes.draw(&pen, look, Below::SecondsUnwritten, ("", &rate))?;
        let plot = Rect::new(4.0 * text, upper + 2.0 * text, width - text, bottom);
        let far = residuals.iter().map(|point| point.1.abs()).fold(0.0_f64, f64::max);
        // To the next ten and a little beyond, so that a number stands near both ends.
        let far = 1.12 * OFF * (far / OFF).ceil().max(1.0);
        let below = Axes { plot, up: (-far, far), ..axes };
        below.draw(&pen, look, Below::Seconds, (&time, &words("recovery.chart.residual")))?;
        draw_residuals(&pen, &below, &residuals, look)?;
    }
    draw_resting(&pen, &axes, recovery, look)?;
    draw_points(&pen, &axes, recovery, look)?;
    draw_lines(&pen, &axes, recovery, look)?;
    draw_drops(&pen, &axes, recovery, look)?;
    let (smooth, curve) = (words("recovery.chart.smooth"), words("recovery.chart.curve"));
    let (interval, left_out) = (words("recovery.chart.interval"), words("recovery.chart.left_out"));
    let mut signs = vec![(Sign::Dot, look.palette.beneath, &*interval)];
    if recovery.course.points.iter().any(|point| point.left_out.is_some()) {
        signs.push((Sign::Cross, look.palette.set_aside, &*left_out));
    }
    signs.push((Sign::Line, look.palette.trace, &*smooth));
    if recovery.curve.is_ok() {
        signs.push((Sign::Broken, look.palette.answer, &*curve));
    }
    let free_from = 0.5 * text + written_width(&rate, text) + text;
    draw_key(&pen, look, (free_from, axes.plot.right, 0.9 * text), &signs)
}

fn axes_of(recovery: &Recovery, plot: Rect) -> Axes {
    let points = &recovery.course.points;
    let times = points.iter().map(|point| point.at.seconds());
    let last = times.fold(1.0_f64, f64::max);
    let counted = recovery.course.counted().into_iter().map(|point| point.1);
    let resting = recovery
        .resting
        .iter()
        .flat_map(|resting| [resting.value - resting.spread, resting.value + resting.spread]);
    let up = span(counted.chain(resting), ROOM, LEAST).unwrap_or((60.0, 60.0 + LEAST));
    Axes { plot, across: (0.0, last), up }
}

fn draw_resting<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Ok(resting) = recovery.resting else { return Ok(()) };
    let Look { palette, scale, language, .. } = *look;
    let text = palette.text_size * scale;
    let (left, right) = (axes.plot.left, axes.plot.right);
    let (high, low) =
        (axes.y(resting.value + resting.spread), axes.y(resting.value - resting.spread));
    pen.fill(Rect::new(left, high, right, low), palette.chosen, 1.0)?;
    let weight = (palette.line_weight * scale).max(1.0);
    for edge in [high, low] {
        pen.dashes(&[(left, edge), (right, edge)], 0.35 * text, palette.axis, weight)?;
    }
    let rate = decimal(language, resting.value, 0);
    let spread = decimal(language, resting.spread, 0);
    let words = format!("{} {rate} ± {spread}", say(language, "recovery.chart.resting"));
    let at = (left + 0.5 * text, high - 0.9 * text);
    pen.write(&words, at, Writing::new(palette.text, text, HPos::Left))
}

fn draw_points<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let arm = 0.6 * palette.symbol * scale;
    for point in &recovery.course.points {
        let (x, y) = axes.at((point.at.seconds(), point.rate.per_minute()));
        if point.left_out.is_none() {
            pen.dot((x, y), 0.55 * arm.max(4.0), palette.beneath)?;
        } else {
            // A rate far off the axis stands at its edge.
            let y = y.max(axes.plot.top).min(axes.plot.bottom);
            pen.cross((x, y), arm, palette.set_aside, palette.line_weight * scale)?;
        }
    }
    Ok(())
}

fn draw_lines<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.5 * palette.trace_weight * scale;
    for run in &recovery.course.runs {
        let line: Vec<(f64, f64)> = run
            .iter()
            .map(|point| axes.at((point.at.seconds(), point.rate.per_minute())))
            .collect();
        pen.line(&line, palette.trace, palette.trace_weight * scale)?;
    }
    if let Ok(curve) = &recovery.curve {
        let from = recovery.peak.map_or(0.0, |peak| peak.at.seconds());
        let step = (axes.across.1 - from) / 200.0;
        let line: Vec<(f64, f64)> = (0..=200)
            .map(|count| from + step * f64::from(count))
            .map(|seconds| axes.at((seconds, curve.rate_at(seconds))))
            .collect();
        pen.dashes(&line, 0.5 * text, palette.answer, weight)?;
    }
    draw_peak(pen, axes, recovery, look)
}

fn draw_peak<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Ok(peak) = recovery.peak else { return Ok(()) };
    let Look { palette, scale, language, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.5 * palette.trace_weight * scale;
    let (x, y) = axes.at((peak.at.seconds(), peak.rate.per_minute()));
    let arm = 1.2 * palette.symbol * scale;
    pen.open_diamond((x, y), arm, (palette.student, palette.paper), weight)?;
    let rate = decimal(language, peak.rate.per_minute(), 0);
    let words = format!("{} {rate}", say(language, "recovery.chart.peak"));
    let at = (x + arm + 0.4 * text, y - 0.4 * text);
    pen.write(&words, at, Writing::new(palette.student, text, HPos::Left).bold())
}

fn draw_drops<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    recovery: &Recovery,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let text = palette.text_size * scale;
    let weight = (palette.line_weight * scale).max(1.0);
    let Ok(peak) = recovery.peak else { return Ok(()) };
    for one in &recovery.drops {
        let Ok((rate, drop)) = one.drop else { continue };
        let (x, y) = axes.at((one.after.seconds(), rate.per_minute()));
        let top = axes.y(peak.rate.per_minute());
        pen.dashes(&[(x, top), (x, y)], 0.3 * text, palette.student, weight)?;
        let side = 0.7 * palette.symbol * scale;
        pen.fill(Rect::new(x - side, y - side, x + side, y + side), palette.student, 1.0)?;
        let words = decimal(language, -drop.value, 0);
        let (at, align) = if x + 0.5 * text + written_width(&words, text) < axes.plot.right {
            ((x + 0.5 * text, f64::midpoint(top, y)), HPos::Left)
        } else {
            ((x - 0.5 * text, f64::midpoint(top, y)), HPos::Right)
        };
        pen.write(&words, at, Writing::new(palette.student, text, align).bold())?;
    }
    Ok(())
}

fn draw_residuals<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    residuals: &[(f64, f64)],
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.5 * palette.trace_weight * scale;
    let zero = [(axes.plot.left, axes.y(0.0)), (axes.plot.right, axes.y(0.0))];
    pen.dashes(&zero, 0.5 * text, palette.answer, weight)?;
    let radius = 0.55 * (0.6 * palette.symbol * scale).max(4.0);
    for &point in residuals {
        pen.dot(axes.at(point), radius, palette.trace)?;
    }
    Ok(())
}
