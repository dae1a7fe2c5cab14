//! An invented recording for tests: the beat of the worked example `intervals-01`, over and over.
//!
//! 1000 samples a second, one beat each 800 ms, 75 a minute: PR 140, QRS 88, QT 360 ms.

use crate::analysis::{Beat, Corrected, Polarity, Reading};
use crate::signal::{Landmark, Landmarks, Recording, SampleIndex, SampleRate, VoltageUnit};

/// Where the points lie, in ms from the start of the beat; `intervals-01`, peaks and T onset added.
pub(crate) const PLACES: [(Landmark, usize); 11] = [
    (Landmark::POnset, 100),
    (Landmark::PPeak, 150),
    (Landmark::PEnd, 198),
    (Landmark::QrsOnset, 240),
    (Landmark::Q, 255),
    (Landmark::R, 278),
    (Landmark::S, 300),
    (Landmark::QrsEnd, 328),
    (Landmark::TOnset, 420),
    (Landmark::TPeak, 520),
    (Landmark::TEnd, 600),
];

/// A recording of so many beats, and what was found in it.
pub(crate) fn of_beats(count: usize) -> (Recording, Reading) {
    let beats: Vec<Beat> = (0..count).map(|number| beat(number * 800)).collect();
    let recording = Recording {
        name: "ECG I".to_owned(),
        rate: SampleRate::new(1000.0).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: vec![0.0; count * 800 + 1].into(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let reading = Reading {
        polarity: Polarity::Upright,
        found: beats.iter().map(|beat| beat.r).collect(),
        beats,
        unusable: Vec::new(),
        corrected: Corrected::default(),
        median: None,
        intervals: crate::analysis::Intervals::default(),
        findings: Vec::new(),
    };
    (recording, reading)
}

fn beat(start: usize) -> Beat {
    let mut landmarks = Landmarks::default();
    for (landmark, at) in PLACES {
        landmarks.set(landmark, Some(SampleIndex::new(start + at)));
    }
    Beat { landmarks, ..Beat::at(SampleIndex::new(start + 278)) }
}
