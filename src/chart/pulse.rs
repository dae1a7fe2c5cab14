//! The calibration pulse: how high 1 mV is, drawn at the left of the paper.
//!
//! 1 mV high (AHA/ACC/HRS 2007, Circulation 115:1306) and 200 ms wide (common practice): 10 mm by
//! 5 mm at true paper scale. It stands clear of the trace where there is room, else on a pale ground
//! over it. No pulse where it would fill the view or be too thin to see, and none without millivolts.

use super::paper::SMALL;
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{Look, TraceScene};
use crate::signal::{SampleSpan, VoltageUnit};
use crate::words::say;
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// s and mV.
const PULSE: (f64, f64) = (0.2, 1.0);

/// Draws the pulse where it fits.
pub(super) fn draw_pulse<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let Look { palette, scale, language, .. } = *look;
    let plot = projection.frame.plot();
    let text = palette.text_size * scale;
    let (wide, high) = (PULSE.0 * projection.px_per_second(), PULSE.1 * projection.px_per_unit());
    let foot = wide / 5.0;
    let label = say(language, "chart.pulse");
    let room = wide + 2.0 * foot + written_width(&label, text) + text;
    let fits = room < plot.width() * 0.3
        && high + text < (plot.bottom - plot.top) * 0.6
        && wide >= 6.0 * scale;
    if scene.unit != VoltageUnit::Millivolt || !fits {
        return Ok(());
    }
    let view = &projection.viewport;
    let until = projection.time(plot.left + room);
    let span =
        SampleSpan::new(scene.rate.nearest(view.start).get(), scene.rate.nearest(until).get() + 1);
    let trace = scene
        .envelope
        .extent(span)
        .map(|extent| (projection.y(extent.high.into()), projection.y(extent.low.into())));
    // On the lowest line of a small box that leaves a foot's room below; else right below the top.
    let line = |y: f64| projection.y((projection.value(y) / SMALL.1).ceil() * SMALL.1);
    let low = line(plot.bottom - 0.4 * text);
    let upper = line(plot.top + high + 0.6 * text);
    let (is_clear, base) = match trace {
        Some((_, bottom)) if bottom < low - high - 0.4 * text => (true, low),
        Some((top, _)) if top > upper + 0.4 * text => (true, upper),
        Some(_) => (false, low),
        None => (true, low),
    };
    let left = plot.left + 0.4 * text;
    if !is_clear {
        let around = Rect::new(left, base - high - 0.4 * text, left + room, base + 0.3 * text);
        pen.fill(around, palette.paper, 0.85)?;
    }
    let corners = [
        (left, base),
        (left + foot, base),
        (left + foot, base - high),
        (left + foot + wide, base - high),
        (left + foot + wide, base),
        (left + 2.0 * foot + wide, base),
    ];
    pen.line(&corners, palette.axis, 1.5 * palette.line_weight * scale)?;
    let at = (left + 2.0 * foot + wide + 0.3 * text, base - high / 2.0);
    pen.write(&label, at, Writing::new(palette.text, text, HPos::Left))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::{CSS_PX_PER_MM, Frame, Palette, SvgText, Viewport, draw_trace, to_svg};
    use crate::signal::{Envelope, SampleRate, Seconds};
    use crate::words::Language;

    /// The corners of the pulse on a strip at true paper scale, in quarters of a CSS pixel.
    fn corners(unit: VoltageUnit) -> Option<Vec<(f64, f64)>> {
        let envelope = Envelope::new(vec![0.0; 1000].into());
        let frame = Frame::of_trace(700.0, 300.0, &Palette::PRINT);
        let scene = TraceScene {
            unit,
            ..TraceScene::bare(
                &envelope,
                SampleRate::new(100.0).unwrap(),
                Viewport::paper(&frame, CSS_PX_PER_MM, Seconds::new(0.0), 0.0),
            )
        };
        let look = Look {
            palette: &Palette::PRINT,
            scale: 4.0,
            px_per_mm: Some(CSS_PX_PER_MM),
            language: Language::English,
        };
        let text = SvgText { title: "", description: "" };
        let svg = to_svg((700, 300), 4, text, |area| draw_trace(area, &scene, &look)).unwrap();
        let paths = svg.split("points=\"").skip(1).filter_map(|rest| rest.split('"').next());
        let numbers = |pair: &str| {
            let (x, y) = pair.split_once(',').unwrap();
            (x.parse().unwrap(), y.parse().unwrap())
        };
        let mut paths = paths.map(|path| path.split_whitespace().map(numbers).collect::<Vec<_>>());
        paths.find(|path| path.len() == 6)
    }

    #[test]
    fn it_is_ten_millimetres_high_and_five_wide() {
        let corners = corners(VoltageUnit::Millivolt).unwrap();
        let px_per_mm = 4.0 * CSS_PX_PER_MM;
        let high = (corners[1].1 - corners[2].1) / px_per_mm;
        let wide = (corners[3].0 - corners[2].0) / px_per_mm;
        // Whole quarters of a pixel: 0.07 mm.
        assert!((high - 10.0).abs() < 0.07, "{high} mm high");
        assert!((wide - 5.0).abs() < 0.07, "{wide} mm wide");
    }

    #[test]
    fn counts_have_none() {
        assert_eq!(corners(VoltageUnit::Counts), None);
    }
}
