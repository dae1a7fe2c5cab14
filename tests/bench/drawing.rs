//! Drawing a trace: the whole of an hour at 1000 Hz, and ten seconds of it.
//!
//! A frame lasts 16.7 ms at 60 frames a second. The SVG backend writes text for every point, so that
//! a canvas is not slower than this on our side.

use beatwalk::analysis::{Origin, Standing};
use beatwalk::chart::{BeatMark, Look, Palette, SvgText, TraceScene, Viewport, draw_trace, to_svg};
use beatwalk::signal::{Envelope, SampleIndex, SampleRate, Seconds};
use beatwalk::words::Language;
use criterion::Criterion;
use std::hint::black_box;

const SIZE: (u32, u32) = (1400, 500);

struct Hour {
    rate: SampleRate,
    envelope: Envelope,
    beats: Vec<BeatMark>,
}

/// An invented heart at 75 beats a minute: one bell curve a beat over a slow wave.
fn hour() -> Hour {
    let Ok(rate) = SampleRate::new(1000.0) else { unreachable!("a thousand is a rate") };
    let samples = (0..3_600_000u32).map(|index| {
        let after_r = (f64::from(index % 800) - 400.0) / 1000.0;
        let wander = (f64::from(index) / 9000.0).sin() * 0.1;
        ((-(after_r / 0.01).powi(2) / 2.0).exp() + wander) as f32
    });
    let beats = (0..4500).map(|beat| BeatMark {
        number: beat + 1,
        at: SampleIndex::new(beat * 800 + 400),
        origin: Origin::Found,
        standing: Standing::Counts,
    });
    Hour { rate, envelope: Envelope::new(samples.collect()), beats: beats.collect() }
}

fn draw(hour: &Hour, viewport: Viewport) -> usize {
    let scene =
        TraceScene { beats: &hour.beats, ..TraceScene::bare(&hour.envelope, hour.rate, viewport) };
    let look =
        Look { palette: &Palette::LIGHT, scale: 1.0, px_per_mm: None, language: Language::English };
    let text = SvgText { title: "", description: "" };
    to_svg(SIZE, 1, text, |area| draw_trace(area, &scene, &look)).map_or(0, |svg| svg.len())
}

pub(crate) fn an_hour(criterion: &mut Criterion) {
    let hour = hour();
    let viewport = Viewport::fit(&hour.envelope, hour.rate);
    criterion.bench_function("draw an hour at 1000 Hz", |bencher| {
        bencher.iter(|| draw(black_box(&hour), black_box(viewport)));
    });
}

pub(crate) fn ten_seconds(criterion: &mut Criterion) {
    let hour = hour();
    let viewport = Viewport {
        start: Seconds::new(1800.0),
        span: Seconds::new(10.0),
        ..Viewport::fit(&hour.envelope, hour.rate)
    };
    criterion.bench_function("draw ten seconds at 1000 Hz", |bencher| {
        bencher.iter(|| draw(black_box(&hour), black_box(viewport)));
    });
}
