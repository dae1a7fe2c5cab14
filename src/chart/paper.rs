//! ECG paper: boxes, axes and a line that says how large a box is.
//!
//! Small boxes are 40 ms by 0.1 mV, large ones 200 ms by 0.5 mV, at every zoom: at 25 mm/s and
//! 10 mm/mV they measure 1 mm and 5 mm (standard presentation; AHA/ACC/HRS 2007, Circulation
//! 115:1306). Lines too close to be told apart are left out. A trace without millivolts gets
//! level lines at round values instead: its heights can't be measured.

use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{Look, TraceScene};
use super::ticks::Ticks;
use crate::signal::{Seconds, VoltageUnit};
use crate::words::{decimal, say, say_with};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// A small box: s and mV.
pub(super) const SMALL: (f64, f64) = (0.04, 0.1);
/// A large box: s and mV.
const LARGE: (f64, f64) = (0.2, 0.5);
/// Grid lines closer than this many CSS pixels would only grey the paper. A millimetre of true paper
/// has 3.8.
const CLOSEST: f64 = 3.6;
/// Large boxes narrower than this many CSS pixels look like bars, not boxes.
const CLOSEST_LARGE: f64 = 7.0;
/// A scale within this part of a round one is called by its name.
const TRUE_SCALE: f64 = 0.005;
/// Speeds, mm/s, and gains, mm/mV, in use for paper (common practice).
const SPEEDS: [f64; 3] = [25.0, 50.0, 12.5];
const GAINS: [f64; 3] = [10.0, 20.0, 5.0];

/// Which lines there is room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Grid {
    /// Only the lines of the axes.
    Axes,
    /// Large boxes.
    Large,
    /// Small boxes in large ones.
    Small,
}

fn grid(px_across: f64, px_up: Option<f64>, scale: f64) -> Grid {
    let fits = |(across, up): (f64, f64), closest: f64| {
        px_across * across >= closest * scale
            && px_up.is_none_or(|px_up| px_up * up >= closest * scale)
    };
    if fits(SMALL, CLOSEST) {
        Grid::Small
    } else if fits(LARGE, CLOSEST_LARGE) {
        Grid::Large
    } else {
        Grid::Axes
    }
}

/// Paper under one scene.
pub(super) struct Paper<'a, DB: DrawingBackend> {
    pen: &'a Pen<'a, DB>,
    projection: &'a Projection,
    look: &'a Look<'a>,
    unit: VoltageUnit,
    plot: Rect,
    grid: Grid,
    times: Ticks,
    values: Ticks,
}

impl<'a, DB: DrawingBackend> Paper<'a, DB> {
    pub(super) fn new(
        pen: &'a Pen<'a, DB>,
        projection: &'a Projection,
        look: &'a Look<'a>,
        scene: &TraceScene<'_>,
    ) -> Self {
        let unit = scene.unit;
        let text = look.palette.text_size * look.scale;
        let (across, up) = (projection.px_per_second(), projection.px_per_unit());
        let view = &projection.viewport;
        let (low, high) = (view.middle - view.height / 2.0, view.middle + view.height / 2.0);
        let most = if scene.hurries { Grid::Large } else { Grid::Small };
        let px_up = (unit == VoltageUnit::Millivolt).then_some(up);
        Self {
            pen,
            projection,
            look,
            unit,
            plot: projection.frame.plot(),
            grid: grid(across, px_up, look.scale).min(most),
            times: Ticks::of_time(view.start.seconds(), view.end().seconds(), 5.0 * text / across),
            values: match unit {
                VoltageUnit::Millivolt => Ticks::of_millivolts(low, high, 2.2 * text / up),
                _ => Ticks::of_value(low, high, 2.2 * text / up),
            },
        }
    }

    /// The boxes; everything else goes over them.
    pub(super) fn draw_grid(&self) -> Drawn<DB> {
        let palette = self.look.palette;
        let view = &self.projection.viewport;
        let (start, end) = (view.start.seconds(), view.end().seconds());
        let (low, high) = (view.middle - view.height / 2.0, view.middle + view.height / 2.0);
        let mut layers = Vec::new();
        if self.grid == Grid::Small {
            layers.push((SMALL, palette.grid_small));
        }
        if self.grid >= Grid::Large {
            layers.push((LARGE, palette.grid_large));
        }
        let weight = (palette.grid_weight * self.look.scale).max(1.0);
        for &((across, up), ink) in &layers {
            for time in Ticks::every(across, start, end).values() {
                let x = self.projection.x(Seconds::new(time));
                self.pen.upright(x, self.plot.top, self.plot.bottom, ink, weight)?;
            }
            if self.unit == VoltageUnit::Millivolt {
                for value in Ticks::every(up, low, high).values() {
                    let y = self.projection.y(value);
                    self.pen.level(y, self.plot.left, self.plot.right, ink, weight)?;
                }
            }
        }
        if self.grid == Grid::Axes {
            for time in self.times.values() {
                let x = self.projection.x(Seconds::new(time));
                self.pen.upright(x, self.plot.top, self.plot.bottom, palette.grid_large, weight)?;
            }
        }
        if self.grid == Grid::Axes || self.unit != VoltageUnit::Millivolt {
            for value in self.values.values() {
                let y = self.projection.y(value);
                self.pen.level(y, self.plot.left, self.plot.right, palette.grid_large, weight)?;
            }
        }
        Ok(())
    }

    /// The edge of the plot, the labels of the axes and the scale.
    pub(super) fn draw_axes(&self) -> Drawn<DB> {
        let Look { palette, scale, language, .. } = *self.look;
        let (text, tick) = (palette.text_size * scale, 4.0 * scale);
        let weight = (palette.line_weight * scale).max(1.0);
        let Rect { left, top, right, bottom } = self.plot;
        self.pen.level(bottom, left, right, palette.axis, weight)?;
        self.pen.upright(left, top, bottom, palette.axis, weight)?;
        for time in self.times.values() {
            let x = self.projection.x(Seconds::new(time));
            self.pen.upright(x, bottom, bottom + tick, palette.axis, weight)?;
            let label = self.times.written(language, time);
            let farthest = self.projection.frame.width - written_width(&label, text) / 2.0;
            let at = (x.min(farthest), bottom + tick + 0.75 * text);
            self.pen.write(&label, at, Writing::new(palette.text, text, HPos::Center))?;
        }
        for value in self.values.values() {
            let y = self.projection.y(value);
            self.pen.level(y, left - tick, left, palette.axis, weight)?;
            let writing = Writing::new(palette.text, text, HPos::Right);
            self.pen.write(
                &self.values.written(language, value),
                (left - 1.5 * tick, y),
                writing,
            )?;
        }
        let unit = say(language, unit_key(self.unit));
        let writing = Writing::new(palette.text, text, HPos::Left).bold();
        self.pen.write(&unit, (0.4 * text, top - 0.9 * text), writing)?;

        let (caption, below) = (self.caption(), bottom + tick + 2.2 * text);
        self.pen.write(&caption, (right, below), Writing::new(palette.text, text, HPos::Right))?;
        let title = say(language, "chart.axis.time");
        if written_width(&title, text) + written_width(&caption, text) + text < self.plot.width() {
            self.pen.write(&title, (left, below), Writing::new(palette.text, text, HPos::Left))?;
        }
        Ok(())
    }

    /// How large a millivolt and a second are: the scale by name where it is true, else a box.
    fn caption(&self) -> String {
        let language = self.look.language;
        let millivolt = self.unit == VoltageUnit::Millivolt;
        let named = |value: f64, names: [f64; 3]| {
            names.into_iter().find(|&name| (value / name - 1.0).abs() <= TRUE_SCALE)
        };
        let scale =
            self.look.px_per_mm.filter(|&px_per_mm| px_per_mm > 0.0).and_then(|px_per_mm| {
                let (speed, gain) =
                    self.projection.paper_scale(px_per_mm * self.look.scale, self.unit);
                Some((named(speed, SPEEDS)?, named(gain?, GAINS)?))
            });
        if let Some((speed, gain)) = scale {
            let places = [("speed", &*speed.to_string()), ("gain", &*gain.to_string())];
            return say_with(language, "chart.caption.scale", &places);
        }
        let (key, (time, voltage)) = match (self.grid, millivolt) {
            (Grid::Small, true) => ("chart.caption.small_box", SMALL),
            (Grid::Large, true) => ("chart.caption.large_box", LARGE),
            (Grid::Small, false) => ("chart.caption.small_box_time", SMALL),
            (Grid::Large, false) => ("chart.caption.large_box_time", LARGE),
            (Grid::Axes, _) => {
                let step = self.times.step();
                let places = [("time", &*self.times.written(language, step))];
                return say_with(language, "chart.caption.lines", &places);
            }
        };
        let places = [
            ("time", &*decimal(language, time * 1000.0, 0)),
            ("voltage", &*decimal(language, voltage, 1)),
        ];
        say_with(language, key, &places)
    }
}

const fn unit_key(unit: VoltageUnit) -> &'static str {
    match unit {
        VoltageUnit::Millivolt => "chart.axis.millivolt",
        VoltageUnit::Counts => "chart.axis.counts",
        VoltageUnit::Unstated => "chart.axis.unstated",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::{
        CSS_PX_PER_MM, Frame, Palette, SvgText, TraceScene, Viewport, draw_trace, to_svg,
    };
    use crate::signal::{Envelope, SampleRate};
    use crate::words::Language;

    fn drawn(unit: VoltageUnit, span: f64, height: f64, px_per_mm: Option<f64>) -> String {
        drawn_as(false, unit, (span, height), px_per_mm)
    }

    fn drawn_as(
        hurries: bool,
        unit: VoltageUnit,
        (span, height): (f64, f64),
        px_per_mm: Option<f64>,
    ) -> String {
        let envelope = Envelope::new(vec![0.0; 100_000].into());
        let viewport =
            Viewport { start: Seconds::new(0.0), span: Seconds::new(span), middle: 0.0, height };
        let scene = TraceScene {
            unit,
            hurries,
            ..TraceScene::bare(&envelope, SampleRate::new(100.0).unwrap(), viewport)
        };
        let look =
            Look { palette: &Palette::LIGHT, scale: 1.0, px_per_mm, language: Language::English };
        let text = SvgText { title: "", description: "" };
        to_svg((800, 400), 1, text, |area| draw_trace(area, &scene, &look)).unwrap()
    }

    /// The span and height that are true paper scale on the drawing above.
    fn true_scale() -> (f64, f64) {
        let frame = Frame::of_trace(800.0, 400.0, &Palette::LIGHT);
        let paper = Viewport::paper(&frame, CSS_PX_PER_MM, Seconds::new(0.0), 0.0);
        (paper.span.seconds(), paper.height)
    }

    #[test]
    fn the_scale_is_named_only_where_it_is_true_and_known() {
        let (span, height) = true_scale();
        let millivolt = VoltageUnit::Millivolt;
        let named = "25 mm/s, 10 mm/mV";
        assert!(drawn(millivolt, span, height, Some(CSS_PX_PER_MM)).contains(named));
        assert!(drawn(millivolt, span / 2.0, height, Some(CSS_PX_PER_MM)).contains("50 mm/s, 10"));
        assert!(!drawn(millivolt, span, height, None).contains("mm/s"));
        assert!(!drawn(millivolt, span * 1.1, height, Some(CSS_PX_PER_MM)).contains("mm/s"));
        assert!(!drawn(VoltageUnit::Counts, span, height, Some(CSS_PX_PER_MM)).contains("mm/mV"));
    }

    #[test]
    fn boxes_give_way_as_the_view_grows() {
        let caption = |span, height| drawn(VoltageUnit::Millivolt, span, height, None);
        assert!(caption(4.0, 4.0).contains("Small box 40 ms × 0.1 mV"));
        assert!(caption(20.0, 4.0).contains("Large box 200 ms × 0.5 mV"));
        assert!(caption(600.0, 4.0).contains("Lines every 60 s"));
    }

    #[test]
    fn in_a_hurry_small_boxes_are_left_out_and_the_caption_says_so() {
        let boxes = |svg: &str| svg.matches("<rect").count();
        let [finely, in_a_hurry] = [false, true]
            .map(|hurries| drawn_as(hurries, VoltageUnit::Millivolt, (4.0, 4.0), None));
        assert!(in_a_hurry.contains("Large box 200 ms × 0.5 mV"));
        assert!(boxes(&in_a_hurry) * 3 < boxes(&finely));
    }

    #[test]
    fn without_millivolts_there_is_no_millivolt() {
        for unit in [VoltageUnit::Counts, VoltageUnit::Unstated] {
            let svg = drawn(unit, 4.0, 400.0, None);
            assert!(svg.contains("heights without a mV scale"));
            assert_eq!(svg.matches("mV").count(), 1, "only that sentence speaks of mV");
        }
    }
}
