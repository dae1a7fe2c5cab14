//! Two typical beats over each other, aligned at R: rest a full line with dots, recovery a broken one with
//! diamonds.
//!
//! Heights are in mV when both beats are; otherwise each is told in parts of its own R, because two scales
//! would lie over each other. Points that can't be measured are not drawn.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::key::{Sign, draw_key};
use super::palette::Ink;
use super::pen::{Drawn, Pen, Rect, written_width};
use super::scene::Look;
use crate::inquiry::TypicalBeat;
use crate::signal::{Landmark, SampleIndex, VoltageUnit};
use crate::words::say;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// The points that intervals run between.
const POINTS: [Landmark; 4] =
    [Landmark::POnset, Landmark::QrsOnset, Landmark::QrsEnd, Landmark::TEnd];

/// The two beats.
#[derive(Clone, Copy, Debug)]
pub struct OverlayScene<'a> {
    /// At rest.
    pub rest: &'a TypicalBeat,
    /// In early recovery.
    pub recovery: &'a TypicalBeat,
}

/// Draws both over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_overlay<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &OverlayScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let text = look.palette.text_size * look.scale;
    let plot =
        Rect::new(4.0 * text, 1.8 * text, f64::from(width) - text, f64::from(height) - 3.2 * text);
    let pen = Pen::new(area);
    pen.cover(look.palette.paper)?;
    let in_millivolt =
        [scene.rest, scene.recovery].iter().all(|beat| beat.unit == VoltageUnit::Millivolt);
    let lines = [scene.rest, scene.recovery].map(|beat| Line::of(beat, in_millivolt));
    let across =
        span(lines.iter().flat_map(|line| line.points.iter().map(|point| point.0)), 0.0, 1.0);
    let up = span(lines.iter().flat_map(|line| line.points.iter().map(|point| point.1)), 0.05, 0.2);
    let axes =
        Axes { plot, across: across.unwrap_or((-400.0, 600.0)), up: up.unwrap_or((-0.5, 1.0)) };
    let words = |key| say(look.language, key);
    let above =
        words(if in_millivolt { "chart.axis.millivolt" } else { "recovery.overlay.relative" });
    axes.draw(&pen, look, Below::Values, (&words("recovery.overlay.time"), &above))?;
    let [rest, recovery] = &lines;
    draw_line(&pen, &axes, rest, false, look)?;
    draw_line(&pen, &axes, recovery, true, look)?;
    let (resting, after) = (words("recovery.side.rest"), words("recovery.side.recovery"));
    let signs = [
        (Sign::Line, look.palette.student, &*resting),
        (Sign::Broken, look.palette.answer, &*after),
    ];
    let free_from = 0.5 * text + written_width(&above, text) + text;
    draw_key(&pen, look, (free_from, plot.right, 0.9 * text), &signs)
}

/// A beat as a line: ms from R, and height.
struct Line {
    points: Vec<(f64, f64)>,
    marks: Vec<(f64, f64)>,
}

impl Line {
    fn of(typical: &TypicalBeat, in_millivolt: bool) -> Self {
        let beat = &typical.beat;
        let r = beat.landmarks.at(Landmark::R).map_or(0, SampleIndex::get);
        let step = beat.rate.interval().to_milliseconds().milliseconds();
        let height = |sample: usize| beat.samples.get(sample).map(|&value| f64::from(value));
        let whole = if in_millivolt { None } else { height(r) };
        let whole = whole.map(f64::abs).filter(|&height| height > 0.0).unwrap_or(1.0);
        let point =
            |sample: usize| Some(((sample as f64 - r as f64) * step, height(sample)? / whole));
        let marks = POINTS.iter().filter_map(|&landmark| point(beat.landmarks.at(landmark)?.get()));
        Self { points: (0..beat.samples.len()).filter_map(point).collect(), marks: marks.collect() }
    }
}

fn draw_line<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    line: &Line,
    is_broken: bool,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.2 * palette.trace_weight * scale;
    let ink: Ink = if is_broken { palette.answer } else { palette.student };
    let points: Vec<(f64, f64)> = line.points.iter().map(|&point| axes.at(point)).collect();
    if is_broken {
        pen.dashes(&points, 0.5 * text, ink, weight)?;
    } else if points.len() > 1 {
        pen.line(&points, ink, weight)?;
    }
    for &mark in &line.marks {
        let at = axes.at(mark);
        if is_broken {
            pen.open_diamond(at, 1.1 * palette.symbol * scale, (ink, palette.paper), weight)?;
        } else {
            pen.dot(at, 0.9 * palette.symbol * scale, ink)?;
        }
    }
    Ok(())
}
