//! What the analysis finds in a recording, once for all students who work on it.

use crate::analysis::{BeatEdits, Cleaning, Reading, read_corrected};
use crate::homework::{Assignment, Homework};
use crate::lesson::Evidence;
use crate::report::{SavedRecording, SavedWork, Settings};
use crate::signal::{Progress, Recording, SampleIndex, SampleSpan};
use std::sync::Arc;

/// A recording as it is read for marking, and what was found in it.
#[derive(Debug)]
pub(super) struct Reference {
    recording: Recording,
    reading: Reading,
    /// The sample of the recording as opened with which it begins.
    first: usize,
}

/// How many readings of given recordings are kept: each may be large, and students may set what they like.
const KEPT: usize = 8;

/// Recordings that were read already.
#[derive(Debug, Default)]
pub(super) struct References {
    /// Those that were given, by their key and how they were taken.
    given: Vec<(String, Settings, Arc<Reference>)>,
    /// Those of the student in hand, by their key.
    own: Vec<(String, Arc<Reference>)>,
}

impl References {
    /// Turns to the next student.
    pub(super) fn next_student(&mut self) {
        self.own.clear();
    }

    /// What a student's work on a recording is held against; `None` without that recording.
    pub(super) fn of(
        &mut self,
        assignment: &Assignment,
        homework: &Homework,
        material: &str,
        progress: &mut dyn Progress,
    ) -> Option<Arc<Reference>> {
        let own = homework.works.get(material).map(|work| &work.settings);
        let Some(given) = &assignment.material(material)?.given else {
            if let Some((_, known)) = self.own.iter().find(|(key, _)| key == material) {
                return Some(Arc::clone(known));
            }
            let settings = own.map(own_settings).unwrap_or_default();
            let recording = homework.own.get(material)?;
            let read = Arc::new(Reference::of(recording, &settings, progress));
            self.own.push((material.to_owned(), Arc::clone(&read)));
            return Some(read);
        };
        let settings = given_settings(&given.settings, own);
        let is_this =
            |(key, taken, _): &&(String, Settings, _)| key == material && *taken == settings;
        if let Some((_, _, known)) = self.given.iter().find(is_this) {
            return Some(Arc::clone(known));
        }
        let read = Arc::new(Reference::of(&given.recording, &settings, progress));
        self.given.truncate(KEPT - 1);
        self.given.insert(0, (material.to_owned(), settings, Arc::clone(&read)));
        Some(read)
    }
}

/// How a given recording is taken: as the teacher takes it, turned as the student turned it, and in the student's
/// scale where the teacher left it open.
fn given_settings(given: &Settings, own: Option<&Settings>) -> Settings {
    let mut taken = given.clone();
    if let Some(own) = own {
        taken.orientation = own.orientation;
        taken.calibration = given.calibration.or(own.calibration);
    }
    taken
}

/// Of what a student set on a recording of their own, what may be taken for true.
fn own_settings(own: &Settings) -> Settings {
    let mut taken = own.clone();
    taken.cleaning = Cleaning::default();
    taken.beats = BeatEdits::default();
    taken
}

impl Reference {
    fn of(saved: &SavedRecording, settings: &Settings, progress: &mut dyn Progress) -> Self {
        let raw = &saved.recording;
        let recording = settings.prepare(raw);
        let reading = read_corrected(&recording, &settings.beats_on(raw), progress);
        Self { recording, reading, first: settings.first_sample() }
    }

    pub(super) const fn evidence(&self) -> Evidence<'_> {
        Evidence { recording: &self.recording, reading: &self.reading }
    }

    /// A sample of the student's part as a sample of this recording; `None` where it lies outside.
    pub(super) fn here(&self, work: &SavedWork, at: SampleIndex) -> Option<SampleIndex> {
        let raw = work.settings.first_sample().checked_add(at.get())?;
        let here = raw.checked_sub(self.first)?;
        (here < self.recording.samples.len()).then_some(SampleIndex::new(here))
    }

    /// What of this recording the student's part holds; all of it where the student took no part.
    pub(super) fn span(&self, work: Option<&SavedWork>) -> SampleSpan {
        let end = self.recording.samples.len();
        let Some(part) = work.and_then(|work| work.settings.part) else {
            return SampleSpan::new(0, end);
        };
        let here = |raw: SampleIndex| raw.get().saturating_sub(self.first).min(end);
        SampleSpan::new(here(part.start()), here(part.end()))
    }
}
