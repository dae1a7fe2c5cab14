//! The whole analysis.
use super::beats::{candidates, decide, steepness};
use super::reading::{Beat, Polarity, Reading, Standing};
use crate::signal::{Landmarks, Progress, Recording, SampleIndex, SampleSpan};
/// Finds the beats of a trace and measures them.
pub fn read(recording: &Recording, _progress: &mut dyn Progress) -> Reading {
    let unusable: Vec<SampleSpan> = recording.holes.iter().map(|hole| hole.span).collect();
    let steep = steepness(&recording.samples, recording.rate, &unusable);
    let found = candidates(&steep, recording.rate);
    let beats = decide(&found, recording.rate);
    let beats = found
        .iter()
        .zip(&beats)
        .filter(|(_, is)| **is)
        .map(|(peak, _)| Beat {
            r: SampleIndex::new(peak.at),
            landmarks: Landmarks::default(),
            standing: Standing::Counts,
        })
        .collect();
    Reading {
        polarity: Polarity::Unclear,
        beats,
        median: None,
        intervals: super::Intervals::default(),
        findings: Vec::new(),
    }
}
