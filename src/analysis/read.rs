//! The whole analysis.
use super::beats::{candidates, decide, steepness};
use super::intervals::measure;
use super::median::median_beat;
use super::reading::{Beat, Polarity, Reading, Standing};
use super::waves::delineate;
use crate::signal::{Landmarks, Progress, Recording, SampleIndex, SampleSpan};
/// Finds the beats of a trace and measures them.
pub fn read(recording: &Recording, _progress: &mut dyn Progress) -> Reading {
    let unusable: Vec<SampleSpan> = recording.holes.iter().map(|hole| hole.span).collect();
    let steep = steepness(&recording.samples, recording.rate, &unusable);
    let found = candidates(&steep, recording.rate);
    let beats = decide(&found, recording.rate);
    let mut beats: Vec<Beat> = found
        .iter()
        .zip(&beats)
        .filter(|(_, is)| **is)
        .map(|(peak, _)| Beat {
            r: SampleIndex::new(peak.at),
            landmarks: Landmarks::default(),
            standing: Standing::Counts,
        })
        .collect();
    let polarity = Polarity::Unclear;
    let r: Vec<SampleIndex> = beats.iter().map(|beat| beat.r).collect();
    for (beat, points) in beats.iter_mut().zip(delineate(recording, &r, polarity)) {
        beat.landmarks = points;
    }
    Reading {
        polarity,
        median: median_beat(recording, &beats, polarity),
        intervals: measure(recording, &beats),
        beats,
        findings: Vec::new(),
    }
}
