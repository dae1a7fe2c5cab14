//! The key above a plot: a sample of each sign and its word, from the right edge inwards.
//!
//! A word that would run into what stands at the left is left out, with its sign; the summary says it all.

use super::palette::Ink;
use super::pen::{Drawn, Pen, Writing, written_width};
use super::scene::Look;
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// How a sign looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sign {
    /// A line.
    Line,
    /// A broken line.
    Broken,
    /// A dot.
    Dot,
    /// A cross.
    Cross,
    /// A triangle that points up.
    Up,
    /// A triangle that points down.
    Down,
}

/// Draws the key on a row; `free_from` is where what stands at the left ends.
pub(super) fn draw_key<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    look: &Look<'_>,
    (free_from, right, row): (f64, f64, f64),
    signs: &[(Sign, Ink, &str)],
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.5 * palette.trace_weight * scale;
    let mut end = right;
    for &(sign, ink, word) in signs.iter().rev() {
        let left = end - written_width(word, text);
        let length = if matches!(sign, Sign::Line | Sign::Broken) { 2.0 } else { 1.0 };
        let sample = (left - (length + 0.4) * text, left - 0.4 * text);
        if sample.0 < free_from {
            break;
        }
        let middle = (left - 0.9 * text, row);
        let arm = 0.6 * palette.symbol * scale;
        match sign {
            Sign::Dot => pen.dot(middle, 0.55 * arm.max(4.0), ink)?,
            Sign::Cross => pen.cross(middle, arm, ink, palette.line_weight * scale)?,
            Sign::Up => pen.triangle(middle, palette.symbol * scale, -1.0, ink)?,
            Sign::Down => pen.triangle(middle, palette.symbol * scale, 1.0, ink)?,
            Sign::Line => pen.line(&[(sample.0, row), (sample.1, row)], ink, weight)?,
            Sign::Broken => {
                pen.dashes(&[(sample.0, row), (sample.1, row)], 0.4 * text, ink, weight)?;
            }
        }
        pen.write(word, (left, row), Writing::new(palette.text, text, HPos::Left))?;
        end = sample.0 - 0.8 * text;
    }
    Ok(())
}
