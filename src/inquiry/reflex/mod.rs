//! The muscle-stretch reflex: a tap on a tendon, and the burst of EMG that answers it.
//!
//! Taps come from marks, from a channel or from the trace ([`taps_marked`], [`taps_in_channel`],
//! [`taps_in_trace`]), or are given by hand. Each is looked at alone ([`Response`]); those whose windows hold
//! another tap are listed and left out, and taps without an answer are counted: some people have none, which
//! means nothing by itself. Means are over the answers, with 95 % intervals.
//!
//! EMG is the electrical side: the kick is seen tens of ms later. Published latencies in adults: knee 17.35 ±
//! 1.56 ms, ankle 30.97 ± 2.99 ms (Chon 1996, J Korean Acad Rehab Med 20:28); they grow with height.

mod arc;
mod burst;
mod compare;
mod no_reflex;
mod plan;
mod response;
mod settings;
mod sweep;
mod taps;
mod told;

pub use arc::{FixedDelays, LeftOutOfArc, NoSpeed, PathLength, two_site_speed};
pub use compare::{Comparison, compare};
pub use no_reflex::NoReflex;
pub use plan::{ReflexPlan, TapPlan};
pub use response::{Baseline, Response, WhyNoResponse};
pub use settings::{ReflexSettings, UnusableReflexSettings};
pub use sweep::{Sweeps, rms_envelope};
pub use taps::{likely_tap_mark, taps_in_channel, taps_in_trace, taps_marked};
pub use told::TapLine;

use super::stats::{Estimate, Moments};
use crate::signal::{Recording, Seconds, VoltageUnit};

/// A tap and what came of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tap {
    /// When, from the first sample.
    pub at: Seconds,
    /// What the EMG did before it, where that was recorded.
    pub baseline: Option<Baseline>,
    /// The answer, or why there is none.
    pub response: Result<Response, WhyNoResponse>,
}

/// The answers to the taps of one recording.
#[derive(Clone, Debug, PartialEq)]
pub struct Reflexes {
    /// What they were looked for with.
    pub settings: ReflexSettings,
    /// The unit of amplitudes.
    pub unit: VoltageUnit,
    /// Whether a sample is longer than a millisecond.
    pub is_coarse: bool,
    /// Every tap, in order.
    pub taps: Vec<Tap>,
    /// The latencies of the answers, ms; `None` without any, as the next ones.
    pub latency_ms: Option<Moments>,
    /// How long the answers last, ms.
    pub duration_ms: Option<Moments>,
    /// The means of the rectified EMG over the answers.
    pub rectified_mean: Option<Moments>,
    /// The root mean squares over the answers.
    pub rms: Option<Moments>,
}

impl Reflexes {
    /// Looks at each tap; moments that are not numbers are dropped, the rest put in order.
    ///
    /// # Errors
    /// [`NoReflex`] without any tap, or when a setting can't be used at the rate of the recording.
    pub fn of(
        recording: &Recording,
        taps: &[Seconds],
        settings: ReflexSettings,
    ) -> Result<Self, NoReflex> {
        settings.check(recording.rate).map_err(NoReflex::Settings)?;
        let mut moments: Vec<f64> =
            taps.iter().map(|tap| tap.seconds()).filter(|tap| tap.is_finite()).collect();
        moments.sort_unstable_by(f64::total_cmp);
        let moments: Vec<Seconds> = moments.into_iter().map(Seconds::new).collect();
        if moments.is_empty() {
            return Err(NoReflex::NoTapByHand);
        }
        let taps: Vec<Tap> = (0..moments.len())
            .zip(&moments)
            .map(|(place, &at)| {
                let (baseline, response) = response::respond(recording, at, &settings);
                let overlap = overlap(&moments, place, &settings);
                let response =
                    overlap.map_or(response, |other| Err(WhyNoResponse::Overlaps(other + 1)));
                Tap { at, baseline, response }
            })
            .collect();
        let of = |value: fn(&Response) -> f64| {
            let values: Vec<f64> =
                taps.iter().filter_map(|tap| Some(value(&tap.response.ok()?))).collect();
            Moments::of(&values)
        };
        Ok(Self {
            settings,
            unit: recording.unit,
            is_coarse: ReflexSettings::is_coarse(recording.rate),
            latency_ms: of(|one| one.latency.milliseconds()),
            duration_ms: of(|one| one.duration.milliseconds()),
            rectified_mean: of(|one| one.rectified_mean),
            rms: of(|one| one.rms),
            taps,
        })
    }

    /// The answers, in order.
    pub fn responses(&self) -> impl Iterator<Item = Response> {
        self.taps.iter().filter_map(|tap| tap.response.ok())
    }

    /// The mean latency, ms, with its 95 % interval: that of the mean over the taps, widened by the mean of what
    /// each single one may be off, since all onsets are late together. `None` of fewer than two answers.
    pub fn mean_latency(&self) -> Option<Estimate> {
        let interval = self.latency_ms?.mean_interval()?;
        let off: Vec<f64> =
            self.responses().map(|one| one.latency_uncertainty.milliseconds()).collect();
        let half = interval.half_width().hypot(Moments::of(&off)?.mean);
        Some(Estimate::around(interval.value, half))
    }

    /// How many taps had no answer though everything was recorded.
    pub fn silent(&self) -> usize {
        self.taps.iter().filter(|tap| tap.response == Err(WhyNoResponse::Silent)).count()
    }

    /// How many taps were left out for another reason.
    pub fn left_out(&self) -> usize {
        self.taps.len() - self.silent() - self.responses().count()
    }
}

/// The place of another tap from the start of this one's baseline to the end of its window; the nearest.
fn overlap(moments: &[Seconds], place: usize, settings: &ReflexSettings) -> Option<usize> {
    let at = *moments.get(place)?;
    let from = at - settings.baseline.to_seconds();
    let to = at + settings.until.to_seconds();
    let touches = |other: &Seconds| from <= *other && *other <= to;
    // An earlier answer must be over, too, before the baseline begins.
    let earlier = place.checked_sub(1).filter(|&before| {
        moments.get(before).is_some_and(|&other| from <= other + settings.until.to_seconds())
    });
    let later = moments.get(place + 1).filter(|&other| touches(other)).map(|_| place + 1);
    earlier.or(later)
}

#[cfg(test)]
mod tests;
