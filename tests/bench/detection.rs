//! How long an hour at 500 Hz takes to read: a class period of the finest ordinary recording.

use beatwalk::analysis::read;
use beatwalk::signal::{Recording, SampleRate, VoltageUnit};
use criterion::{Criterion, Throughput};

/// A beat every 0.8 s with a T wave, wander and a little roughness: invented.
fn hour() -> Recording {
    let Ok(sampling) = SampleRate::new(500.0) else { unreachable!("500 is a rate") };
    let hz = sampling.hz();
    let bell = |t: f64, at: f64, width: f64| (-0.5 * ((t - at) / width).powi(2)).exp();
    let sample = |i: usize| {
        let t = i as f64 / hz;
        let beat = t % 0.8;
        let rough = ((i as f64 * 12.9898).sin() * 43_758.545_3).fract() * 0.01;
        (bell(beat, 0.3, 0.012) + 0.25 * bell(beat, 0.55, 0.04) + 0.1 * t.sin() + rough) as f32
    };
    Recording {
        name: "lead I".to_owned(),
        rate: sampling,
        unit: VoltageUnit::Millivolt,
        samples: (0..1_800_000).map(sample).collect(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// The whole reading: usable stretches, beats, waves, averages.
pub(crate) fn hour_of_reading(criterion: &mut Criterion) {
    let recording = hour();
    let mut group = criterion.benchmark_group("reading");
    group.throughput(Throughput::Elements(recording.samples.len() as u64)).sample_size(10);
    group.bench_function("an hour at 500 Hz", |bench| {
        bench.iter(|| read(&recording, &mut ()));
    });
    group.finish();
}
