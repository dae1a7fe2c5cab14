//! A plot with two straight axes: where a value falls, and the lines and numbers around it.

use super::pen::{Drawn, Pen, Rect, Writing};
use super::scene::Look;
use super::ticks::Ticks;
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// A plot and the values at its edges.
#[derive(Clone, Copy, Debug)]
pub(super) struct Axes {
    /// Where the plot lies, in pixels.
    pub(super) plot: Rect,
    /// The values at its left and right edge.
    pub(super) across: (f64, f64),
    /// The values at its bottom and top edge.
    pub(super) up: (f64, f64),
}

/// What runs along the lower edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Below {
    /// Seconds, with numbers.
    Seconds,
    /// Values, with numbers.
    Values,
    /// Lines for seconds, without numbers: they stand beneath another plot.
    SecondsUnwritten,
    /// Nothing: names are written by whoever draws.
    Nothing,
}

impl Axes {
    /// Where a value lies across.
    pub(super) fn x(&self, value: f64) -> f64 {
        let (from, to) = self.across;
        self.plot.left + (value - from) / (to - from) * self.plot.width()
    }

    /// Where a value lies up.
    pub(super) fn y(&self, value: f64) -> f64 {
        let (from, to) = self.up;
        self.plot.bottom - (value - from) / (to - from) * (self.plot.bottom - self.plot.top)
    }

    /// Where a point lies.
    pub(super) fn at(&self, (across, up): (f64, f64)) -> (f64, f64) {
        (self.x(across), self.y(up))
    }

    /// The lines and numbers, and the names of both axes; an empty name is not written.
    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        pen: &Pen<'_, DB>,
        look: &Look<'_>,
        below: Below,
        (name_below, name_above): (&str, &str),
    ) -> Drawn<DB> {
        let Look { palette, scale, language, .. } = *look;
        let (plot, text) = (self.plot, palette.text_size * scale);
        let line = (palette.line_weight * scale).max(1.0);
        let writing = |align| Writing::new(palette.text, text, align);
        let room = |span: (f64, f64), pixels: f64, letters: f64| {
            (span.1 - span.0) * letters * text / pixels.max(1.0)
        };
        let apart = room(self.across, plot.width(), 4.0);
        let ticks = match below {
            Below::Seconds | Below::SecondsUnwritten => {
                Ticks::of_time(self.across.0, self.across.1, apart)
            }
            Below::Values => Ticks::of_value(self.across.0, self.across.1, apart),
            Below::Nothing => Ticks::every(0.0, 0.0, 0.0),
        };
        for value in ticks.values() {
            let x = self.x(value);
            pen.upright(x, plot.top, plot.bottom, palette.grid_large, palette.grid_weight * scale)?;
            if below != Below::SecondsUnwritten {
                let at = (x, plot.bottom + 0.9 * text);
                pen.write(&ticks.written(language, value), at, writing(HPos::Center))?;
            }
        }
        let heights =
            Ticks::of_value(self.up.0, self.up.1, room(self.up, plot.bottom - plot.top, 2.5));
        for value in heights.values() {
            let y = self.y(value);
            pen.level(y, plot.left, plot.right, palette.grid_large, palette.grid_weight * scale)?;
            // A number at the very top would run into the name.
            if !name_above.is_empty() && y < plot.top + 0.1 * text {
                continue;
            }
            let at = (plot.left - 0.5 * text, y);
            pen.write(&heights.written(language, value), at, writing(HPos::Right))?;
        }
        pen.level(plot.bottom, plot.left, plot.right, palette.axis, line)?;
        pen.upright(plot.left, plot.top, plot.bottom, palette.axis, line)?;
        if !name_below.is_empty() {
            pen.write(name_below, (plot.left, plot.bottom + 2.3 * text), writing(HPos::Left))?;
        }
        if name_above.is_empty() {
            return Ok(());
        }
        let at = (0.5 * text, plot.top - 0.9 * text);
        pen.write(name_above, at, writing(HPos::Left).bold())
    }
}

/// The span of some values with room about it, at least so wide; `None` of none.
pub(super) fn span(
    values: impl IntoIterator<Item = f64>,
    room: f64,
    least: f64,
) -> Option<(f64, f64)> {
    let finite = values.into_iter().filter(|value| value.is_finite());
    let (low, high) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let half = (high - low + 2.0 * room).max(least) / 2.0;
    let middle = f64::midpoint(low, high);
    (low <= high).then_some((middle - half, middle + half))
}
