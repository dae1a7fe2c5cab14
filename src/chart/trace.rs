//! Draws a trace with all that lies on it.
//!
//! Where several samples share a column of pixels, the column shows the lowest and the highest of
//! them, found by [`Envelope`]: no R wave is lost, and an hour is one line of a few thousand points.
//! Further in, the line goes from sample to sample; far in, each sample is a dot. Nothing is drawn
//! across a hole. A scene without samples is empty paper.

use super::DrawError;
use super::clip::clipped;
use super::marks::{draw_beats, draw_cursor, draw_holes, draw_shade_labels, draw_shades};
use super::notes::draw_notes;
use super::palette::{Ink, Palette};
use super::paper::Paper;
use super::pen::{Drawn, Pen};
use super::points::draw_points;
use super::projection::{Frame, Projection};
use super::pulse::draw_pulse;
use super::scene::{Look, TraceScene};
use crate::signal::{Envelope, Hole, SampleIndex, SampleSpan};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// With more samples than this in a column, columns are drawn.
const CROWDED: f64 = 2.0;
/// With samples so many CSS pixels apart, each gets a dot.
const APART: f64 = 8.0;

/// Draws a scene over the whole of an area.
///
/// # Errors
/// Only those of the backend.
pub fn draw_trace<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
) -> Result<(), DrawError<DB>> {
    draw_scene(area, scene, look, |frame| frame)?;
    Ok(())
}

/// Draws a scene on a frame that may leave more room than usual; gives back where things fell.
pub(super) fn draw_scene<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &TraceScene<'_>,
    look: &Look<'_>,
    frame: impl FnOnce(Frame) -> Frame,
) -> Result<Projection, DrawError<DB>> {
    let scale = if look.scale.is_finite() { look.scale.clamp(0.1, 100.0) } else { 1.0 };
    let look = &Look { scale, ..*look };
    let (width, height) = area.dim_in_pixel();
    let (width, height) = (f64::from(width) / scale, f64::from(height) / scale);
    let usual = scene.projection(width, height, look.palette);
    let projection = Projection::new(usual.viewport, frame(usual.frame).scaled(scale));
    let pen = Pen::new(area);
    let paper = Paper::new(&pen, &projection, look, scene);
    pen.cover(look.palette.paper)?;
    draw_shades(&pen, scene, &projection, look)?;
    paper.draw_grid()?;
    draw_holes(&pen, scene, &projection, look)?;
    draw_pulse(&pen, scene, &projection, look)?;
    let Palette { beneath, trace, trace_weight, .. } = *look.palette;
    let weight = if scene.hurries { 1.0 } else { trace_weight * scale };
    if let Some(envelope) = scene.beneath {
        draw_line(&pen, envelope, scene, &projection, (beneath, weight, scale))?;
    }
    draw_line(&pen, scene.envelope, scene, &projection, (trace, weight, scale))?;
    draw_notes(&pen, scene, &projection, look, false)?;
    paper.draw_axes()?;
    draw_beats(&pen, scene, &projection, look)?;
    draw_cursor(&pen, scene, &projection, look)?;
    draw_shade_labels(&pen, scene, &projection, look)?;
    draw_points(&pen, scene, &projection, look)?;
    Ok(projection)
}

pub(super) fn draw_line<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    envelope: &Envelope,
    scene: &TraceScene<'_>,
    projection: &Projection,
    (ink, weight, scale): (Ink, f64, f64),
) -> Drawn<DB> {
    let plot = projection.frame.plot();
    let dots = projection.px_per_second() >= APART * scale * scene.rate.hz();
    for run in runs(envelope, scene, projection) {
        for part in clipped(&run, &plot) {
            // A line of no length shows nothing: a sample alone between two holes is a dot.
            match part.as_slice() {
                [at] => pen.dot(*at, weight, ink)?,
                line => pen.line(line, ink, weight)?,
            }
        }
        if dots {
            for &at in run.iter().filter(|(x, y)| projection.frame.contains(*x, *y)) {
                pen.dot(at, 1.5 * weight, ink)?;
            }
        }
    }
    Ok(())
}

/// The trace in view as lines of pixels, broken at holes.
fn runs(
    envelope: &Envelope,
    scene: &TraceScene<'_>,
    projection: &Projection,
) -> Vec<Vec<(f64, f64)>> {
    let rate = scene.rate;
    let in_view = projection.viewport.samples(rate, envelope.samples().len());
    let crowded = rate.hz() / projection.px_per_second() > CROWDED;
    let mut runs = Vec::new();
    // A hole narrower than half a pixel parts nothing that can be seen.
    let least = (rate.hz() / projection.px_per_second() / 2.0) as usize;
    for data in without_holes(in_view, scene.holes, least) {
        let run = if crowded {
            columns(envelope, data, scene, projection)
        } else {
            let samples = envelope.samples().get(data.range()).unwrap_or_default();
            data.range()
                .zip(samples)
                .map(|(index, &value)| {
                    let x = projection.x_of(SampleIndex::new(index), rate);
                    (x, projection.y(value.into()))
                })
                .collect()
        };
        runs.push(run);
    }
    runs
}

/// The stretches of a span that hold data, parted by holes of more than `least` samples.
fn without_holes(span: SampleSpan, holes: &[Hole], least: usize) -> Vec<SampleSpan> {
    let mut stretches = Vec::new();
    let mut from = span.start().get();
    let first = holes.partition_point(|hole| hole.span.end() <= span.start());
    let in_span = holes.iter().skip(first).take_while(|hole| hole.span.start() < span.end());
    for hole in in_span.filter(|hole| hole.span.len() > least) {
        stretches.push(SampleSpan::new(from, hole.span.start().get().max(from)));
        from = hole.span.end().get().clamp(from, span.end().get());
    }
    stretches.push(SampleSpan::new(from, span.end().get()));
    stretches.retain(|stretch| !stretch.is_empty());
    stretches
}

/// Lowest and highest of each column as one line. A column begins with the last sample of the one
/// before, so that the line has no steps that the trace has not.
fn columns(
    envelope: &Envelope,
    data: SampleSpan,
    scene: &TraceScene<'_>,
    projection: &Projection,
) -> Vec<(f64, f64)> {
    let mut line: Vec<(f64, f64)> = Vec::new();
    let (start, end) = (data.start().get(), data.end().get());
    let mut column = projection.x_of(data.start(), scene.rate).round();
    let mut from = start;
    while from < end {
        let next = projection.time(column + 0.5).seconds() * scene.rate.hz();
        let until = (next.ceil().max(0.0) as usize).clamp(from + 1, end);
        let with_last = SampleSpan::new(from.saturating_sub(1).max(start), until);
        if let Some(extent) = envelope.extent(with_last) {
            let (top, bottom) = (projection.y(extent.high.into()), projection.y(extent.low.into()));
            // The nearer end first, so that the pen does not go back and forth.
            let near_top = line.last().is_none_or(|&(_, y)| (y - top).abs() < (y - bottom).abs());
            let (first, second) = if near_top { (top, bottom) } else { (bottom, top) };
            line.push((column, first));
            if (first - second).abs() >= 0.5 {
                line.push((column, second));
            }
        }
        from = until;
        column += 1.0;
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::{Look, SvgText, Viewport, to_svg};
    use crate::signal::{HoleCause, SampleRate, Seconds, VoltageUnit};
    use crate::words::Language;
    use proptest::prelude::*;

    fn scene(envelope: &Envelope, hz: f64) -> TraceScene<'_> {
        let rate = SampleRate::new(hz).unwrap();
        TraceScene::bare(envelope, rate, Viewport::fit(envelope, rate))
    }

    fn hole(start: usize, end: usize) -> Hole {
        Hole { span: SampleSpan::new(start, end), cause: HoleCause::NoValue }
    }

    fn projection(scene: &TraceScene<'_>) -> Projection {
        scene.projection(1000.0, 300.0, &Palette::LIGHT)
    }

    #[test]
    fn an_hour_is_one_line_that_loses_no_peak() {
        let mut samples = vec![0.0f32; 3_600_000];
        samples[1_234_567] = 1.5;
        let envelope = Envelope::new(samples.into());
        let scene = scene(&envelope, 1000.0);
        let projection = projection(&scene);
        let runs = runs(&envelope, &scene, &projection);
        assert_eq!(runs.len(), 1);
        assert!(runs[0].len() < 2100, "{} points for 950 columns", runs[0].len());
        let top = runs[0].iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
        assert_eq!(top, projection.y(1.5));
    }

    #[test]
    fn each_column_shows_what_looking_at_every_sample_shows() {
        let samples: Vec<f32> =
            (0..20_000).map(|i| ((i * i) as f32 * 0.37).sin() + (i as f32 / 900.0).sin()).collect();
        let envelope = Envelope::new(samples.clone().into());
        let scene = scene(&envelope, 1000.0);
        let projection = projection(&scene);
        let drawn = runs(&envelope, &scene, &projection).concat();
        for (index, &value) in samples.iter().enumerate() {
            let at = projection.x_of(SampleIndex::new(index), scene.rate);
            let y = projection.y(value.into());
            let column = drawn.iter().filter(|(x, _)| (x - at).abs() <= 1.0);
            let (top, bottom) = column
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(top, bottom), at| {
                    (top.min(at.1), bottom.max(at.1))
                });
            assert!(
                top <= y + 0.5 && y - 0.5 <= bottom,
                "sample {index}: {y} not in {top}..{bottom}"
            );
        }
    }

    #[test]
    fn no_line_crosses_a_hole() {
        let envelope = Envelope::new((0..4000).map(|i| (i % 7) as f32).collect());
        for view in [Seconds::new(40.0), Seconds::new(4.0)] {
            let holes = [hole(0, 50), hole(200, 260), hole(300, 301), hole(3990, 4000)];
            let mut scene = TraceScene { holes: &holes, ..scene(&envelope, 100.0) };
            scene.viewport.span = view;
            let projection = projection(&scene);
            for pair in runs(&envelope, &scene, &projection).iter().flat_map(|run| run.windows(2)) {
                for hole in holes.iter().filter(|hole| hole.span.len() > 2) {
                    let middle = hole.span.start().get() + hole.span.len() / 2;
                    let middle = projection.x_of(SampleIndex::new(middle), scene.rate);
                    assert!(pair[1].0 < middle || pair[0].0 > middle, "{pair:?} crosses {hole:?}");
                }
            }
        }
    }

    #[test]
    fn a_sample_alone_between_two_holes_is_a_dot() {
        let envelope = Envelope::new(vec![0.5; 100].into());
        let holes = [hole(0, 49), hole(50, 100)];
        let scene = TraceScene { holes: &holes, ..scene(&envelope, 100.0) };
        let runs = runs(&envelope, &scene, &projection(&scene));
        assert_eq!(runs.iter().map(Vec::len).collect::<Vec<_>>(), [1]);
    }

    fn any_number() -> impl Strategy<Value = f64> {
        prop_oneof![
            -1e2..1e2f64,
            Just(f64::NAN),
            Just(f64::INFINITY),
            Just(0.0),
            Just(1e300),
            Just(1e-300),
        ]
    }

    proptest! {
        #[test]
        fn anything_can_be_drawn(
            samples in proptest::collection::vec(prop_oneof![-2.0..2.0f32, Just(f32::MAX)], 0..300),
            view in (any_number(), any_number(), any_number(), any_number()),
            size in (0..700u32, 0..500u32),
            scale in any_number(),
            holes in (0..150usize, 1..80usize, 150..400usize),
            unit in prop_oneof![Just(VoltageUnit::Millivolt), Just(VoltageUnit::Unstated)],
        ) {
            let envelope = Envelope::new(samples.into());
            let holes = [hole(holes.0, holes.0 + holes.1), hole(holes.2 + 80, holes.2 + 90)];
            let viewport = Viewport {
                start: Seconds::new(view.0),
                span: Seconds::new(view.1),
                middle: view.2,
                height: view.3,
            };
            let scene = TraceScene {
                holes: &holes,
                viewport,
                unit,
                beneath: Some(&envelope),
                cursor: Some(SampleIndex::new(17)),
                ..scene(&envelope, 250.0)
            };
            let look = Look {
                palette: &Palette::LIGHT,
                scale,
                px_per_mm: Some(scale),
                language: Language::English,
            };
            let text = SvgText { title: "", description: "" };
            let svg = to_svg(size, 1, text, |area| draw_trace(area, &scene, &look)).unwrap();
            prop_assert!(svg.ends_with("</svg>\n") && !svg.contains("NaN"));
            prop_assert!(!svg.contains("chart."), "a message is missing");
        }
    }
}
