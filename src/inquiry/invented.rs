//! Bare recordings for the tests of this module.

use crate::signal::{Mark, MarkKind, Recording, SampleRate, Seconds, VoltageUnit};

/// A recording in millivolts without anything in it.
pub(super) fn flat(hz: f64, seconds: f64) -> Recording {
    let rate = SampleRate::new(hz).unwrap();
    of(hz, vec![0.0; rate.count(Seconds::new(seconds))])
}

/// A recording of some samples in millivolts.
pub(super) fn of(hz: f64, samples: Vec<f32>) -> Recording {
    Recording {
        name: String::new(),
        rate: SampleRate::new(hz).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: samples.into(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// Marks at some moments, s.
pub(super) fn marks(recording: &Recording, moments: &[(f64, &str)]) -> Vec<Mark> {
    let mark = |&(seconds, text): &(f64, &str)| Mark {
        at: recording.rate.nearest(Seconds::new(seconds)),
        kind: MarkKind::Note,
        text: text.to_owned(),
    };
    moments.iter().map(mark).collect()
}
