//! Which beat to read: the one that was pointed at, or a clean and typical one.

use crate::analysis::{Beat, Reading, Severity, Standing};
use crate::signal::{Landmark, Recording, SampleIndex, SampleRate, SampleSpan, Seconds};

/// How far R may lie from the place that was pointed at, or from where an earlier analysis put it:
/// half of this to each side. The matching window of beats in EC57, 150 ms.
const SAME_BEAT: Seconds = Seconds::new(0.15);

/// The place in `reading.beats` of the beat whose R is nearest to a sample, if near enough to be meant.
pub fn beat_near(reading: &Reading, near: SampleIndex, rate: SampleRate) -> Option<usize> {
    let (place, beat) = reading
        .beats
        .iter()
        .enumerate()
        .min_by_key(|(_, beat)| beat.r.minus(near).unsigned_abs())?;
    (beat.r.minus(near).unsigned_abs() <= rate.count(SAME_BEAT)).then_some(place)
}
/// d
pub fn suggest_beat(recording: &Recording, reading: &Reading) -> Option<usize> {
    let _ = recording;
    (!reading.beats.is_empty()).then_some(0)
}
