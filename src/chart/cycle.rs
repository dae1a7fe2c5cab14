//! One cardiac cycle as a figure: the trace, its points, and brackets for PR, QRS and QT in ms.
//!
//! PR runs from P onset to QRS onset, QRS from its onset to its end, QT from QRS onset to T end
//! (AHA/ACCF/HRS 2009, J Am Coll Cardiol 53:982). An interval whose ends have no place, or come in
//! the wrong order, has no bracket. Without samples the figure is empty paper.

use super::DrawError;
use super::pen::{Drawn, Pen, Writing, written_width};
use super::projection::{Frame, Margins, Projection};
use super::scene::{Look, PointMark, Role, TraceScene};
use super::summary::summary;
use super::trace::draw_scene;
use super::viewport::Viewport;
use crate::signal::{Envelope, Landmark, Landmarks, SampleRate, VoltageUnit};
use crate::words::{Language, decimal, say_with};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::text_anchor::HPos;

/// The intervals of a cycle, each in a row of its own.
const INTERVALS: [(&str, Landmark, Landmark); 3] = [
    ("PR", Landmark::POnset, Landmark::QrsOnset),
    ("QRS", Landmark::QrsOnset, Landmark::QrsEnd),
    ("QT", Landmark::QrsOnset, Landmark::TEnd),
];
/// The height of a row of brackets, in text sizes.
const ROW: f64 = 1.5;

/// One cycle: a stretch of a recording, or the typical beat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CycleScene<'a> {
    /// The samples.
    pub samples: &'a [f32],
    /// Samples a second.
    pub rate: SampleRate,
    /// What the values are.
    pub unit: VoltageUnit,
    /// The points, counted from the first of `samples`.
    pub landmarks: Landmarks,
    /// Whose points they are.
    pub role: Role,
}

impl CycleScene<'_> {
    /// Its points as marks on the trace.
    pub(super) fn points(&self) -> Vec<PointMark> {
        let mark = |(landmark, at)| PointMark { landmark, at, role: self.role };
        self.landmarks.iter().map(mark).collect()
    }

    /// What it shows, in a few sentences.
    pub fn summary(&self, language: Language) -> String {
        let envelope = Envelope::new(self.samples.into());
        let points = self.points();
        let viewport = Viewport::fit(&envelope, self.rate);
        let bare = TraceScene::bare(&envelope, self.rate, viewport);
        summary(&TraceScene { unit: self.unit, points: &points, ..bare }, language)
    }
}

/// Draws a cycle over the whole of an area, as large as it fits.
///
/// # Errors
/// Only those of the backend.
pub fn draw_cycle<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &CycleScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    let envelope = Envelope::new(scene.samples.into());
    let points = scene.points();
    let trace = TraceScene {
        unit: scene.unit,
        points: &points,
        ..TraceScene::bare(&envelope, scene.rate, Viewport::fit(&envelope, scene.rate))
    };
    let rows = ROW * look.palette.text_size * (INTERVALS.len() as f64 + 0.3);
    let projection = draw_scene(area, &trace, look, |frame| Frame {
        margins: Margins { bottom: frame.margins.bottom + rows, ..frame.margins },
        ..frame
    })?;
    draw_intervals(&Pen::new(area), scene, &projection, look)
}

fn draw_intervals<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &CycleScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let text = palette.text_size * scale;
    let weight = 1.5 * palette.line_weight * scale;
    let mut row = projection.frame.height - ROW * text * INTERVALS.len() as f64 + 0.5 * text;
    for (name, from, to) in INTERVALS {
        let ends = scene.landmarks.at(from).zip(scene.landmarks.at(to));
        let samples = scene.landmarks.between(from, to);
        if let Some(((start, end), samples)) = ends.zip(samples) {
            let (left, right) =
                (projection.x_of(start, scene.rate), projection.x_of(end, scene.rate));
            let end_height = 0.4 * text;
            pen.level(row, left, right, palette.text, weight)?;
            for x in [left, right] {
                pen.upright(x, row - end_height, row + end_height, palette.text, weight)?;
            }
            let time = decimal(language, samples as f64 / scene.rate.hz() * 1000.0, 0);
            let words = say_with(language, "chart.interval", &[("name", name), ("time", &time)]);
            // Behind the bracket, or before it where the drawing ends.
            let gap = 0.5 * text;
            let (at, align) = if right + gap + written_width(&words, text) < projection.frame.width
            {
                (right + gap, HPos::Left)
            } else {
                (left - gap, HPos::Right)
            };
            pen.write(&words, (at, row), Writing::new(palette.text, text, align))?;
        }
        row += ROW * text;
    }
    Ok(())
}
