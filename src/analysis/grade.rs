//! How far each beat, and the whole recording, can be trusted.
//!
//! A beat that looks like the typical one is clear. The measure is the correlation coefficient of the
//! whole cycle with the typical beat, as in the quality index of Orphanidou et al. 2015 (IEEE J Biomed
//! Health Inform 19:832), who accept a stretch of ECG from a mean of 0.66 up (from memory). The mark for
//! a clear beat is ours. Correlation does not see height, so clipping and hum are told by the findings.

use super::beats::correlation;
use super::reading::{Beat, MedianBeat, Reading};
use crate::signal::{Landmark, Recording, SampleIndex};

/// From here up a stretch is accepted by Orphanidou 2015.
const USABLE: f32 = 0.66;
/// From here up the waves of a single beat can be placed (ours).
const CLEAR: f32 = 0.9;

/// What a beat or a recording is good for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Not to be measured by hand.
    Poor,
    /// Good for time, with care for small waves.
    Usable,
    /// Good for placing every wave.
    Clear,
}

/// The likeness of each beat to the typical one.
#[derive(Clone, Debug, PartialEq)]
pub struct Grades {
    /// From -1 to 1 for each beat of the reading, in order; `None` for one that reaches over an end or
    /// touches a hole.
    pub likeness: Vec<Option<f32>>,
}

impl Grade {
    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Poor => "poor",
            Self::Usable => "usable",
            Self::Clear => "clear",
        }
    }

    /// The grade of a likeness.
    pub fn of(likeness: f32) -> Self {
        match likeness {
            likeness if likeness >= CLEAR => Self::Clear,
            likeness if likeness >= USABLE => Self::Usable,
            _ => Self::Poor,
        }
    }
}

impl Grades {
    /// Compares each beat with the typical one; without a typical beat none is graded.
    pub fn of(recording: &Recording, reading: &Reading) -> Self {
        let likeness = match &reading.median {
            Some(median) => {
                reading.beats.iter().map(|beat| likeness(recording, beat, median)).collect()
            }
            None => vec![None; reading.beats.len()],
        };
        Self { likeness }
    }

    /// The grade of one beat; a beat that can't be compared is poor.
    pub fn beat(&self, place: usize) -> Grade {
        self.likeness.get(place).copied().flatten().map_or(Grade::Poor, Grade::of)
    }

    /// The grade of the recording: that of the mean likeness. `None` when nothing could be compared.
    pub fn recording(&self) -> Option<Grade> {
        let known: Vec<f32> = self.likeness.iter().copied().flatten().collect();
        let mean = known.iter().sum::<f32>() / known.len() as f32;
        (!known.is_empty()).then(|| Grade::of(mean))
    }

    /// How many beats have a grade.
    pub fn count(&self, grade: Grade) -> usize {
        (0..self.likeness.len()).filter(|&place| self.beat(place) == grade).count()
    }
}

fn likeness(recording: &Recording, beat: &Beat, typical: &MedianBeat) -> Option<f32> {
    let before = typical.landmarks.at(Landmark::R)?.get();
    let start = beat.r.get().checked_sub(before)?;
    let end = start + typical.samples.len();
    let cycle = recording.samples.get(start..end)?;
    let touches = recording.is_broken_between(SampleIndex::new(start), SampleIndex::new(end - 1));
    (!touches).then(|| correlation(cycle.iter().copied().zip(typical.samples.iter().copied())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Corrected, Intervals, Polarity};
    use crate::signal::{Landmarks, SampleRate, VoltageUnit};

    #[test]
    fn a_beat_like_the_typical_one_is_clear_and_one_in_noise_is_not() {
        let bell = |k: i32| (-f64::from(k * k) / 18.0).exp() as f32;
        let typical: Vec<f32> = (-40..=40).map(bell).collect();
        let mut samples: Vec<f32> = (0..400).map(|i| bell((i % 100) - 50)).collect();
        for (i, value) in samples.iter_mut().enumerate().skip(200).take(100) {
            *value += if i % 2 == 0 { 0.4 } else { -0.4 };
        }
        let mut landmarks = Landmarks::default();
        landmarks.set(Landmark::R, Some(SampleIndex::new(40)));
        let rate = SampleRate::new(250.0).unwrap();
        let beat = |r| Beat::at(SampleIndex::new(r));
        let reading = Reading {
            polarity: Polarity::Upright,
            found: Vec::new(),
            unusable: Vec::new(),
            corrected: Corrected::default(),
            beats: vec![beat(10), beat(50), beat(150), beat(250), beat(350)],
            median: Some(MedianBeat { samples: typical, rate, landmarks, n: 4 }),
            intervals: Intervals::default(),
            findings: Vec::new(),
        };
        let recording = Recording {
            name: String::new(),
            rate,
            unit: VoltageUnit::Millivolt,
            samples: samples.into(),
            holes: Vec::new(),
            marks: Vec::new(),
        };
        let grades = Grades::of(&recording, &reading);
        assert_eq!(grades.likeness[0], None, "it reaches over the start");
        let found: Vec<Grade> = (0..5).map(|place| grades.beat(place)).collect();
        assert_eq!(found, [Grade::Poor, Grade::Clear, Grade::Clear, Grade::Poor, Grade::Clear]);
        assert_eq!((grades.count(Grade::Clear), grades.recording()), (3, Some(Grade::Usable)));
        assert_eq!(Grades::of(&recording, &Reading { median: None, ..reading }).recording(), None);
    }
}
