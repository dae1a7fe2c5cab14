//! Draws a trace with all that lies on it.
//!
//! Where several samples share a column of pixels, the column shows the lowest and the highest of
//! them, found by [`Envelope`]: no R wave is lost, and an hour is one line of a few thousand points.
//! Further in, the line goes from sample to sample; far in, each sample is a dot. Nothing is drawn
//! across a hole. A scene without samples is empty paper.

use super::DrawError;
use super::clip::clipped;
use super::marks::{draw_beats, draw_cursor, draw_holes, draw_shade_labels, draw_shades};
use super::palette::{Ink, Palette};
use super::paper::Paper;
use super::pen::{Drawn, Pen};
use super::points::draw_points;
use super::projection::{Frame, Projection};
use super::scene::{Look, TraceScene};
use crate::signal::{Envelope, Hole, SampleIndex, SampleSpan};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// With more samples than this in a column, columns are drawn.
const CROWDED: f64 = 2.0;
/// With samples so many CSS pixels apart, each gets a dot.
const APART: f64 = 8.0;

/// Draws a scene over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_trace<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    draw_scene(area, scene, look, |frame| frame)?;
    Ok(())
}

/// Draws a scene on a frame that may leave more room than usual; gives back where things fell.
pub(super) fn draw_scene<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
    frame: impl FnOnce(Frame) -> Frame,
) -> Result<Projection, DrawError<DB>> {
    let scale = if look.scale > 0.0 { look.scale } else { 1.0 };
    let look = &Look { scale, ..*look };
    let (width, height) = area.dim_in_pixel();
    let (width, height) = (f64::from(width) / scale, f64::from(height) / scale);
    let usual = scene.projection(width, height, look.palette);
    let projection = Projection::new(usual.viewport, frame(usual.frame).scaled(scale));
    let pen = Pen::new(area);
    let paper = Paper::new(&pen, &projection, look, scene.unit);
    pen.cover(look.palette.paper)?;
    draw_shades(&pen, scene, &projection, look)?;
    paper.draw_grid()?;
    draw_holes(&pen, scene, &projection, look)?;
    paper.draw_pulse(scene)?;
    let Palette { beneath, trace, trace_weight, .. } = *look.palette;
    if let Some(envelope) = scene.beneath {
        draw_line(&pen, envelope, scene, &projection, (beneath, trace_weight * scale, scale))?;
    }
    draw_line(&pen, scene.envelope, scene, &projection, (trace, trace_weight * scale, scale))?;
    paper.draw_axes()?;
    draw_beats(&pen, scene, &projection, look)?;
    draw_cursor(&pen, scene, &projection, look)?;
    draw_shade_labels(&pen, scene, &projection, look)?;
    draw_points(&pen, scene, &projection, look)?;
    Ok(projection)
}

fn draw_line<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    envelope: &Envelope,
    scene: &TraceScene<'_>,
    projection: &Projection,
    (ink, weight, scale): (Ink, f64, f64),
) -> Drawn<DB> {
    let plot = projection.frame.plot();
    let dots = projection.px_per_second() >= APART * scale * scene.rate.hz();
    for run in runs(envelope, scene, projection) {
        for part in clipped(&run, &plot) {
            // A line of no length shows nothing: a sample alone between two holes is a dot.
            match part.as_slice() {
                [at] => pen.dot(*at, weight, ink)?,
                line => pen.line(line, ink, weight)?,
            }
        }
        if dots {
            for &at in run.iter().filter(|(x, y)| projection.frame.contains(*x, *y)) {
                pen.dot(at, 1.5 * weight, ink)?;
            }
        }
    }
    Ok(())
}

/// The trace in view as lines of pixels, broken at holes.
fn runs(
    envelope: &Envelope,
    scene: &TraceScene<'_>,
    projection: &Projection,
) -> Vec<Vec<(f64, f64)>> {
    let rate = scene.rate;
    let in_view = projection.viewport.samples(rate, envelope.samples().len());
    let crowded = rate.hz() / projection.px_per_second() > CROWDED;
    let mut runs = Vec::new();
    // A hole narrower than half a pixel parts nothing that can be seen.
    let least = (rate.hz() / projection.px_per_second() / 2.0) as usize;
    for data in without_holes(in_view, scene.holes, least) {
        let run = if crowded {
            columns(envelope, data, scene, projection)
        } else {
            let samples = envelope.samples().get(data.range()).unwrap_or_default();
            data.range()
                .zip(samples)
                .map(|(index, &value)| {
                    let x = projection.x_of(SampleIndex::new(index), rate);
                    (x, projection.y(value.into()))
                })
                .collect()
        };
        runs.push(run);
    }
    runs
}

/// The stretches of a span that hold data, parted by holes of more than `least` samples.
fn without_holes(span: SampleSpan, holes: &[Hole], least: usize) -> Vec<SampleSpan> {
    let mut stretches = Vec::new();
    let mut from = span.start().get();
    let first = holes.partition_point(|hole| hole.span.end() <= span.start());
    let in_span = holes.iter().skip(first).take_while(|hole| hole.span.start() < span.end());
    for hole in in_span.filter(|hole| hole.span.len() > least) {
        stretches.push(SampleSpan::new(from, hole.span.start().get().max(from)));
        from = hole.span.end().get().clamp(from, span.end().get());
    }
    stretches.push(SampleSpan::new(from, span.end().get()));
    stretches.retain(|stretch| !stretch.is_empty());
    stretches
}

/// Lowest and highest of each column as one line. A column begins with the last sample of the one
/// before, so that the line has no steps that the trace has not.
fn columns(
    envelope: &Envelope,
    data: SampleSpan,
    scene: &TraceScene<'_>,
    projection: &Projection,
) -> Vec<(f64, f64)> {
    let mut line: Vec<(f64, f64)> = Vec::new();
    let (start, end) = (data.start().get(), data.end().get());
    let mut column = projection.x_of(data.start(), scene.rate).round();
    let mut from = start;
    while from < end {
        let next = projection.time(column + 0.5).seconds() * scene.rate.hz();
        let until = (next.ceil().max(0.0) as usize).clamp(from + 1, end);
        let with_last = SampleSpan::new(from.saturating_sub(1).max(start), until);
        if let Some(extent) = envelope.extent(with_last) {
            let (top, bottom) = (projection.y(extent.high.into()), projection.y(extent.low.into()));
            // The nearer end first, so that the pen does not go back and forth.
            let near_top = line.last().is_none_or(|&(_, y)| (y - top).abs() < (y - bottom).abs());
            let (first, second) = if near_top { (top, bottom) } else { (bottom, top) };
            line.push((column, first));
            if (first - second).abs() >= 0.5 {
                line.push((column, second));
            }
        }
        from = until;
        column += 1.0;
    }
    line
}
