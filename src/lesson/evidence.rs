//! The recording and what was found in it: what a student's answers are held against.

use super::{Session, beat_near};
use crate::analysis::{Beat, BeatSeries, Reading};
use crate::signal::{Recording, SampleIndex};

/// What a student's answers are judged against.
#[derive(Clone, Copy, Debug)]
pub struct Evidence<'a> {
    /// The recording, as opened.
    pub recording: &'a Recording,
    /// What the analysis found in it.
    pub reading: &'a Reading,
}

impl<'a> Evidence<'a> {
    /// The beat a session has chosen: its place in `reading.beats`, and what was found in it.
    pub fn chosen(self, session: &Session) -> Option<(usize, &'a Beat)> {
        self.at(session.beat()?)
    }

    /// The beat whose points are placed just now: that of the final check while it is open.
    pub fn in_hand(self, session: &Session) -> Option<(usize, &'a Beat)> {
        self.at(session.beat_in_hand()?)
    }

    /// Its beats in order, and whether they follow each other.
    pub fn series(self) -> BeatSeries<'a> {
        self.reading.series(self.recording)
    }

    fn at(self, r: SampleIndex) -> Option<(usize, &'a Beat)> {
        let place = beat_near(self.reading, r, self.recording.rate)?;
        Some((place, self.reading.beats.get(place)?))
    }
}
