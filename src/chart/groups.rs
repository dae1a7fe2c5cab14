//! Conditions side by side: each value a dot, the values of one person joined, and a box beside them.
//!
//! The box spans the quartiles, with a bar at the median; its whiskers reach the last value that is not
//! outlying, and outlying ones are open diamonds. Lines that rise are full and those that fall broken, so
//! that the way shows without colour. Dots of the same value stand beside each other. Without values there
//! is only paper and axes.

use super::DrawError;
use super::axes::{Axes, Below, span};
use super::pen::{Drawn, Pen, Rect, Writing};
use super::scene::Look;
use crate::inquiry::stats::FiveNumbers;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

/// How far the box of a group lies aside of its dots, and its half width, in parts of a group: that of the
/// first to the left, where no line runs.
const BOX: (f64, f64) = (0.24, 0.07);
/// How far dots of a crowded group stand aside, in parts of a group.
const ASIDE: f64 = 0.10;

/// What is compared.
#[derive(Clone, Copy, Debug)]
pub struct GroupsScene<'a> {
    /// The name of each condition.
    pub names: &'a [String],
    /// The values of each condition.
    pub values: &'a [Vec<f64>],
    /// The values of each person in the order of the conditions; empty where nothing is paired.
    pub lines: &'a [Vec<Option<f64>>],
    /// What is measured, with its unit.
    pub measured: &'a str,
}

/// Draws the groups over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_groups<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &GroupsScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let (width, height) = area.dim_in_pixel();
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let plot =
        Rect::new(4.0 * text, 1.8 * text, f64::from(width) - text, f64::from(height) - 2.0 * text);
    let pen = Pen::new(area);
    pen.cover(palette.paper)?;
    let all = || scene.values.iter().flatten().copied();
    let reach = span(all(), 0.0, 0.0).map_or(1.0, |(low, high)| high - low);
    let least = 0.02 * all().fold(0.0_f64, |most, value| most.max(value.abs())).max(1e-3);
    let up = span(all(), 0.08 * reach, least).unwrap_or((0.0, 1.0));
    let axes = Axes { plot, across: (0.0, scene.names.len().max(1) as f64), up };
    axes.draw(&pen, look, Below::Nothing, ("", scene.measured))?;
    for (place, name) in scene.names.iter().enumerate() {
        let at = (axes.x(place as f64 + 0.5), plot.bottom + text);
        pen.write(name, at, Writing::new(palette.text, text, HPos::Center))?;
    }
    for (place, values) in scene.values.iter().enumerate() {
        draw_box(&pen, &axes, place, values, look)?;
    }
    draw_people(&pen, &axes, scene, look)?;
    for (place, values) in scene.values.iter().enumerate() {
        draw_dots(&pen, &axes, place, values, !scene.lines.is_empty(), look)?;
    }
    Ok(())
}

fn middle(place: usize) -> f64 {
    place as f64 + 0.5
}

fn draw_people<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    scene: &GroupsScene<'_>,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let weight = 1.5 * palette.line_weight * scale;
    for person in scene.lines {
        let known = person.iter().enumerate().filter_map(|(place, value)| Some((place, (*value)?)));
        let points: Vec<(usize, f64)> = known.collect();
        for pair in points.windows(2) {
            let ends = [pair[0], pair[1]].map(|(place, value)| axes.at((middle(place), value)));
            if pair[1].1 >= pair[0].1 {
                pen.line(&ends, palette.beneath, weight)?;
            } else {
                pen.dashes(&ends, 0.4 * palette.text_size * scale, palette.answer, weight)?;
            }
        }
    }
    Ok(())
}

/// Dots stand in the middle where lines end in them; otherwise those of like value stand aside.
fn draw_dots<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    place: usize,
    values: &[f64],
    is_joined: bool,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let radius = if is_joined { 0.7 } else { 0.45 } * palette.symbol * scale;
    for (count, &value) in values.iter().enumerate() {
        // Five columns in turn: the same value twice in a row is still two dots.
        let aside = if is_joined { 0.0 } else { (count % 5) as f64 / 2.0 - 1.0 };
        let at = axes.at((middle(place) + ASIDE * aside, value));
        pen.dot(at, radius, palette.student)?;
    }
    Ok(())
}

fn draw_box<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    axes: &Axes,
    place: usize,
    values: &[f64],
    look: &Look<'_>,
) -> Drawn<DB> {
    let Some(five) = FiveNumbers::of(values).filter(|_| values.len() > 2) else { return Ok(()) };
    let Look { palette, scale, .. } = *look;
    let weight = (1.5 * palette.line_weight * scale).max(1.0);
    let side = if place == 0 { -BOX.0 } else { BOX.0 };
    let x = |aside: f64| axes.x(middle(place) + side + aside);
    let (left, right) = (x(-BOX.1), x(BOX.1));
    let whiskers = values.iter().copied().filter(|&value| !five.is_outlying(value));
    let (low, high) = whiskers
        .fold((five.lower_quartile, five.upper_quartile), |(low, high), value| {
            (low.min(value), high.max(value))
        });
    let (lower, upper) = (axes.y(five.lower_quartile), axes.y(five.upper_quartile));
    let corners = [(left, lower), (left, upper), (right, upper), (right, lower), (left, lower)];
    pen.fill(Rect::new(left, upper, right, lower), palette.chosen, 1.0)?;
    pen.line(&corners, palette.text, weight)?;
    pen.upright(x(0.0), axes.y(low), lower, palette.text, weight)?;
    pen.upright(x(0.0), upper, axes.y(high), palette.text, weight)?;
    pen.level(axes.y(five.median), left, right, palette.text, 2.5 * weight)?;
    for &value in values.iter().filter(|&&value| five.is_outlying(value)) {
        let arm = palette.symbol * scale;
        let inks = (palette.active, palette.paper);
        pen.open_diamond((x(0.0), axes.y(value)), arm, inks, weight)?;
    }
    Ok(())
}
