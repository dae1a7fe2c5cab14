//! Typical beats of invented hearts, and of traces that are nothing of the kind.

use super::*;
use crate::analysis::WhySetAside;
use crate::signal::SampleRate;
use proptest::prelude::*;

/// The waves of an invented beat: middle after R and width in s, height in mV.
const WAVES: [(f64, f64, f64); 4] =
    [(-0.17, 0.02, 0.12), (0.0, 0.012, 1.0), (0.03, 0.009, -0.2), (0.27, 0.04, 0.3)];

fn beat_at(after_r: f64) -> f64 {
    let bell = |(middle, width, height): (f64, f64, f64)| {
        height * (-0.5 * ((after_r - middle) / width).powi(2)).exp()
    };
    WAVES.into_iter().map(bell).sum()
}

/// Beats whose R fall between samples, on a line that wanders by 0.4 mV.
fn heart(hz: f64, count: usize) -> (Recording, Vec<Beat>) {
    let r: Vec<f64> = (0..count).map(|beat| 0.7 + 0.8137 * beat as f64).collect();
    let samples = (0..((0.8137 * count as f64 + 1.0) * hz) as usize).map(|at| {
        let t = at as f64 / hz;
        (r.iter().map(|r| beat_at(t - r)).sum::<f64>() + 0.2 * (1.3 * t).sin()) as f32
    });
    let recording = Recording {
        name: String::new(),
        rate: SampleRate::new(hz).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: samples.collect(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let r: Vec<SampleIndex> =
        r.into_iter().map(|r| recording.rate.nearest(Seconds::new(r))).collect();
    let points = waves::delineate(&recording, &r, Polarity::Upright);
    let beats = r.into_iter().zip(points);
    let beats = beats.map(|(r, landmarks)| Beat { landmarks, ..Beat::at(r) }).collect();
    (recording, beats)
}

#[test]
fn waves_keep_their_height_where_r_falls_between_samples() {
    for (hz, lost) in [(100.0, 0.05), (250.0, 0.01), (1000.0, 0.01)] {
        let (recording, beats) = heart(hz, 20);
        let median = median_beat(&recording, &beats, Polarity::Upright).unwrap();
        let r = median.landmarks.at(Landmark::R).unwrap().get();
        assert!((f64::from(median.samples[r]) - 1.0).abs() < lost, "{}", median.samples[r]);
        let t = median.landmarks.at(Landmark::TPeak).unwrap().get();
        assert!((f64::from(median.samples[t]) - 0.3).abs() < 0.03, "{}", median.samples[t]);
        let p_to_r = median.landmarks.between(Landmark::PPeak, Landmark::R).unwrap();
        assert!((p_to_r as f64 / hz - 0.17).abs() <= 1.0 / hz + 0.004, "{p_to_r} at {hz} Hz");
    }
}

#[test]
fn beats_set_aside_are_not_in_it_and_two_are_too_few() {
    let (mut recording, mut beats) = heart(250.0, 6);
    let whole = median_beat(&recording, &beats, Polarity::Upright).unwrap();
    assert_eq!(whole.n, 6);
    let odd = beats[3].r.get();
    let spoiled = recording.samples.iter().enumerate();
    recording.samples =
        spoiled.map(|(at, &value)| if at.abs_diff(odd) < 50 { 3.0 } else { value }).collect();
    beats[3].standing = Standing::SetAside(WhySetAside::OtherShape);
    let without = median_beat(&recording, &beats, Polarity::Upright).unwrap();
    assert_eq!(without.n, 5);
    assert!(without.samples.iter().all(|&value| value < 1.5));
    assert_eq!(median_beat(&recording, &beats[..2], Polarity::Upright), None);
}

#[test]
fn a_wave_most_beats_lack_is_not_in_it() {
    let (recording, mut beats) = heart(250.0, 8);
    for beat in beats.iter_mut().take(5) {
        for landmark in [Landmark::POnset, Landmark::PPeak, Landmark::PEnd] {
            beat.landmarks.set(landmark, None);
        }
    }
    let median = median_beat(&recording, &beats, Polarity::Upright).unwrap();
    assert_eq!(median.landmarks.at(Landmark::PPeak), None);
    assert!(median.landmarks.at(Landmark::TPeak).is_some());
}

proptest! {
    #[test]
    fn any_trace_gives_a_beat_or_none(
        samples in proptest::collection::vec(-3.0f32..3.0, 0..900),
        r in proptest::collection::vec(0usize..1000, 0..8),
        hz in prop_oneof![Just(0.7), Just(100.0), Just(250.0), Just(1.0e6)],
    ) {
        let (mut recording, _) = heart(100.0, 1);
        recording.samples = samples.into();
        recording.rate = SampleRate::new(hz).unwrap();
        let beats: Vec<Beat> = r.into_iter().map(|r| Beat::at(SampleIndex::new(r))).collect();
        if let Some(median) = median_beat(&recording, &beats, Polarity::Unclear) {
            prop_assert!(median.landmarks.at(Landmark::R).is_some());
            let length = median.samples.len();
            prop_assert!(median.landmarks.iter().all(|(_, at)| at.get() < length));
        }
    }
}
