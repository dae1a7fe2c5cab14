//! EMG laid over each other at the tap, and the envelope that shows where a muscle works.

use super::{Reflexes, Tap};
use crate::analysis::moving_average;
use crate::signal::{Milliseconds, Recording, SampleRate};

/// The rectified EMG about each tap, as far as it was recorded.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweeps {
    /// Samples a second.
    pub rate: SampleRate,
    /// How long before the tap the first sample lies.
    pub before: Milliseconds,
    /// The number of each tap, from 1, and its samples, less the offset of its baseline and rectified; all of
    /// one length.
    pub sweeps: Vec<(usize, Vec<f32>)>,
    /// The mean of those that have an answer; empty without any.
    pub mean: Vec<f32>,
}

impl Sweeps {
    /// The sweeps of taps that have an answer or were silent.
    pub fn of(
        recording: &Recording,
        reflexes: &Reflexes,
        before: Milliseconds,
        after: Milliseconds,
    ) -> Self {
        let is_shown = |tap: &Tap| match tap.response {
            Ok(_) | Err(super::WhyNoResponse::Silent) => true,
            Err(_) => false,
        };
        let rate = recording.rate;
        let [first, last] = [before, after].map(|time| rate.count(time.to_seconds()));
        let sweep = |tap: &Tap| {
            let start = rate.nearest(tap.at).get().checked_sub(first)?;
            let part = recording.samples.get(start..=start + first + last)?;
            let offset = tap.baseline?.offset;
            Some(part.iter().map(|&value| (f64::from(value) - offset).abs() as f32).collect())
        };
        let shown = reflexes.taps.iter().enumerate().filter(|(_, tap)| is_shown(tap));
        let sweeps: Vec<(usize, bool, Vec<f32>)> = shown
            .filter_map(|(place, tap)| Some((place + 1, tap.response.is_ok(), sweep(tap)?)))
            .collect();
        let answered = || sweeps.iter().filter(|one| one.1).map(|one| &one.2);
        let n = answered().count();
        let mut sums = vec![0.0_f64; if n > 0 { first + last + 1 } else { 0 }];
        for sweep in answered() {
            sums.iter_mut().zip(sweep).for_each(|(sum, &value)| *sum += f64::from(value));
        }
        Self {
            rate,
            before: Milliseconds::new(first as f64 * 1000.0 / rate.hz()),
            mean: sums.into_iter().map(|sum| (sum / n as f64) as f32).collect(),
            sweeps: sweeps.into_iter().map(|(number, _, sweep)| (number, sweep)).collect(),
        }
    }
}

/// The root mean square over a centred window, after the median is taken off; as long as the trace. Near the
/// ends the window shrinks evenly.
pub fn rms_envelope(recording: &Recording, window: Milliseconds) -> Vec<f32> {
    let level = recording.level();
    let squares: Vec<f32> = recording
        .samples
        .iter()
        .map(|&value| (f64::from(value) - level).powi(2).min(f32::MAX.into()) as f32)
        .collect();
    let reach = recording.rate.count(window.to_seconds()) / 2;
    moving_average(&squares, reach).into_iter().map(|mean| mean.max(0.0).sqrt()).collect()
}
