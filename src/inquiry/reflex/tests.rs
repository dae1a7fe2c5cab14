use super::*;
use crate::inquiry::invented;
use crate::signal::{Hole, HoleCause, Milliseconds, SampleSpan};
use proptest::prelude::*;

const RATE: f64 = 2000.0;

/// 4 s of quiet EMG, sd 0.01, about an electrode's 0.3 mV, with bursts of 20 ms and ± 0.8 mV from some
/// samples on.
fn emg(bursts: &[usize]) -> Recording {
    let noise = invented::noise(8000, 8).into_iter();
    let mut samples: Vec<f32> = noise.map(|one| (0.3 + 0.01 * one) as f32).collect();
    for &from in bursts {
        for (at, value) in samples.iter_mut().enumerate().skip(from).take(40) {
            *value += if (at - from) / 10 % 2 == 0 { 0.8 } else { -0.8 };
        }
    }
    invented::of(RATE, samples)
}

fn at(seconds: &[f64]) -> Vec<Seconds> {
    seconds.iter().copied().map(Seconds::new).collect()
}

#[test]
fn an_answer_has_its_latency_and_size() {
    // A tap at 1 s is sample 2000; the burst begins 36 samples, 18 ms, later.
    let found = Reflexes::of(&emg(&[2036]), &at(&[1.0]), ReflexSettings::REFLEX).unwrap();
    let answer = found.taps[0].response.unwrap();
    assert!((answer.latency.milliseconds() - 17.75).abs() < 1e-6, "{answer:?}");
    assert!((answer.duration.milliseconds() - 20.0).abs() < 1e-6);
    assert!((answer.rectified_mean - 0.8).abs() < 0.01 && (answer.rms - 0.8).abs() < 0.01);
    assert!((answer.peak_to_peak - 1.6).abs() < 0.06 && (answer.area - 16.0).abs() < 0.2);
    assert!((0.4..2.0).contains(&answer.latency_uncertainty.milliseconds()), "{answer:?}");
    let baseline = found.taps[0].baseline.unwrap();
    assert!((baseline.offset - 0.3).abs() < 0.003);
    // Half-normal: mean 0.798 sd, deviation 0.603 sd.
    assert!(
        (baseline.mean - 0.00798).abs() < 0.001 && (baseline.deviation - 0.00603).abs() < 0.001
    );
}

#[test]
fn each_tap_says_what_came_of_it() {
    let mut recording = emg(&[2036, 3000, 5036, 5096]);
    recording.holes = vec![Hole { span: SampleSpan::new(6100, 6110), cause: HoleCause::NoValue }];
    // Answered; silent; two within 30 ms; across a hole; too near the end; tense at the start (3000).
    let taps = at(&[1.0, 2.0, 2.5, 2.53, 3.04, 3.99, 1.495, f64::NAN]);
    let found = Reflexes::of(&recording, &taps, ReflexSettings::REFLEX).unwrap();
    let why: Vec<_> = found.taps.iter().map(|tap| tap.response.err()).collect();
    let expected = [
        None,
        Some(WhyNoResponse::ActiveAtStart),
        Some(WhyNoResponse::Silent),
        Some(WhyNoResponse::Overlaps(5)),
        Some(WhyNoResponse::Overlaps(4)),
        Some(WhyNoResponse::NotRecorded),
        Some(WhyNoResponse::NotRecorded),
    ];
    assert_eq!(why, expected);
    assert_eq!((found.responses().count(), found.silent(), found.left_out()), (1, 1, 5));
    assert_eq!(found.latency_ms.map(|latency| latency.n), Some(1));
}

#[test]
fn a_flat_trace_and_a_slow_one_give_nothing() {
    let flat = invented::flat(RATE, 4.0);
    let found = Reflexes::of(&flat, &at(&[1.0]), ReflexSettings::REFLEX).unwrap();
    assert_eq!(found.taps[0].response, Err(WhyNoResponse::FlatBaseline));
    assert_eq!((found.latency_ms, found.left_out()), (None, 1));
    let slow = Reflexes::of(&invented::flat(250.0, 4.0), &at(&[1.0]), ReflexSettings::REFLEX);
    assert_eq!(slow, Err(NoReflex::Settings(UnusableReflexSettings::SlowRate(250))));
    let none = Reflexes::of(&flat, &at(&[f64::NAN]), ReflexSettings::REFLEX);
    assert_eq!(none, Err(NoReflex::NoTapByHand));
}

#[test]
fn taps_lie_over_each_other_with_the_mean_of_the_answers() {
    let recording = emg(&[2036, 4036]);
    let found = Reflexes::of(&recording, &at(&[1.0, 2.0, 3.0]), ReflexSettings::REFLEX).unwrap();
    let [before, after] = [20.0, 80.0].map(Milliseconds::new);
    let sweeps = Sweeps::of(&recording, &found, before, after);
    assert_eq!((sweeps.sweeps.len(), sweeps.mean.len()), (3, 201));
    // 18 ms after the tap and 20 before it: sample 76 is the first of both bursts.
    assert!(sweeps.mean[75] < 0.05 && sweeps.mean[76] > 0.7, "{:?}", &sweeps.mean[74..78]);
    assert!(sweeps.sweeps[2].1.iter().all(|&value| value < 0.06));
}

#[test]
fn a_voluntary_answer_comes_later_by_the_same_rule() {
    let reflex =
        Reflexes::of(&emg(&[2036, 4040]), &at(&[1.0, 2.0]), ReflexSettings::REFLEX).unwrap();
    let meant = emg(&[2360, 4400]);
    let voluntary = Reflexes::of(&meant, &at(&[1.0, 2.0]), ReflexSettings::VOLUNTARY).unwrap();
    let found = compare(&reflex, &voluntary);
    let latency = found.latency_ms.unwrap();
    // 18 and 20 ms against 180 and 200 ms.
    assert!((latency.difference - 171.0).abs() < 0.01, "{latency:?}");
    assert!(latency.interval.is_some() && latency.t_test.is_none());
    assert!((found.rms_ratio.unwrap() - 1.0).abs() < 0.02);
    let counts = Reflexes { unit: VoltageUnit::Counts, ..voluntary };
    assert_eq!(compare(&reflex, &counts).rms, None);
}

#[test]
fn the_envelope_is_the_root_mean_square_about_the_median() {
    let recording = invented::of(1000.0, vec![0.5, 0.5, 1.5, -0.5, 0.5]);
    let envelope = rms_envelope(&recording, Milliseconds::new(3.0));
    // The window of three: squares 0 0 1 1 0 about 0.5, at the ends one.
    let right = [0.0, (1.0_f32 / 3.0).sqrt(), (2.0_f32 / 3.0).sqrt(), (2.0_f32 / 3.0).sqrt(), 0.0];
    for (found, right) in envelope.iter().zip(right) {
        assert!((found - right).abs() < 1e-6, "{envelope:?}");
    }
    assert!(rms_envelope(&invented::flat(1000.0, 0.0), Milliseconds::new(20.0)).is_empty());
}

proptest! {
    #[test]
    fn no_samples_and_no_taps_make_it_panic(
        samples in proptest::collection::vec(
            prop_oneof![-1.0f32..1.0, Just(f32::MAX), Just(f32::MIN), Just(0.0)], 0..900,
        ),
        taps in proptest::collection::vec(prop_oneof![-1.0..2.0f64, any::<f64>()], 0..6),
        hz in 500.0f64..5000.0,
        settings in (20.0f64..200.0, 1.0f64..20.0, 1.0f64..9.0, 0.0f64..30.0),
    ) {
        let recording = invented::of(hz, samples);
        let (baseline, deviations, hold, skip) = settings;
        let settings = ReflexSettings {
            baseline: Milliseconds::new(baseline),
            guard: Milliseconds::new(0.0),
            deviations,
            hold: Milliseconds::new(hold),
            dip: Milliseconds::new(1.0),
            skip: Milliseconds::new(skip),
            ..ReflexSettings::REFLEX
        };
        if let Ok(found) = Reflexes::of(&recording, &at(&taps), settings) {
            for answer in found.responses() {
                let latency = answer.latency.milliseconds();
                let step = 1000.0 / hz;
                prop_assert!(skip - 2.0 * step <= latency && latency <= 60.0 + step);
                prop_assert!(answer.duration.milliseconds() >= hold - step);
            }
            let _ = Sweeps::of(&recording, &found, Milliseconds::new(20.0), Milliseconds::new(60.0));
        }
    }
}
