//! Where a moment and a value fall on a drawing, and back.
//!
//! The page asks in CSS pixels, the drawing code in device pixels: [`Frame::scaled`] is the only
//! difference. y grows downwards, as on every screen. A frame with no room keeps one pixel of plot,
//! so that nothing is ever divided by zero.

use super::palette::Palette;
use super::pen::Rect;
use super::viewport::Viewport;
use crate::signal::{SampleIndex, SampleRate, Seconds, VoltageUnit};

/// The room around the plot, in pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Margins {
    /// Left of the plot: the voltage axis.
    pub left: f64,
    /// Right of it.
    pub right: f64,
    /// Above it: beat numbers.
    pub top: f64,
    /// Below it: the time axis and the scale.
    pub bottom: f64,
}

/// The size of a drawing and the room around its plot, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The whole width.
    pub width: f64,
    /// The whole height.
    pub height: f64,
    /// The room around the plot.
    pub margins: Margins,
}

impl Frame {
    /// The frame of a trace drawn with a palette on so many CSS pixels.
    pub fn of_trace(width: f64, height: f64, palette: &Palette) -> Self {
        let line = palette.text_size * 1.6;
        let margins =
            Margins { left: line * 2.4, right: line * 0.5, top: line * 1.3, bottom: line * 2.2 };
        Self { width, height, margins }
    }

    /// The same frame on a denser grid of pixels, such as the device's.
    #[must_use]
    pub fn scaled(self, scale: f64) -> Self {
        let Margins { left, right, top, bottom } = self.margins;
        Self {
            width: self.width * scale,
            height: self.height * scale,
            margins: Margins {
                left: left * scale,
                right: right * scale,
                top: top * scale,
                bottom: bottom * scale,
            },
        }
    }

    /// The width of the plot, at least one pixel.
    pub fn plot_width(&self) -> f64 {
        (self.width - self.margins.left - self.margins.right).max(1.0)
    }

    /// The height of the plot, at least one pixel.
    pub fn plot_height(&self) -> f64 {
        (self.height - self.margins.top - self.margins.bottom).max(1.0)
    }

    /// Whether a pixel lies on the plot.
    pub fn contains(&self, x: f64, y: f64) -> bool {
        let plot = self.plot();
        (plot.left..=plot.right).contains(&x) && (plot.top..=plot.bottom).contains(&y)
    }

    pub(super) fn plot(&self) -> Rect {
        let (left, top) = (self.margins.left, self.margins.top);
        Rect::new(left, top, left + self.plot_width(), top + self.plot_height())
    }
}

/// A viewport laid on a frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Projection {
    /// What is in view.
    pub viewport: Viewport,
    /// Where it is drawn.
    pub frame: Frame,
}

impl Projection {
    /// Lays a viewport on a frame.
    pub const fn new(viewport: Viewport, frame: Frame) -> Self {
        Self { viewport, frame }
    }

    /// Where a moment falls, in pixels from the left.
    pub fn x(&self, moment: Seconds) -> f64 {
        self.frame.margins.left + (moment - self.viewport.start).seconds() * self.px_per_second()
    }

    /// The moment at a pixel.
    pub fn time(&self, x: f64) -> Seconds {
        self.viewport.start + Seconds::new((x - self.frame.margins.left) / self.px_per_second())
    }

    /// Where a value falls, in pixels from the top.
    pub fn y(&self, value: f64) -> f64 {
        self.frame.margins.top
            + self.frame.plot_height() / 2.0
            + (self.viewport.middle - value) * self.px_per_unit()
    }

    /// The value at a pixel.
    pub fn value(&self, y: f64) -> f64 {
        let down = y - self.frame.margins.top - self.frame.plot_height() / 2.0;
        self.viewport.middle - down / self.px_per_unit()
    }

    /// Where a sample falls, in pixels from the left.
    pub fn x_of(&self, sample: SampleIndex, rate: SampleRate) -> f64 {
        self.x(rate.time_of(sample))
    }

    /// The sample nearest to a pixel, of a trace with `length` samples; `None` when it has none.
    pub fn sample_at(&self, x: f64, rate: SampleRate, length: usize) -> Option<SampleIndex> {
        let last = length.checked_sub(1)?;
        Some(rate.nearest(self.time(x)).min(SampleIndex::new(last)))
    }

    /// Pixels a second.
    pub fn px_per_second(&self) -> f64 {
        self.frame.plot_width() / self.viewport.span.seconds()
    }

    /// Pixels for one unit of the recording.
    pub fn px_per_unit(&self) -> f64 {
        self.frame.plot_height() / self.viewport.height
    }

    /// Speed in mm/s and, when the unit is millivolts, gain in mm/mV, on a drawing of which so many
    /// pixels make a millimetre.
    pub fn paper_scale(&self, px_per_mm: f64, unit: VoltageUnit) -> (f64, Option<f64>) {
        let gain = (unit == VoltageUnit::Millivolt).then(|| self.px_per_unit() / px_per_mm);
        (self.px_per_second() / px_per_mm, gain)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::CSS_PX_PER_MM;
    use proptest::prelude::*;

    #[test]
    fn at_paper_scale_millimetres_are_those_of_the_trade() {
        // Worked example `grid` (25 mm/s, 10 mm/mV): 1, 5, 25 mm are 40, 200, 1000 ms; 1, 5, 10 mm
        // are 0.1, 0.5, 1 mV.
        let frame = Frame::of_trace(1000.0, 500.0, &Palette::PRINT);
        let viewport = Viewport::paper(&frame, CSS_PX_PER_MM, Seconds::new(3.0), 0.2);
        let on_paper = Projection::new(viewport, frame);
        let origin = (on_paper.x(Seconds::new(4.0)), on_paper.y(0.0));
        for (mm, ms) in [(1.0, 40.0), (5.0, 200.0), (25.0, 1000.0)] {
            let later = on_paper.time(origin.0 + mm * CSS_PX_PER_MM) - Seconds::new(4.0);
            assert!((later.to_milliseconds().milliseconds() - ms).abs() < 1e-9, "{mm} mm");
        }
        for (mm, mv) in [(1.0, 0.1), (5.0, 0.5), (10.0, 1.0)] {
            let higher = on_paper.value(origin.1 - mm * CSS_PX_PER_MM);
            assert!((higher - mv).abs() < 1e-9, "{mm} mm");
        }
        let (speed, gain) = on_paper.paper_scale(CSS_PX_PER_MM, VoltageUnit::Millivolt);
        assert!((speed - 25.0).abs() < 1e-9 && (gain.unwrap() - 10.0).abs() < 1e-9);
        assert_eq!(on_paper.paper_scale(CSS_PX_PER_MM, VoltageUnit::Counts).1, None);
    }

    #[test]
    fn a_pointer_finds_the_nearest_sample_and_no_other() {
        let rate = SampleRate::new(100.0).unwrap();
        let frame = Frame { width: 500.0, height: 100.0, margins: Margins::default() };
        let viewport = Viewport {
            start: Seconds::new(1.0),
            span: Seconds::new(0.5),
            middle: 0.0,
            height: 2.0,
        };
        let projection = Projection::new(viewport, frame);
        assert_eq!(projection.sample_at(104.9, rate, 1000), Some(SampleIndex::new(110)));
        assert_eq!(projection.sample_at(105.1, rate, 1000), Some(SampleIndex::new(111)));
        assert_eq!(projection.sample_at(-1e9, rate, 1000), Some(SampleIndex::new(0)));
        assert_eq!(projection.sample_at(1e9, rate, 120), Some(SampleIndex::new(119)));
        assert_eq!(projection.sample_at(10.0, rate, 0), None);
    }

    proptest! {
        #[test]
        fn there_and_back_is_the_same(
            start in 0.0..3600.0f64, span in 0.1..3600.0f64,
            middle in -5.0..5.0f64, height in 0.01..50.0f64,
            size in (0.0..3000.0f64, 0.0..2000.0f64), scale in 0.5..4.0f64,
            part in (0.0..1.0f64, 0.0..1.0f64),
        ) {
            let viewport =
                Viewport { start: Seconds::new(start), span: Seconds::new(span), middle, height };
            let frame = Frame::of_trace(size.0, size.1, &Palette::LIGHT);
            let css = Projection::new(viewport, frame);
            let moment = Seconds::new(start + part.0 * span);
            let value = middle + (part.1 - 0.5) * height;
            prop_assert!((css.time(css.x(moment)) - moment).abs().seconds() < 1e-9 * (start + span));
            prop_assert!((css.value(css.y(value)) - value).abs() < 1e-9 * height.max(5.0));
            prop_assert!(frame.contains(css.x(moment), css.y(value)));
            // What the pointer asks in CSS pixels is what was drawn in device pixels. A plot
            // without room keeps one pixel whatever the scale.
            if frame.plot_width() > 2.0 && frame.plot_height() > 2.0 {
                let device = Projection::new(viewport, frame.scaled(scale));
                prop_assert!((device.x(moment) - scale * css.x(moment)).abs() < 1e-6);
                prop_assert!((device.y(value) - scale * css.y(value)).abs() < 1e-6);
            }
        }
    }
}
