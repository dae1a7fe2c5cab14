//! The peak while beats are found and measured: six times the samples at most, of 4 bytes each, the samples
//! themselves among them.

use super::{ALONE, peak_of};
use beatwalk::analysis::{self, FindingKind};
use beatwalk::signal::{Recording, SampleRate, VoltageUnit};
use beatwalk::synth::Random;

/// An invented heart with wander, mains hum and noise, so that every step has something to do.
fn long_recording(seconds: usize, hz: usize) -> Recording {
    let mut random = Random::new(7);
    let bell =
        |after: f64, middle: f64, width: f64| (-0.5 * ((after - middle) / width).powi(2)).exp();
    let samples = (0..seconds * hz).map(|sample| {
        let time = sample as f64 / hz as f64;
        let after = time % 0.8;
        let beat =
            0.15 * bell(after, 0.14, 0.02) + bell(after, 0.3, 0.01) + 0.3 * bell(after, 0.56, 0.04);
        let hum = 0.05 * (time * 50.0 * std::f64::consts::TAU).sin();
        (beat + 0.2 * time.sin() + hum + 0.01 * random.normal()) as f32
    });
    Recording {
        name: "lead I".to_owned(),
        rate: SampleRate::new(hz as f64).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: samples.collect(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// The same with ten seconds without a signal and ten of noise.
fn spoilt(samples: &[f32], hz: usize) -> std::sync::Arc<[f32]> {
    let mut random = Random::new(8);
    let spoil = |(at, &value): (usize, &f32)| match at / hz {
        5..15 => 0.0,
        25..35 => value + random.normal() as f32,
        _ => value,
    };
    samples.iter().enumerate().map(spoil).collect()
}

#[test]
fn reading_takes_at_most_six_times_the_samples() {
    let _alone = ALONE.lock();
    for (seconds, hz) in [(1800, 500), (1800, 250), (600, 1000), (300, 500)] {
        for is_spoilt in [false, true] {
            let mut recording = long_recording(seconds, hz);
            if is_spoilt {
                recording.samples = spoilt(&recording.samples, hz);
            }
            let size = recording.samples.len() * size_of::<f32>();
            let (peak, reading) = peak_of(|| analysis::read(&recording, &mut ()));
            let peak = (size + peak) as f64 / size as f64;
            let what = format!("{seconds} s at {hz} Hz, spoilt: {is_spoilt}");
            let kinds: Vec<_> = reading.findings.iter().map(|finding| finding.kind).collect();
            assert_eq!(kinds.contains(&FindingKind::Flat), is_spoilt, "{what}");
            assert_eq!(kinds.contains(&FindingKind::Noisy), is_spoilt, "{what}");
            assert!(kinds.contains(&FindingKind::MainsHum(50.0)), "{what}");
            assert!(reading.beats.len() > seconds / 2, "{what}");
            assert!((1.0..=6.0).contains(&peak), "{what}: {peak:.2} times the samples");
        }
    }
}
