//! The few strokes all drawings are made of, in the pixels of the backend.
//!
//! plotters draws on whole pixels and adds offsets to them; [`Pen`] rounds, and keeps coordinates so
//! far from the limits of `i32` that no sum overflows. Lines along the axes are filled boxes: on a
//! canvas a stroke on a whole pixel would blur over two.

use super::DrawError;
use super::palette::Ink;
use plotters::coord::Shift;
use plotters::prelude::{
    Circle, DrawingArea, DrawingBackend, IntoFont, PathElement, Polygon, Rectangle,
};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontFamily, FontStyle, RGBColor, ShapeStyle, TextStyle};

/// Widths of writing are estimated, the same on every backend: an average sans-serif letter, as a
/// part of the text size (common practice).
const LETTER: f64 = 0.56;

/// A box in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rect {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Rect {
    pub(super) const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self { left, top, right, bottom }
    }

    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    pub(super) fn within(&self, other: &Self) -> bool {
        self.left >= other.left
            && self.right <= other.right
            && self.top >= other.top
            && self.bottom <= other.bottom
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }
}

/// How a piece of writing looks. The size is in pixels of the backend.
#[derive(Clone, Copy)]
pub(super) struct Writing {
    pub(super) ink: Ink,
    pub(super) size: f64,
    pub(super) align: HPos,
    pub(super) weight: FontStyle,
}

impl Writing {
    pub(super) const fn new(ink: Ink, size: f64, align: HPos) -> Self {
        Self { ink, size, align, weight: FontStyle::Normal }
    }

    pub(super) const fn bold(self) -> Self {
        Self { weight: FontStyle::Bold, ..self }
    }
}

/// How wide some writing is, about.
pub(super) fn written_width(words: &str, size: f64) -> f64 {
    words.chars().count() as f64 * size * LETTER
}

/// Draws on one area.
pub(super) struct Pen<'a, DB: DrawingBackend> {
    area: &'a DrawingArea<DB, Shift>,
}

pub(super) type Drawn<DB> = Result<(), DrawError<DB>>;

impl<'a, DB: DrawingBackend> Pen<'a, DB> {
    pub(super) const fn new(area: &'a DrawingArea<DB, Shift>) -> Self {
        Self { area }
    }

    /// Fills the whole area.
    pub(super) fn cover(&self, ink: Ink) -> Drawn<DB> {
        let (width, height) = self.area.dim_in_pixel();
        self.fill(Rect::new(0.0, 0.0, width.into(), height.into()), ink, 1.0)
    }

    /// Fills a box; one that is thinner than a pixel becomes a pixel.
    pub(super) fn fill(&self, shape: Rect, ink: Ink, opacity: f64) -> Drawn<DB> {
        let (left, top) = pixel((shape.left, shape.top));
        let (right, bottom) = pixel((shape.right, shape.bottom));
        let corners = [(left, top), (right.max(left + 1), bottom.max(top + 1))];
        self.area.draw(&Rectangle::new(corners, RGBColor::from(ink).mix(opacity).filled()))
    }

    /// An upright line.
    pub(super) fn upright(&self, x: f64, from: f64, to: f64, ink: Ink, weight: f64) -> Drawn<DB> {
        let left = (x - weight / 2.0).round();
        self.fill(Rect::new(left, from.min(to), left + weight.round(), from.max(to)), ink, 1.0)
    }

    /// A level line.
    pub(super) fn level(&self, y: f64, from: f64, to: f64, ink: Ink, weight: f64) -> Drawn<DB> {
        let top = (y - weight / 2.0).round();
        self.fill(Rect::new(from.min(to), top, from.max(to), top + weight.round()), ink, 1.0)
    }

    /// A line through points.
    pub(super) fn line(&self, points: &[(f64, f64)], ink: Ink, weight: f64) -> Drawn<DB> {
        let points: Vec<(i32, i32)> = points.iter().copied().map(pixel).collect();
        let weight = weight.round().clamp(1.0, 1000.0) as u32;
        let style = ShapeStyle::from(RGBColor::from(ink)).stroke_width(weight);
        self.area.draw(&PathElement::new(points, style))
    }

    /// A broken line through points: dashes and gaps of one length.
    pub(super) fn dashes(
        &self,
        points: &[(f64, f64)],
        dash: f64,
        ink: Ink,
        weight: f64,
    ) -> Drawn<DB> {
        let dash = dash.max(1.0);
        let mut walked = 0.0;
        let mut part: Vec<(f64, f64)> = Vec::new();
        for pair in points.windows(2) {
            let [from, to] = [pair[0], pair[1]];
            let length = (to.0 - from.0).hypot(to.1 - from.1);
            // Steps of a part of a dash, so that dashes and gaps come out even.
            let steps = (6.0 * length / dash).ceil().clamp(1.0, 10_000.0) as u32;
            for step in 0..steps {
                let share = f64::from(step) / f64::from(steps);
                let here = (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
                let is_drawn = (((walked + share * length) / dash) as i64) % 2 == 0;
                if is_drawn || !part.is_empty() {
                    part.push(here);
                }
                if !is_drawn && part.len() > 1 {
                    self.line(&part, ink, weight)?;
                    part.clear();
                }
            }
            walked += length;
        }
        if !part.is_empty() {
            part.extend(points.last());
        }
        if part.len() > 1 { self.line(&part, ink, weight) } else { Ok(()) }
    }

    /// A cross.
    pub(super) fn cross(&self, (x, y): (f64, f64), arm: f64, ink: Ink, weight: f64) -> Drawn<DB> {
        self.line(&[(x - arm, y - arm), (x + arm, y + arm)], ink, weight)?;
        self.line(&[(x - arm, y + arm), (x + arm, y - arm)], ink, weight)
    }

    /// A diamond with paper inside.
    pub(super) fn open_diamond(
        &self,
        (x, y): (f64, f64),
        arm: f64,
        (ink, paper): (Ink, Ink),
        weight: f64,
    ) -> Drawn<DB> {
        let corners = [(x - arm, y), (x, y - arm), (x + arm, y), (x, y + arm)];
        self.shape(&corners, paper)?;
        let [first, ..] = corners;
        let around: Vec<(f64, f64)> = corners.into_iter().chain([first]).collect();
        self.line(&around, ink, weight)
    }

    /// A filled triangle about a point, so far to each side; it points up for a `way` of -1, down for 1.
    pub(super) fn triangle(&self, (x, y): (f64, f64), side: f64, way: f64, ink: Ink) -> Drawn<DB> {
        let (tip, foot) = (y + 0.9 * way * side, y - 0.7 * way * side);
        self.shape(&[(x - side, foot), (x + side, foot), (x, tip)], ink)
    }

    /// A filled shape with corners.
    pub(super) fn shape(&self, corners: &[(f64, f64)], ink: Ink) -> Drawn<DB> {
        let corners: Vec<(i32, i32)> = corners.iter().copied().map(pixel).collect();
        self.area.draw(&Polygon::new(corners, RGBColor::from(ink).filled()))
    }

    /// A filled dot.
    pub(super) fn dot(&self, at: (f64, f64), radius: f64, ink: Ink) -> Drawn<DB> {
        let style = RGBColor::from(ink).filled();
        self.area.draw(&Circle::new(pixel(at), radius.round().clamp(1.0, 1000.0) as u32, style))
    }

    /// Writing whose middle line is at a height.
    pub(super) fn write(&self, words: &str, at: (f64, f64), writing: Writing) -> Drawn<DB> {
        let font = (FontFamily::SansSerif, writing.size.clamp(1.0, 1000.0))
            .into_font()
            .style(writing.weight);
        let colour = RGBColor::from(writing.ink);
        let style = TextStyle::from(font).color(&colour).pos(Pos::new(writing.align, VPos::Center));
        self.area.draw_text(words, &style, pixel(at))
    }
}

/// The nearest pixel. `as` turns what is not a number into 0.
fn pixel((x, y): (f64, f64)) -> (i32, i32) {
    const FAR: f64 = 1.0e6;
    (x.round().clamp(-FAR, FAR) as i32, y.round().clamp(-FAR, FAR) as i32)
}
