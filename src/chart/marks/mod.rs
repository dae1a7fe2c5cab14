//! What lies behind and above a trace: shaded stretches, holes, beats and the cursor.
//!
//! A beat that counts is a filled wedge, one set aside an open cross with its number in brackets. Where
//! a student placed it the wedge is a diamond, and the cross has a diamond around it. Where beats
//! crowd, every 2nd, 5th, 10th … keeps its mark; those set aside or placed by hand always show.

#[cfg(test)]
mod tests;

use super::palette::Palette;
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{BeatMark, Look, Tone, TraceScene};
use crate::analysis::{Origin, Standing};
use crate::signal::SampleSpan;
use crate::words::say;
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// CSS pixels between the strokes of a hatching.
const HATCHING: f64 = 9.0;
/// Marks of beats closer than this many CSS pixels run into each other.
const CLOSEST_BEATS: f64 = 12.0;

/// The part of a span in view, in pixels; at least a pixel wide.
fn across(span: SampleSpan, scene: &TraceScene<'_>, projection: &Projection) -> Option<Rect> {
    let plot = projection.frame.plot();
    let left = projection.x_of(span.start(), scene.rate).max(plot.left);
    let right = projection.x_of(span.end(), scene.rate).min(plot.right);
    let in_view = left <= plot.right && right >= plot.left && !span.is_empty();
    in_view.then(|| Rect::new(left, plot.top, right.max(left + 1.0), plot.bottom))
}

/// Fills behind the grid, each with its word at the top.
pub(super) fn draw_shades<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    for shade in scene.shades {
        let Some(area) = across(shade.span, scene, projection) else { continue };
        let (ink, cover) = match shade.tone {
            Tone::Chosen => (palette.chosen, 1.0),
            Tone::Unusable => (palette.unusable, 1.0),
            Tone::Doubtful => (palette.unusable, 0.5),
        };
        pen.fill(area, ink, cover)?;
        let weight = (palette.line_weight * scale).max(1.0);
        for x in [area.left, area.right] {
            pen.upright(x, area.top, area.bottom, palette.axis, weight)?;
        }
    }
    Ok(())
}

/// The words of shaded stretches, over the grid and the trace.
pub(super) fn draw_shade_labels<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let plot = projection.frame.plot();
    let mut free_from = plot.left;
    for shade in scene.shades.iter().filter(|shade| !shade.label.is_empty()) {
        let Some(area) = across(shade.span, scene, projection) else { continue };
        let half = written_width(shade.label, text) / 2.0 + 0.3 * text;
        let middle = f64::midpoint(area.left, area.right).max(free_from + half);
        if middle + half > plot.right {
            continue;
        }
        free_from = middle + half;
        let row = plot.top + 0.8 * text;
        let behind = Rect::new(middle - half, row - 0.65 * text, middle + half, row + 0.65 * text);
        pen.fill(behind, palette.paper, 0.85)?;
        pen.write(shade.label, (middle, row), Writing::new(palette.text, text, HPos::Center))?;
    }
    Ok(())
}

/// Hatched bands where nothing was recorded, with a word where it fits.
pub(super) fn draw_holes<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let text = palette.text_size * scale;
    let weight = (palette.line_weight * scale).max(1.0);
    let word = say(language, "chart.no_data");
    let room = written_width(&word, text) + text;
    for band in hole_bands(scene, projection, scale) {
        pen.fill(band, palette.paper, 1.0)?;
        let step = HATCHING * scale;
        let height = band.bottom - band.top;
        let mut foot = band.left + step / 2.0 - height - (band.left - height).rem_euclid(step);
        while foot < band.right {
            // From the lower left to the upper right, cut at the sides of the band.
            let (from, until) = (foot.max(band.left), (foot + height).min(band.right));
            let at = |x: f64| (x, band.bottom - (x - foot));
            if from < until {
                pen.line(&[at(from), at(until)], palette.hole, weight)?;
            }
            foot += step;
        }
        for x in [band.left, band.right] {
            pen.upright(x, band.top, band.bottom, palette.hole, weight)?;
        }
        if band.width() > room {
            let middle =
                (f64::midpoint(band.left, band.right), f64::midpoint(band.top, band.bottom));
            let (left, right) = (middle.0 - room / 2.0, middle.0 + room / 2.0);
            let behind = Rect::new(left, middle.1 - 0.8 * text, right, middle.1 + 0.8 * text);
            pen.fill(behind, palette.paper, 1.0)?;
            pen.write(&word, middle, Writing::new(palette.text, text, HPos::Center))?;
        }
    }
    Ok(())
}

/// The holes in view; those that would touch on the drawing are one band.
fn hole_bands(scene: &TraceScene<'_>, projection: &Projection, scale: f64) -> Vec<Rect> {
    let mut bands: Vec<Rect> = Vec::new();
    for hole in scene.holes {
        let Some(band) = across(hole.span, scene, projection) else { continue };
        match bands.last_mut() {
            Some(last) if band.left - last.right < 2.0 * scale => {
                last.right = last.right.max(band.right);
            }
            _ => bands.push(band),
        }
    }
    bands
}

/// Beats above the plot.
pub(super) fn draw_beats<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let top = projection.frame.plot().top;
    let view = &projection.viewport;
    let in_view: Vec<&BeatMark> =
        scene.beats.iter().filter(|beat| view.shows(beat.at, scene.rate)).collect();
    let every = thinning(&in_view, scene, projection, text);
    let crowded = every > 1;
    let (mut free_from, mut last_rare) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for beat in in_view {
        let x = projection.x_of(beat.at, scene.rate);
        let counts = beat.standing == Standing::Counts;
        let by_hand = beat.origin != Origin::Found;
        let chosen = beat.number.is_multiple_of(every);
        let too_close = x - last_rare < CLOSEST_BEATS * scale;
        let rare = !counts || by_hand;
        if crowded && !chosen && (!rare || too_close) {
            continue;
        }
        let half = if chosen { 0.28 } else { 0.18 } * text;
        let row = top - 0.45 * text;
        if rare {
            last_rare = x;
        }
        let reach = 1.4 * half;
        let diamond = [(x, row - reach), (x + reach, row), (x, row + reach), (x - reach, row)];
        let (ink, number) = if counts {
            let wedge = [(x - half, row - half), (x + half, row - half), (x, row + half)];
            let corners = if by_hand { &diamond[..] } else { &wedge[..] };
            pen.shape(corners, if by_hand { palette.student } else { palette.beat })?;
            (palette.beat, beat.number.to_string())
        } else {
            let weight = 1.5 * palette.line_weight * scale;
            if by_hand {
                let [top, ..] = diamond;
                let around = [&diamond[..], &[top]].concat();
                pen.line(&around, palette.student, palette.line_weight * scale)?;
            }
            pen.line(&[(x - half, row - half), (x + half, row + half)], palette.set_aside, weight)?;
            pen.line(&[(x - half, row + half), (x + half, row - half)], palette.set_aside, weight)?;
            (palette.set_aside, format!("({})", beat.number))
        };
        let reach = written_width(&number, text) / 2.0;
        if chosen && x - reach > free_from && x + reach < projection.frame.width {
            free_from = x + reach + 0.3 * text;
            pen.write(&number, (x, top - 1.35 * text), Writing::new(ink, text, HPos::Center))?;
        }
    }
    Ok(())
}

/// Every how many beats one is marked so that marks and numbers stay apart: 1, 2, 5, 10 …
fn thinning(
    in_view: &[&BeatMark],
    scene: &TraceScene<'_>,
    projection: &Projection,
    text: f64,
) -> usize {
    let [first, .., last] = in_view else { return 1 };
    let x = |beat: &BeatMark| projection.x_of(beat.at, scene.rate);
    let apart = (x(last) - x(first)) / (in_view.len() - 1) as f64;
    let room = written_width(&last.number.to_string(), text) + 0.8 * text;
    let steps = (0..7).flat_map(|power| [1, 2, 5].map(|times| times * 10usize.pow(power)));
    steps.into_iter().find(|&step| apart * step as f64 >= room).unwrap_or(10_000_000)
}

/// The cursor: a line from top to bottom and a ring on the trace.
pub(super) fn draw_cursor<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let Palette { active, paper, line_weight, symbol, .. } = *palette;
    let on_trace = scene.cursor.and_then(|at| Some((at, *scene.envelope.samples().get(at.get())?)));
    let Some((at, value)) = on_trace.filter(|(at, _)| projection.viewport.shows(*at, scene.rate))
    else {
        return Ok(());
    };
    let plot = projection.frame.plot();
    let x = projection.x_of(at, scene.rate);
    pen.upright(x, plot.top, plot.bottom, active, (line_weight * scale).max(1.0))?;
    let y = projection.y(value.into());
    if projection.frame.contains(x, y) {
        pen.dot((x, y), symbol * scale, active)?;
        pen.dot((x, y), (symbol - 2.0 * line_weight) * scale, paper)?;
    }
    Ok(())
}
