//! Placing the points of every beat of an hour at 1000 Hz, and making its typical beat.

use beatwalk::analysis::{Beat, Polarity, delineate, median_beat};
use beatwalk::signal::{Recording, SampleIndex, SampleRate, VoltageUnit};
use criterion::Criterion;
use std::hint::black_box;

/// The waves of an invented beat: middle after R and width in s, height in mV.
const WAVES: [(f64, f64, f64); 5] = [
    (-0.16, 0.020, 0.12),
    (-0.028, 0.008, -0.08),
    (0.0, 0.010, 1.0),
    (0.030, 0.009, -0.20),
    (0.26, 0.040, 0.28),
];

/// An invented heart at 75 beats a minute, and its R.
fn hour() -> (Recording, Vec<SampleIndex>) {
    let Ok(rate) = SampleRate::new(1000.0) else { unreachable!("a thousand is a rate") };
    let one: Vec<f32> = (0..800)
        .map(|index| {
            let after_r = (f64::from(index) - 400.0) / 1000.0;
            let bell = |(middle, width, height): (f64, f64, f64)| {
                height * (-((after_r - middle) / width).powi(2) / 2.0).exp()
            };
            WAVES.into_iter().map(bell).sum::<f64>() as f32
        })
        .collect();
    let recording = Recording {
        name: String::new(),
        rate,
        unit: VoltageUnit::Millivolt,
        samples: one.iter().copied().cycle().take(3_600_000).collect(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    (recording, (0..4500).map(|beat| SampleIndex::new(beat * 800 + 400)).collect())
}

pub(crate) fn hour_of_points(criterion: &mut Criterion) {
    let (recording, r) = hour();
    criterion.bench_function("delineate an hour at 1000 Hz", |bencher| {
        bencher.iter(|| delineate(black_box(&recording), &r, Polarity::Upright).len());
    });
}

pub(crate) fn hour_of_beats(criterion: &mut Criterion) {
    let (recording, r) = hour();
    let beats: Vec<Beat> = r.into_iter().map(Beat::at).collect();
    criterion.bench_function("the typical beat of an hour at 1000 Hz", |bencher| {
        bencher.iter(|| median_beat(black_box(&recording), &beats, Polarity::Upright));
    });
}
