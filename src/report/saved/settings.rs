//! How a trace is taken: calibrated, turned over, with marks added by hand, a part of it, quietened, its
//! beats corrected.
//!
//! [`Settings::prepare`] makes the recording that is worked on from the one that was opened, which is
//! never altered. Marks and beats by hand and the part are samples of the recording as opened, so that another
//! part leaves them where they were; everything a student places later is a sample of the part.

use super::{SavedError, Unknown};
use crate::analysis::{BeatEdits, Cleaning};
use crate::signal::{Calibration, Mark, Recording, SampleIndex, SampleSpan, put_in_order};
use crate::words::phrase;
use serde::{Deserialize, Serialize};

/// What has to be known besides the samples to measure again.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// Which way up the trace is read.
    #[serde(default)]
    pub orientation: Orientation,
    /// What one millivolt is, where the file does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calibration: Option<Calibration>,
    /// The part that is worked on, in samples of the recording as opened; `None` for all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<SampleSpan>,
    /// Marks added by hand, in order, in samples of the recording as opened.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<Mark>,
    /// What is taken out of it before it is read.
    #[serde(default, skip_serializing_if = "Cleaning::is_none")]
    pub cleaning: Cleaning,
    /// What was corrected about its beats, in samples of the recording as opened.
    #[serde(default, skip_serializing_if = "BeatEdits::is_empty")]
    pub beats: BeatEdits,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
}

/// Which way up a trace is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Orientation {
    /// As the file has it.
    #[default]
    AsRecorded,
    /// Turned over: the student decided that the arm electrodes were swapped.
    TurnedOver,
}

impl Orientation {
    /// The trace as it is read; the recording that is kept stays as it was.
    #[must_use]
    pub fn of(self, recording: &Recording) -> Recording {
        match self {
            Self::AsRecorded => recording.clone(),
            Self::TurnedOver => Recording {
                samples: recording.samples.iter().map(|sample| -sample).collect(),
                ..recording.clone()
            },
        }
    }

    /// The other way up.
    #[must_use]
    pub const fn turned(self) -> Self {
        match self {
            Self::AsRecorded => Self::TurnedOver,
            Self::TurnedOver => Self::AsRecorded,
        }
    }
}

impl Settings {
    /// The recording that is worked on, from the one that was opened.
    #[must_use]
    pub fn prepare(&self, raw: &Recording) -> Recording {
        self.cleaning.apply(&self.uncleaned(raw))
    }

    /// The same before anything is taken out of it.
    #[must_use]
    pub fn uncleaned(&self, raw: &Recording) -> Recording {
        let part = match self.part {
            Some(part) => raw.part(part),
            None => raw.clone(),
        };
        let scaled = match self.calibration {
            Some(calibration) => calibration.of(&part),
            None => part,
        };
        Recording { marks: self.marks_on(raw), ..self.orientation.of(&scaled) }
    }

    /// The marks on the part, those of the file and those by hand, in order.
    pub fn marks_on(&self, raw: &Recording) -> Vec<Mark> {
        let part = self.part.unwrap_or(SampleSpan::new(0, raw.samples.len()));
        let inside = raw.marks.iter().chain(&self.marks).filter(|mark| part.contains(mark.at));
        let mut marks: Vec<Mark> = inside
            .map(|mark| Mark {
                at: mark.at.offset(-(self.first_sample() as isize)),
                ..mark.clone()
            })
            .collect();
        put_in_order(&mut marks, |mark| mark.at.get());
        marks
    }

    /// The corrections of beats on the part, in samples of the part.
    pub fn beats_on(&self, raw: &Recording) -> BeatEdits {
        self.beats.on(self.part.unwrap_or(SampleSpan::new(0, raw.samples.len())))
    }

    /// The sample of the recording as opened with which the part begins.
    pub fn first_sample(&self) -> usize {
        self.part.map_or(0, |part| part.start().get())
    }

    /// Adds a mark at a sample of the part.
    pub fn add_mark(&mut self, mark: Mark) {
        let at = SampleIndex::new(self.first_sample() + mark.at.get());
        let place = self.marks.partition_point(|other| other.at <= at);
        self.marks.insert(place, Mark { at, ..mark });
    }

    /// The place among the marks by hand of a mark on the part; `None` when it came with the file.
    pub fn place_by_hand(&self, mark: &Mark) -> Option<usize> {
        let at = self.first_sample() + mark.at.get();
        self.marks.iter().position(|own| own.at.get() == at && own.text == mark.text)
    }

    /// Takes a mark away that was added by hand, by its place among them.
    pub fn remove_mark(&mut self, place: usize) {
        if place < self.marks.len() {
            self.marks.remove(place);
        }
    }

    /// How many samples the part has, once part, marks and beats lie inside a recording of so many.
    ///
    /// # Errors
    /// [`SavedError::Misplaced`] names the first that does not.
    pub(crate) fn fits(&self, samples: usize) -> Result<usize, SavedError> {
        let misplaced = |what, sample: SampleIndex| SavedError::Misplaced {
            what,
            sample: sample.get(),
            samples,
        };
        let in_order = self.marks.is_sorted_by_key(|mark| mark.at);
        let outside = self.marks.iter().find(|mark| mark.at.get() >= samples);
        if let Some(mark) = outside.or(self.marks.first().filter(|_| !in_order)) {
            return Err(misplaced(phrase!("faults.saved.what.mark"), mark.at));
        }
        if let Some(at) = self.beats.misplaced(samples) {
            return Err(misplaced(phrase!("faults.saved.what.beat"), at));
        }
        match self.part {
            Some(part) if part.is_empty() || part.end().get() > samples => {
                Err(misplaced(phrase!("faults.saved.what.part"), part.start()))
            }
            Some(part) => Ok(part.len()),
            None => Ok(samples),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Hole, HoleCause, MarkKind, SampleRate, VoltageUnit};

    fn note(at: usize, text: &str) -> Mark {
        Mark { at: SampleIndex::new(at), kind: MarkKind::Note, text: text.to_owned() }
    }

    fn raw() -> Recording {
        Recording {
            name: "A0".to_owned(),
            rate: SampleRate::new(100.0).unwrap(),
            unit: VoltageUnit::Counts,
            samples: (0..1000).map(|i| 512.0 + i as f32).collect(),
            holes: vec![Hole { span: SampleSpan::new(250, 350), cause: HoleCause::NoRows }],
            marks: vec![note(100, "early"), note(320, "in the file")],
        }
    }

    #[test]
    fn scale_direction_marks_and_part_together() {
        let mut settings = Settings {
            orientation: Orientation::TurnedOver,
            calibration: Some(Calibration::new(100.0, 512.0).unwrap()),
            part: Some(SampleSpan::new(300, 800)),
            ..Settings::default()
        };
        settings.add_mark(note(10, "tap"));
        settings.marks.push(note(900, "after the part"));
        let taken = settings.prepare(&raw());
        assert_eq!((taken.unit, taken.samples.len()), (VoltageUnit::Millivolt, 500));
        assert_eq!((taken.samples[0], taken.samples[100]), (-3.0, -4.0));
        assert_eq!(taken.holes[0].span, SampleSpan::new(0, 50));
        let marks: Vec<_> = taken.marks.iter().map(|m| (m.at.get(), m.text.as_str())).collect();
        assert_eq!(marks, [(10, "tap"), (20, "in the file")]);
        assert_eq!(Settings::default().prepare(&raw()), raw(), "nothing set, nothing changed");
    }

    #[test]
    fn a_mark_by_hand_stays_when_the_part_changes() {
        let mut settings =
            Settings { part: Some(SampleSpan::new(300, 800)), ..Settings::default() };
        settings.add_mark(note(10, "tap"));
        assert_eq!(settings.place_by_hand(&note(10, "tap")), Some(0));
        assert_eq!(settings.place_by_hand(&note(20, "in the file")), None);
        settings.part = None;
        let taken = settings.prepare(&raw());
        assert!(taken.marks.contains(&note(310, "tap")));
        settings.remove_mark(7);
        settings.remove_mark(0);
        assert!(settings.marks.is_empty());
    }

    #[test]
    fn what_lies_outside_is_named() {
        let mut beats = BeatEdits::default();
        beats.add(SampleIndex::new(1000), 1);
        let late = Settings { beats, ..Settings::default() };
        assert!(late.fits(1001).is_ok());
        assert!(matches!(late.fits(1000), Err(SavedError::Misplaced { sample: 1000, .. })));
        let with = |part, marks| Settings { part, marks, ..Settings::default() }.fits(1000);
        assert_eq!(with(None, Vec::new()), Ok(1000));
        assert_eq!(with(Some(SampleSpan::new(300, 800)), vec![note(999, "")]), Ok(500));
        for (part, marks) in [
            (Some(SampleSpan::new(300, 1001)), Vec::new()),
            (Some(SampleSpan::new(5, 5)), Vec::new()),
            (None, vec![note(1000, "")]),
            (None, vec![note(9, ""), note(3, "")]),
        ] {
            assert!(matches!(with(part, marks), Err(SavedError::Misplaced { .. })));
        }
    }
}
