//! Whole beats with known boundaries, and traces that are nothing of the kind.

use super::*;
use crate::signal::{Hole, HoleCause, SampleRate, SampleSpan};
use proptest::prelude::*;

/// A wave of the invented beat: middle after R and standard deviation in s, height in mV.
type Bell = (f64, f64, f64);

const P: Bell = (-0.17, 0.018, 0.12);
const QRS: [Bell; 3] = [(-0.026, 0.007, -0.12), (0.0, 0.010, 1.0), (0.028, 0.008, -0.2)];
const T: Bell = (0.27, 0.038, 0.3);

fn recording(samples: Vec<f32>, hz: f64) -> Recording {
    Recording {
        name: String::new(),
        rate: SampleRate::new(hz).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: samples.into(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// Beats `rr` seconds apart, made of the given waves, and where their R are.
fn beats(waves: &[Bell], hz: f64, rr: f64, count: usize) -> (Recording, Vec<SampleIndex>) {
    let r: Vec<f64> = (0..count).map(|beat| 0.6 + rr * beat as f64).collect();
    let length = ((0.6 + rr * count as f64) * hz) as usize;
    let samples = (0..length)
        .map(|at| {
            let t = at as f64 / hz;
            let near = r.iter().filter(|&r| (t - r).abs() < 1.5);
            near.flat_map(|r| {
                waves.iter().map(move |(middle, sd, height)| {
                    height * (-0.5 * ((t - r - middle) / sd).powi(2)).exp()
                })
            })
            .sum::<f64>() as f32
        })
        .collect();
    let rate = SampleRate::new(hz).unwrap();
    let r = r.into_iter().map(|r| rate.nearest(crate::signal::Seconds::new(r))).collect();
    (recording(samples, hz), r)
}

fn usual_waves() -> Vec<Bell> {
    [P, T].into_iter().chain(QRS).collect()
}

/// How far a landmark of the third beat lies from where it should, in ms.
fn off(points: &[Landmarks], r: &[SampleIndex], hz: f64, landmark: Landmark, after_r: f64) -> f64 {
    let at = points[2]
        .at(landmark)
        .unwrap_or_else(|| panic!("no {landmark:?} at {hz} Hz: {:?}", points[2]));
    (at.minus(r[2]) as f64 / hz - after_r) * 1000.0
}

#[test]
fn known_boundaries_are_found_at_every_rate_and_either_way_up() {
    for hz in [100.0, 250.0, 360.0, 500.0, 1000.0, 4000.0] {
        for up in [1.0, -1.0] {
            let waves: Vec<Bell> =
                usual_waves().into_iter().map(|(at, sd, height)| (at, sd, up * height)).collect();
            let (recording, r) = beats(&waves, hz, 0.85, 8);
            let polarity = if up > 0.0 { Polarity::Upright } else { Polarity::LooksInverted };
            let points = delineate(&recording, &r, polarity);
            // A bell has no edge; 2.5 standard deviations is where 4.4 % of it are left. T ends by
            // the tangent, at 2, and a little later in the smoothed trace.
            let edge = |bell: Bell, sds: f64| bell.0 + sds * bell.1;
            for (landmark, truth, tolerance) in [
                (Landmark::POnset, edge(P, -2.5), 14.0),
                (Landmark::PPeak, P.0, 4.0),
                (Landmark::PEnd, edge(P, 2.5), 14.0),
                (Landmark::QrsOnset, edge(QRS[0], -2.5), 8.0),
                (Landmark::Q, QRS[0].0, 4.0),
                (Landmark::R, 0.0, 0.1),
                (Landmark::S, QRS[2].0, 4.0),
                (Landmark::QrsEnd, edge(QRS[2], 2.5), 9.0),
                (Landmark::TPeak, T.0, 4.0),
                (Landmark::TEnd, edge(T, 2.0), 9.0),
            ] {
                let off = off(&points, &r, hz, landmark, truth);
                let sample = 1000.0 / hz;
                assert!(off.abs() <= tolerance + sample, "{landmark:?} off by {off} ms at {hz} Hz");
            }
        }
    }
}

#[test]
fn beats_without_a_p_wave_get_none() {
    let waves: Vec<Bell> = usual_waves().into_iter().skip(1).collect();
    let (mut recording, r) = beats(&waves, 500.0, 0.8, 12);
    let clean = delineate(&recording, &r, Polarity::Upright);
    assert!(clean.iter().all(|beat| beat.at(Landmark::PPeak).is_none()));
    assert!(clean.iter().all(|beat| beat.at(Landmark::TPeak).is_some()));
    // Fibrillating atria: waves of 0.06 mV, 6.7 a second, that keep no time with the beats.
    recording.samples = recording
        .samples
        .iter()
        .enumerate()
        .map(|(at, value)| value + 0.06 * (at as f32 / 500.0 * 42.27).sin())
        .collect();
    let fibrillating = delineate(&recording, &r, Polarity::Upright);
    assert!(fibrillating.iter().all(|beat| beat.at(Landmark::PPeak).is_none()));
}

#[test]
fn at_a_fast_rate_a_p_wave_inside_t_is_not_measured() {
    let waves = [(-0.13, 0.016, 0.1), QRS[1], QRS[2], (0.17, 0.03, 0.3)];
    let (recording, r) = beats(&waves, 250.0, 0.31, 20);
    for beat in delineate(&recording, &r, Polarity::Upright) {
        assert_eq!(beat.at(Landmark::POnset), None);
    }
}

#[test]
fn nothing_is_measured_across_a_hole_or_beyond_the_end() {
    let (mut recording, r) = beats(&usual_waves(), 500.0, 0.85, 6);
    let third = r[2].get();
    let span = SampleSpan::new(third + 120, third + 160);
    recording.holes = vec![Hole { span, cause: HoleCause::NoValue }];
    let points = delineate(&recording, &r, Polarity::Upright);
    assert!(points[2].at(Landmark::QrsEnd).is_some());
    assert_eq!(points[2].at(Landmark::TEnd), None, "a hole in T");
    assert!(points[3].at(Landmark::TEnd).is_some());
    let cut = recording.part(SampleSpan::new(0, r[5].get() + 150));
    assert_eq!(delineate(&cut, &r, Polarity::Upright)[5].at(Landmark::TEnd), None);
    let beyond = [SampleIndex::new(10_000_000)];
    assert_eq!(delineate(&recording, &beyond, Polarity::Upright), [Landmarks::default()]);
}

#[test]
fn counts_are_measured_like_millivolts() {
    let (recording, r) = beats(&usual_waves(), 250.0, 0.9, 6);
    let expected = delineate(&recording, &r, Polarity::Upright);
    let counts = Recording {
        unit: VoltageUnit::Counts,
        samples: recording.samples.iter().map(|value| 512.0 + 200.0 * value).collect(),
        ..recording
    };
    let found = delineate(&counts, &r, Polarity::Upright);
    assert_eq!(found[3].at(Landmark::TEnd), expected[3].at(Landmark::TEnd));
    assert_eq!(found[3].at(Landmark::PPeak), expected[3].at(Landmark::PPeak));
}

proptest! {
    #[test]
    fn any_trace_gives_points_in_order_inside_it(
        samples in proptest::collection::vec(-3.0f32..3.0, 0..900),
        r in proptest::collection::vec(0usize..1000, 0..12),
        hz in prop_oneof![Just(0.7), Just(60.0), Just(100.0), Just(250.0), Just(2000.0), Just(1.0e6)],
        sorted in any::<bool>(),
    ) {
        let mut r: Vec<SampleIndex> = r.into_iter().map(SampleIndex::new).collect();
        if sorted {
            r.sort();
            r.dedup();
        }
        let length = samples.len();
        let found = delineate(&recording(samples, hz), &r, Polarity::Unclear);
        prop_assert_eq!(found.len(), r.len());
        for points in &found {
            let places: Vec<usize> = points.iter().map(|(_, at)| at.get()).collect();
            prop_assert!(places.iter().all(|&at| at < length));
            prop_assert!(!sorted || places.is_sorted(), "{:?}", points);
        }
    }

    #[test]
    fn moving_a_trace_moves_its_points(shift in 0usize..400, level in -5.0f32..5.0) {
        let (recording, r) = beats(&usual_waves(), 250.0, 0.9, 5);
        let start = recording.samples[0] + level;
        let samples: Vec<f32> = std::iter::repeat_n(start, shift)
            .chain(recording.samples.iter().map(|value| value + level))
            .collect();
        let moved: Vec<SampleIndex> = r.iter().map(|r| r.offset(shift as isize)).collect();
        let expected = delineate(&recording, &r, Polarity::Upright);
        let found = delineate(&Recording { samples: samples.into(), ..recording }, &moved, Polarity::Upright);
        for (found, expected) in found.iter().zip(&expected).skip(1) {
            for (landmark, at) in expected.iter() {
                let off = found.at(landmark).map(|found| found.minus(at) - shift as isize);
                prop_assert!(off.is_some_and(|off| off.abs() <= 1), "{:?} {:?}", landmark, off);
            }
        }
    }
}
