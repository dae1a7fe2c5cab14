//! Rectified EMG around a tap: one answer with its line, onset and end, or all taps over each other.
//!
//! The tap is a full upright at 0 ms; what is skipped after it is shaded and named; the line is broken, onset
//! and end are uprights with their ms. Over each other each tap is a pale line and the mean of those with an
//! answer a heavy one, with a bracket for the interval of the mean latency. More samples than pixels are drawn
//! as they are: a tap is a few hundred. Without samples there is only paper and axes.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::clip::clipped;
use super::key::{Sign, draw_key};
use super::palette::Ink;
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::scene::Look;
use crate::inquiry::{Reflexes, Sweeps, Tap};
use crate::words::{Phrase, decimal, phrase, say, say_with};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

/// What a drawing of taps shows.
#[derive(Clone, Copy, Debug)]
pub struct ReflexScene<'a> {
    /// What was found.
    pub reflexes: &'a Reflexes,
    /// The rectified EMG about each tap.
    pub sweeps: &'a Sweeps,
}

/// Draws one tap, by its place in [`Reflexes::taps`], over the whole of an area. One that has no sweep, because
/// it was left out, has axes alone.
///
/// # Errors
/// Only those of the backend.
pub fn draw_reflex<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &ReflexScene<'_>,
    place: usize,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let pen = Pen::new(area);
    let sweep = scene.sweeps.sweeps.iter().find(|(number, _)| *number == place + 1);
    let sweep = sweep.map_or(&[][..], |(_, sweep)| sweep);
    let tap = scene.reflexes.taps.get(place);
    let line = tap.and_then(|tap| tap.baseline).map(|baseline| baseline.line);
    let axes = begin(area, &pen, scene, look, sweep.iter().copied().chain(line.map(|y| y as f32)))?;
    let Look { palette, scale, .. } = *look;
    draw_sweep(&pen, &axes, scene.sweeps, sweep, (palette.trace, palette.trace_weight * scale))?;
    let Some(tap) = tap else { return Ok(()) };
    draw_answer(&pen, &axes, scene.reflexes, tap, look)
}

/// Draws all taps over each other over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_reflexes<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &ReflexScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let pen = Pen::new(area);
    let sweeps = scene.sweeps;
    let all = sweeps.sweeps.iter().flat_map(|(_, sweep)| sweep.iter().copied());
    let axes = begin(area, &pen, scene, look, all)?;
    let Look { palette, scale, language, .. } = *look;
    for (_, sweep) in &sweeps.sweeps {
        draw_sweep(&pen, &axes, sweeps, sweep, (palette.beneath, palette.line_weight * scale))?;
    }
    let heavy = 1.5 * palette.trace_weight * scale;
    draw_sweep(&pen, &axes, sweeps, &sweeps.mean, (palette.trace, heavy))?;
    draw_mean_latency(&pen, &axes, scene.reflexes, look)?;
    let text = palette.text_size * scale;
    let [each, mean] =
        ["reflex.chart.each", "reflex.chart.mean"].map(|key| say(language, key).into_owned());
    let signs = [(Sign::Line, palette.beneath, &*each), (Sign::Line, palette.trace, &*mean)];
    let free_from = written_width(&above(scene, look), text) + 1.5 * text;
    draw_key(&pen, look, (free_from, axes.plot.right, 0.9 * text), &signs)
}

/// The name of the upright axis.
fn above(scene: &ReflexScene<'_>, look: &Look<'_>) -> String {
    let name = say(look.language, "reflex.chart.rectified");
    format!("{name} ({})", scene.reflexes.unit_words(look.language))
}

/// Paper, axes, the tap and what is skipped.
fn begin<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    pen: &Pen<'_, DB>,
    scene: &ReflexScene<'_>,
    look: &Look<'_>,
    values: impl Iterator<Item = f32>,
) -> Result<Axes, DrawError<DB>> {
    let Look { palette, scale, language, .. } = *look;
    let (width, height) = area.dim_in_pixel();
    let text = palette.text_size * scale;
    let plot =
        Rect::new(4.5 * text, 2.8 * text, f64::from(width) - text, f64::from(height) - 3.2 * text);
    pen.cover(palette.paper)?;
    let sweeps = scene.sweeps;
    let step = sweeps.rate.interval().to_milliseconds().milliseconds();
    let longest = sweeps.sweeps.iter().map(|(_, sweep)| sweep.len()).max().unwrap_or_default();
    let start = -sweeps.before.milliseconds();
    let end = start + longest.saturating_sub(1) as f64 * step;
    let until = scene.reflexes.settings.until.milliseconds();
    let high = span(values.map(f64::from), 0.0, 0.0).map_or(0.0, |(_, high)| high);
    let high = if high > 0.0 { high } else { 1.0 };
    // A little below zero, so that rest does not lie on the axis.
    let up = (-0.05 * high, 1.1 * high);
    let end = if end > start { end } else { until };
    let axes = Axes { plot, across: (start.min(-1.0), end), up };
    let skip = scene.reflexes.settings.skip.milliseconds().min(end);
    let shade = Rect::new(axes.x(0.0), plot.top, axes.x(skip), plot.bottom);
    pen.fill(shade, palette.unusable, 1.0)?;
    let time = say(language, "reflex.chart.time");
    axes.draw(pen, look, Below::Values, (&time, ""))?;
    let bold = Writing::new(palette.text, text, HPos::Left).bold();
    pen.write(&above(scene, look), (0.5 * text, 0.9 * text), bold)?;
    let weight = 1.5 * palette.line_weight * scale;
    pen.upright(axes.x(0.0), plot.top, plot.bottom, palette.active, weight)?;
    let tap = say(language, "reflex.chart.tap");
    let at = (axes.x(0.0) - 0.3 * text, plot.top + 0.8 * text);
    pen.write(&tap, at, Writing::new(palette.active, text, HPos::Right).bold())?;
    let skipped = say(language, "reflex.chart.skipped");
    if written_width(&skipped, text) < shade.width() {
        let at = (f64::midpoint(shade.left, shade.right), plot.top + 0.8 * text);
        pen.write(&skipped, at, Writing::new(palette.text, text, HPos::Center))?;
    }
    Ok(axes)
}

fn draw_sweep<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    sweeps: &Sweeps,
    sweep: &[f32],
    (ink, weight): (Ink, f64),
) -> Drawn<DB> {
    let step = sweeps.rate.interval().to_milliseconds().milliseconds();
    let start = -sweeps.before.milliseconds();
    let points: Vec<(f64, f64)> = sweep
        .iter()
        .enumerate()
        .map(|(place, &value)| axes.at((start + place as f64 * step, value.into())))
        .collect();
    for run in clipped(&points, &axes.plot) {
        pen.line(&run, ink, weight)?;
    }
    Ok(())
}

/// The line, the onset and the end of one tap.
fn draw_answer<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    reflexes: &Reflexes,
    tap: &Tap,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let (plot, text) = (axes.plot, palette.text_size * scale);
    let weight = 1.5 * palette.line_weight * scale;
    if let Some(baseline) = tap.baseline {
        let y = axes.y(baseline.line);
        pen.dashes(&[(plot.left, y), (plot.right, y)], 0.4 * text, palette.answer, weight)?;
        let deviations = Phrase::exact(reflexes.settings.deviations);
        let words = phrase!("reflex.chart.line", deviations).in_words(language);
        let writing = Writing::new(palette.answer, text, HPos::Right);
        pen.write(&words, (plot.right - 0.3 * text, y - 0.8 * text), writing)?;
    }
    let Ok(answer) = tap.response else { return Ok(()) };
    let onset = answer.latency.milliseconds();
    let end = onset + answer.duration.milliseconds();
    // The words of the onset stand before it and those of the end behind it: the burst lies between.
    for (value, key, align, aside) in [
        (onset, "reflex.chart.onset", HPos::Right, -0.3),
        (end, "reflex.chart.end", HPos::Left, 0.3),
    ] {
        let x = axes.x(value);
        if x > plot.right {
            continue;
        }
        pen.upright(x, plot.top, plot.bottom, palette.student, weight)?;
        let ms = decimal(language, value, 1);
        let words = say_with(language, key, &[("ms", &ms)]);
        let at = (x + aside * text, plot.top + 2.1 * text);
        pen.write(&words, at, Writing::new(palette.student, text, align).bold())?;
    }
    Ok(())
}

/// The mean latency as an upright, its interval as a bracket at the top.
fn draw_mean_latency<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    reflexes: &Reflexes,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Some(latency) = reflexes.latency_ms else { return Ok(()) };
    let Look { palette, scale, language, .. } = *look;
    let (plot, text) = (axes.plot, palette.text_size * scale);
    let weight = 1.5 * palette.line_weight * scale;
    let x = axes.x(latency.mean);
    let row = plot.top + 0.6 * text;
    pen.upright(x, row, plot.bottom, palette.student, weight)?;
    let mut right = x;
    if let Some(interval) = reflexes.mean_latency() {
        let ends =
            [interval.low, interval.high].map(|ms| axes.x(ms).max(plot.left).min(plot.right));
        pen.level(row, ends[0], ends[1], palette.student, weight)?;
        for end in ends {
            pen.upright(end, row - 0.4 * text, row + 0.4 * text, palette.student, weight)?;
        }
        right = right.max(ends[1]);
    }
    let ms = decimal(language, latency.mean, 1);
    let words = say_with(language, "reflex.chart.mean_latency", &[("ms", &ms)]);
    let at = (right + 0.4 * text, row);
    pen.write(&words, at, Writing::new(palette.student, text, HPos::Left).bold())
}
