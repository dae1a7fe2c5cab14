//! ECG paper: boxes, axes, the calibration pulse and a line that says how large a box is.
//!
//! Small boxes are 40 ms by 0.1 mV, large ones 200 ms by 0.5 mV, at every zoom: at 25 mm/s and
//! 10 mm/mV they measure 1 mm and 5 mm (standard presentation; AHA/ACC/HRS 2007, Circulation
//! 115:1306). Lines closer than [`CLOSEST`] pixels are left out. A trace without millivolts gets
//! level lines at round values instead, and no pulse: its heights can't be measured.

use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{Look, TraceScene};
use super::ticks::{Ticks, number};
use crate::signal::{SampleSpan, Seconds, VoltageUnit};
use crate::words::{say, say_with};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// A small box: s and mV.
const SMALL: (f64, f64) = (0.04, 0.1);
/// A large box: s and mV.
const LARGE: (f64, f64) = (0.2, 0.5);
/// Grid lines closer than this many CSS pixels would only grey the paper. A millimetre of true paper
/// has 3.8.
const CLOSEST: f64 = 3.6;
/// The calibration pulse: s and mV. The height is the standard's, the width common practice.
const PULSE: (f64, f64) = (0.2, 1.0);
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
    let fits = |across: f64, up: f64| {
        px_across * across >= CLOSEST * scale
            && px_up.is_none_or(|px_up| px_up * up >= CLOSEST * scale)
    };
    if fits(SMALL.0, SMALL.1) {
        Grid::Small
    } else if fits(LARGE.0, LARGE.1) {
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
        unit: VoltageUnit,
    ) -> Self {
        let text = look.palette.text_size * look.scale;
        let (across, up) = (projection.px_per_second(), projection.px_per_unit());
        let view = &projection.viewport;
        let (low, high) = (view.middle - view.height / 2.0, view.middle + view.height / 2.0);
        let px_up = (unit == VoltageUnit::Millivolt).then_some(up);
        Self {
            pen,
            projection,
            look,
            unit,
            plot: projection.frame.plot(),
            grid: grid(across, px_up, look.scale),
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
            let label = self.times.written(time);
            let farthest = self.projection.frame.width - written_width(&label, text) / 2.0;
            let at = (x.min(farthest), bottom + tick + 0.75 * text);
            self.pen.write(&label, at, Writing::new(palette.text, text, HPos::Center))?;
        }
        for value in self.values.values() {
            let y = self.projection.y(value);
            self.pen.level(y, left - tick, left, palette.axis, weight)?;
            let writing = Writing::new(palette.text, text, HPos::Right);
            self.pen.write(&self.values.written(value), (left - 1.5 * tick, y), writing)?;
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
                let places = [("time", &*self.times.written(step))];
                return say_with(language, "chart.caption.lines", &places);
            }
        };
        let places = [("time", &*number(time * 1000.0, 0)), ("voltage", &*number(voltage, 1))];
        say_with(language, key, &places)
    }

    /// The calibration pulse at the left, where it fits and, if it can, clear of the trace.
    pub(super) fn draw_pulse(&self, scene: &TraceScene<'_>) -> Drawn<DB> {
        let Look { palette, scale, language, .. } = *self.look;
        let text = palette.text_size * scale;
        let (wide, high) =
            (PULSE.0 * self.projection.px_per_second(), PULSE.1 * self.projection.px_per_unit());
        let foot = wide / 5.0;
        let label = say(language, "chart.pulse");
        let room = wide + 2.0 * foot + written_width(&label, text) + text;
        let fits = room < self.plot.width() * 0.3
            && high + text < (self.plot.bottom - self.plot.top) * 0.6
            && wide >= 6.0 * scale;
        if self.unit != VoltageUnit::Millivolt || !fits {
            return Ok(());
        }
        let view = &self.projection.viewport;
        let until = self.projection.time(self.plot.left + room);
        let span = SampleSpan::new(
            scene.rate.nearest(view.start).get(),
            scene.rate.nearest(until).get() + 1,
        );
        let trace = scene.envelope.extent(span).map(|extent| {
            (self.projection.y(extent.high.into()), self.projection.y(extent.low.into()))
        });
        // On the lowest line of a small box that leaves a foot's room below; else right below the top.
        let line =
            |y: f64| self.projection.y((self.projection.value(y) / SMALL.1).ceil() * SMALL.1);
        let low = line(self.plot.bottom - 0.4 * text);
        let upper = line(self.plot.top + high + 0.6 * text);
        let (is_clear, base) = match trace {
            Some((_, bottom)) if bottom < low - high - 0.4 * text => (true, low),
            Some((top, _)) if top > upper + 0.4 * text => (true, upper),
            Some(_) => (false, low),
            None => (true, low),
        };
        let left = self.plot.left + 0.4 * text;
        if !is_clear {
            let around = Rect::new(left, base - high - 0.4 * text, left + room, base + 0.3 * text);
            self.pen.fill(around, palette.paper, 0.85)?;
        }
        let corners = [
            (left, base),
            (left + foot, base),
            (left + foot, base - high),
            (left + foot + wide, base - high),
            (left + foot + wide, base),
            (left + 2.0 * foot + wide, base),
        ];
        self.pen.line(&corners, palette.axis, 1.5 * palette.line_weight * scale)?;
        let at = (left + 2.0 * foot + wide + 0.3 * text, base - high / 2.0);
        self.pen.write(&label, at, Writing::new(palette.text, text, HPos::Left))
    }
}

const fn unit_key(unit: VoltageUnit) -> &'static str {
    match unit {
        VoltageUnit::Millivolt => "chart.axis.millivolt",
        VoltageUnit::Counts => "chart.axis.counts",
        VoltageUnit::Unstated => "chart.axis.unstated",
    }
}
