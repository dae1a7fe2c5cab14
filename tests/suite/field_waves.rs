//! Waves of invented recordings whose truth is known, read through the front door.
//!
//! Their edges lie 2.5 standard deviations from the middle of each bell, where 4.4 % of it are left;
//! T ends by the tangent at 2.

use beatwalk::analysis::{Polarity, Reading, read};
use beatwalk::formats::{Choices, Opening, SourceFile, open};
use beatwalk::signal::{Landmark, Recording, Seconds};
use std::path::Path;

fn reading(name: &str) -> (Recording, Reading) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/field-cases");
    let bytes = std::fs::read(folder.join(name)).unwrap();
    let file = SourceFile { name: name.to_owned(), bytes };
    match open(&[file], &Choices::default(), &mut ()).unwrap() {
        Opening::Ready(mut opened) => {
            let recording = opened.traces.swap_remove(opened.suggested);
            let reading = read(&recording, &mut ());
            (recording, reading)
        }
        Opening::NeedsRate(_) => panic!("{name} states its rate"),
    }
}

#[test]
fn a_t_wave_taller_than_r_has_its_own_boundaries() {
    let (recording, reading) = reading("o22-tall-t.csv");
    assert_eq!(reading.beats.len(), 11);
    // The third beat, in s from the first sample.
    let points = reading.beats[2].landmarks;
    let (t_peak, t_edge) = (2.4953, 2.6025);
    for (landmark, right, tolerance) in [
        (Landmark::POnset, 2.0046, 0.016),
        (Landmark::PPeak, 2.0523, 0.006),
        (Landmark::PEnd, 2.0999, 0.016),
        (Landmark::QrsOnset, 2.1615, 0.012),
        (Landmark::R, 2.2095, 0.006),
        (Landmark::QrsEnd, 2.26, 0.012),
        (Landmark::TPeak, t_peak, 0.008),
        (Landmark::TEnd, t_peak + 0.8 * (t_edge - t_peak), 0.012),
    ] {
        let found = recording.rate.time_of(points.at(landmark).unwrap());
        let off = (found - Seconds::new(right)).seconds();
        assert!(off.abs() <= tolerance, "{landmark:?} is {off} s off");
    }
}

#[test]
fn an_inverted_trace_has_p_and_t_and_its_r_points_down() {
    let (recording, reading) = reading("o21-inverted.csv");
    assert_eq!(reading.polarity, Polarity::LooksInverted);
    for beat in &reading.beats[1..reading.beats.len() - 1] {
        let value = |landmark| recording.samples[beat.landmarks.at(landmark).unwrap().get()];
        assert!(value(Landmark::R) < value(Landmark::QrsOnset));
        assert!(value(Landmark::PPeak) < value(Landmark::POnset));
        assert!(value(Landmark::TPeak) < value(Landmark::TEnd));
    }
}

#[test]
fn a_hundred_samples_a_second_are_enough_to_see_every_wave() {
    let (_, reading) = reading("o25-100hz.csv");
    let inner = &reading.beats[1..reading.beats.len() - 1];
    for landmark in [Landmark::PPeak, Landmark::QrsOnset, Landmark::QrsEnd, Landmark::TEnd] {
        assert!(inner.iter().all(|beat| beat.landmarks.at(landmark).is_some()), "{landmark:?}");
    }
    assert!(reading.intervals.qt_ms.is_some_and(|qt| qt.spread < 15.0));
}
