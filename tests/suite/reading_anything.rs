//! Whatever the trace, reading it ends with an answer; and what moves the trace moves the beats.

use beatwalk::analysis::{FindingKind, Reading, read};
use beatwalk::signal::{Hole, HoleCause, Recording, SampleRate, SampleSpan, VoltageUnit};
use proptest::prelude::*;
use std::f64::consts::TAU;

fn recording(rate: f64, samples: Vec<f32>) -> Recording {
    Recording {
        name: String::new(),
        rate: SampleRate::new(rate).unwrap(),
        unit: VoltageUnit::Unstated,
        samples: samples.into(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// A made-up heart: P, QRS and T as bells, a little noise that never repeats, a slow breath.
fn heart(rate: f64, bpm: f64, seconds: f64) -> (Vec<f32>, Vec<usize>) {
    let rr = 60.0 / bpm;
    let squeeze = rr.sqrt().min(1.0);
    let n = (rate * seconds) as usize;
    let r: Vec<f64> =
        (0..).map(|i| 0.4 + rr * f64::from(i)).take_while(|at| *at < seconds).collect();
    let bell = |t: f64, at: f64, width: f64| (-0.5 * ((t - at) / width).powi(2)).exp();
    let samples = (0..n).map(|i| {
        let t = i as f64 / rate;
        let beat = r[r.partition_point(|at| at + 0.45 * rr < t).min(r.len() - 1)];
        let wave = 0.1 * bell(t, beat - 0.16 * squeeze, 0.02 * squeeze)
            - 0.1 * bell(t, beat - 0.025, 0.008)
            + bell(t, beat, 0.011)
            - 0.2 * bell(t, beat + 0.025, 0.009);
        let before = r[r.partition_point(|at| at + 0.1 < t).saturating_sub(1)];
        let t_wave = 0.25 * bell(t, before + 0.26 * squeeze, 0.04 * squeeze);
        let noise = ((i as f64 * 12.9898).sin() * 43_758.545_3).fract() * 0.01;
        (wave + t_wave + noise + 0.1 * (TAU * 0.25 * t).sin()) as f32
    });
    let marks = r.iter().map(|at| (at * rate).round() as usize).collect();
    (samples.collect(), marks)
}

fn places(reading: &Reading) -> Vec<usize> {
    reading.beats.iter().map(|beat| beat.r.get()).collect()
}

#[test]
fn every_rate_of_heart_and_sensor_is_read() {
    for hz in [100.0, 125.0, 200.0, 360.0, 500.0, 1000.0, 4000.0] {
        for bpm in [25.0, 40.0, 75.0, 120.0, 186.0, 240.0] {
            let (samples, truth) = heart(hz, bpm, 20.0);
            let reading = read(&recording(hz, samples), &mut ());
            let found = places(&reading);
            // One more or less where an end cuts a beat in two.
            let whole = |at: &&usize| **at as f64 > 0.1 * hz && (**at as f64) < 19.7 * hz;
            let (found, truth): (Vec<_>, Vec<_>) =
                (found.iter().filter(whole).collect(), truth.iter().filter(whole).collect());
            assert_eq!(found.len(), truth.len(), "{bpm} a minute at {hz} Hz: {found:?}");
            for (found, truth) in found.iter().zip(&truth) {
                let apart = found.abs_diff(**truth) as f64 / hz;
                assert!(apart <= f64::max(0.012, 1.5 / hz), "{bpm} at {hz} Hz: {found} {truth}");
            }
        }
    }
}

#[test]
fn heights_may_change_along_the_record() {
    let (mut samples, truth) = heart(250.0, 70.0, 60.0);
    for (i, sample) in samples.iter_mut().enumerate() {
        *sample *= if i < 7500 { 1.0 } else { 0.25 };
    }
    assert_eq!(places(&read(&recording(250.0, samples), &mut ())).len(), truth.len());
}

#[test]
fn pure_noise_has_no_beats() {
    let mut state = 1u64;
    let mut noise = || {
        (0..12)
            .map(|_| {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                (state >> 40) as f32 / (1u64 << 24) as f32
            })
            .sum::<f32>()
            - 6.0
    };
    let reading = read(&recording(250.0, (0..5000).map(|_| noise()).collect()), &mut ());
    assert_eq!(reading.beats, []);
    let kinds: Vec<_> = reading.findings.iter().map(|finding| finding.kind).collect();
    assert_eq!(kinds, [FindingKind::Noisy, FindingKind::NoBeats]);
}

#[test]
fn nothing_and_next_to_nothing_are_read() {
    for samples in [vec![], vec![1.0], vec![0.0; 2], vec![7.5; 5000], vec![1.0e9, -1.0e9, 1.0e9]] {
        let reading = read(&recording(250.0, samples), &mut ());
        assert_eq!(reading.beats, []);
        assert!(reading.findings.iter().any(|finding| finding.kind == FindingKind::NoBeats));
    }
}

#[test]
fn progress_rises_to_one() {
    let mut parts = Vec::new();
    let (samples, _) = heart(250.0, 70.0, 10.0);
    read(&recording(250.0, samples), &mut |part| parts.push(part));
    assert!(parts.len() >= 5 && parts.is_sorted() && parts.last() == Some(&1.0), "{parts:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_samples_at_any_rate_are_read(
        samples in prop_oneof![
            proptest::collection::vec(-1.0e9f32..1.0e9, 0..2000),
            proptest::collection::vec(prop_oneof![Just(0.0f32), Just(1.0), Just(-3.0e38)], 0..800),
        ],
        rate in prop_oneof![0.5f64..5.0, 50.0f64..2000.0, Just(1.0e6)],
        hole in (0usize..2000, 0usize..500),
    ) {
        let n = samples.len();
        let mut recording = recording(rate, samples);
        let span = SampleSpan::new(hole.0.min(n), (hole.0 + hole.1).min(n));
        if !span.is_empty() {
            recording.holes.push(Hole { span, cause: HoleCause::NoValue });
        }
        let reading = read(&recording, &mut ());
        let found = places(&reading);
        prop_assert!(found.is_sorted() && found.iter().all(|&at| at < n));
        prop_assert!(found.iter().all(|&at| !span.range().contains(&at)));
        prop_assert!(reading.findings.is_sorted_by_key(|finding| finding.severity));
    }

    #[test]
    fn shifting_the_trace_shifts_the_beats(later in 1usize..2000, bpm in 45.0f64..150.0) {
        let (samples, _) = heart(250.0, bpm, 24.0);
        let inner = |from: usize| {
            let reading = read(&recording(250.0, samples[from..].to_vec()), &mut ());
            let absolute = places(&reading).into_iter().map(|at| at + from);
            absolute.filter(|&at| at > later + 250).collect::<Vec<_>>()
        };
        prop_assert_eq!(inner(0), inner(later));
    }

    #[test]
    fn the_unit_does_not_matter(power in -20i32..20, bpm in 45.0f64..150.0) {
        let (samples, _) = heart(250.0, bpm, 12.0);
        let scaled = samples.iter().map(|&value| value * 2f32.powi(power)).collect();
        let there = places(&read(&recording(250.0, samples), &mut ()));
        prop_assert_eq!(there, places(&read(&recording(250.0, scaled), &mut ())));
    }

    #[test]
    fn turning_the_trace_over_keeps_the_number_of_beats(bpm in 45.0f64..150.0) {
        let (samples, _) = heart(250.0, bpm, 12.0);
        let flipped = samples.iter().map(|&value| -value).collect();
        let there = places(&read(&recording(250.0, samples), &mut ()));
        prop_assert_eq!(there, places(&read(&recording(250.0, flipped), &mut ())));
    }
}
