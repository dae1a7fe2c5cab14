//! Bare recordings for the tests of this module.

use crate::signal::{Mark, MarkKind, Recording, SampleRate, Seconds, VoltageUnit};

/// Noise of spread 1 from a seed: twelve even numbers added, less their mean.
pub(super) fn noise(count: usize, seed: u64) -> Vec<f64> {
    let mut random = oorandom::Rand64::new(seed.into());
    (0..count).map(|_| (0..12).map(|_| random.rand_float()).sum::<f64>() - 6.0).collect()
}

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
