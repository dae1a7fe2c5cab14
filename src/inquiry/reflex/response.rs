//! What a muscle did after one tap: when its EMG rose, for how long, and how large it was.
//!
//! The mean of the baseline window is taken off before rectifying, since an electrode has a voltage of its own;
//! nothing is filtered, because a filter that moves no wave smears a burst to both sides and would let it begin
//! before it does. Onset is the first sample above mean + k SD (n - 1) of the rectified baseline that
//! holds; the crossing lies between it and the one before, so half a sample is taken off.
//!
//! How far latency may be off (k = 2): tap and crossing each lie anywhere within a sample (2·√(2/12) samples),
//! and a burst rises out of the noise before it crosses, so that an onset by any line is late: since the last
//! sample at or below the mean of the baseline, or [`BELOW_THE_LINE`] times as long as it takes from the line to
//! twice the line, whichever is longer. A burst that grows ever faster takes longer below a line than above
//! it; the factor is ours, tried on invented bursts. Amplitudes are over the burst, in the unit of the recording.

use super::burst::{Found, Rule, burst};
use super::settings::ReflexSettings;
use crate::signal::{Milliseconds, Recording, SampleIndex, Seconds};
use std::ops::Range;

/// How much longer a burst rises below the line than from the line to twice the line.
const BELOW_THE_LINE: f64 = 2.5;
/// What is averaged over to tell when it has reached twice the line.
const SMOOTH: Milliseconds = Milliseconds::new(1.0);

/// What the EMG did before a tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Baseline {
    /// Its mean, taken off before rectifying.
    pub offset: f64,
    /// The mean of the rectified.
    pub mean: f64,
    /// The standard deviation of the rectified (n - 1).
    pub deviation: f64,
    /// The line: mean + k SD.
    pub line: f64,
}

/// The answer to a tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Response {
    /// When it began, from the first sample of the recording.
    pub onset: Seconds,
    /// When it ended.
    pub end: Seconds,
    /// From the tap to the onset.
    pub latency: Milliseconds,
    /// How far that may be off (k = 2).
    pub latency_uncertainty: Milliseconds,
    /// From onset to end.
    pub duration: Milliseconds,
    /// The mean of the rectified EMG over the burst.
    pub rectified_mean: f64,
    /// That times the duration: unit · ms.
    pub area: f64,
    /// The root mean square over the burst.
    pub rms: f64,
    /// From the lowest to the highest sample of the burst.
    pub peak_to_peak: f64,
}

/// Why a tap has no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNoResponse {
    /// Nothing stayed above the line: the muscle was silent. That is a result, not an error.
    Silent,
    /// Another tap falls between its baseline and the end of its window: the one with this number, from 1.
    Overlaps(usize),
    /// Its baseline or its window reaches beyond the recording or into a hole.
    NotRecorded,
    /// The EMG is above the line already when the window opens: the jolt lasts longer, or the muscle is tense.
    ActiveAtStart,
    /// The baseline does not move at all: no sensor does that.
    FlatBaseline,
}

impl WhyNoResponse {
    /// All of them, with one overlap as an example.
    pub const ALL: [Self; 5] = [
        Self::Silent,
        Self::Overlaps(1),
        Self::NotRecorded,
        Self::ActiveAtStart,
        Self::FlatBaseline,
    ];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Silent => "silent",
            Self::Overlaps(_) => "overlaps",
            Self::NotRecorded => "not_recorded",
            Self::ActiveAtStart => "active_at_start",
            Self::FlatBaseline => "flat_baseline",
        }
    }

    /// Why, and what to do.
    pub fn said(self) -> crate::words::Phrase {
        use crate::words::phrase;
        match self {
            Self::Silent => phrase!("reflex.no_response.silent"),
            Self::Overlaps(other) => phrase!("reflex.no_response.overlaps", other),
            Self::NotRecorded => phrase!("reflex.no_response.not_recorded"),
            Self::ActiveAtStart => phrase!("reflex.no_response.active_at_start"),
            Self::FlatBaseline => phrase!("reflex.no_response.flat_baseline"),
        }
    }
}

/// The samples between two times from a tap; `None` where they are not all recorded.
pub(super) fn samples(
    recording: &Recording,
    tap: Seconds,
    from: Milliseconds,
    to: Milliseconds,
) -> Option<Range<usize>> {
    let place = |ms: Milliseconds| {
        let moment = ((tap + ms.to_seconds()).seconds() * recording.rate.hz()).round();
        (moment >= 0.0).then_some(moment as usize)
    };
    let (from, to) = (place(from)?, place(to)?);
    let is_whole = from < to
        && to <= recording.samples.len()
        && !recording.is_broken_between(SampleIndex::new(from), SampleIndex::new(to - 1));
    is_whole.then_some(from..to)
}

/// The baseline of a tap, and what came after it.
pub(super) fn respond(
    recording: &Recording,
    tap: Seconds,
    settings: &ReflexSettings,
) -> (Option<Baseline>, Result<Response, WhyNoResponse>) {
    let Some(baseline) = Baseline::before(recording, tap, settings) else {
        return (None, Err(WhyNoResponse::NotRecorded));
    };
    let response = if baseline.deviation > 0.0 {
        look(recording, tap, settings, &baseline)
    } else {
        Err(WhyNoResponse::FlatBaseline)
    };
    (Some(baseline), response)
}

impl Baseline {
    fn before(recording: &Recording, tap: Seconds, settings: &ReflexSettings) -> Option<Self> {
        let span = samples(recording, tap, -settings.baseline, -settings.guard)?;
        let values = || recording.samples.get(span.clone()).unwrap_or_default().iter();
        let n = span.len() as f64;
        let offset = values().map(|&value| f64::from(value)).sum::<f64>() / n;
        let rectified = || values().map(|&value| (f64::from(value) - offset).abs());
        let mean = rectified().sum::<f64>() / n;
        let squares: f64 = rectified().map(|value| (value - mean).powi(2)).sum();
        let deviation = (squares / (n - 1.0).max(1.0)).sqrt();
        Some(Self { offset, mean, deviation, line: mean + settings.deviations * deviation })
    }
}

fn look(
    recording: &Recording,
    tap: Seconds,
    settings: &ReflexSettings,
    baseline: &Baseline,
) -> Result<Response, WhyNoResponse> {
    let window = samples(recording, tap, settings.skip, settings.until);
    let window = window.ok_or(WhyNoResponse::NotRecorded)?;
    let rate = recording.rate;
    // From the tap on, and so far after the window that a burst that begins in it can end.
    let first = ((tap.seconds() * rate.hz()).round() as usize).min(window.start);
    let last = (window.end + window.len()).min(recording.samples.len());
    let values: Vec<f64> = recording
        .samples
        .get(first..last)
        .unwrap_or_default()
        .iter()
        .map(|&value| f64::from(value) - baseline.offset)
        .collect();
    let rectified: Vec<f64> = values.iter().map(|value| value.abs()).collect();
    let count = |time: Milliseconds| time.to_seconds().seconds() * rate.hz();
    let rule = Rule {
        hold: (count(settings.hold).round() as usize).max(2),
        dip: count(settings.dip).round() as usize,
    };
    let inside = window.start - first..window.end - first;
    let span = match burst(&rectified, baseline.line, inside, rule) {
        Found::Burst(span) => span,
        Found::BeforeWindow => return Err(WhyNoResponse::ActiveAtStart),
        Found::Nothing => return Err(WhyNoResponse::Silent),
    };
    let step = rate.interval().to_milliseconds().milliseconds();
    let moment = |at: f64| Seconds::new((first as f64 + at) / rate.hz());
    let (onset, end) = (moment(span.start as f64 - 0.5), moment(span.end as f64 - 0.5));
    let before = rectified.get(..span.start).unwrap_or_default();
    let climb = before.iter().rev().take_while(|&&value| value > baseline.mean).count();
    let rise = rectified.get(span.start..).unwrap_or_default();
    let about = count(SMOOTH).round().max(1.0) as usize;
    let doubling = rise
        .windows(about)
        .take_while(|part| part.iter().sum::<f64>() < 2.0 * baseline.line * about as f64);
    let hidden = BELOW_THE_LINE * (doubling.count() + about - 1) as f64;
    let late = ((climb + 1) as f64).max(hidden).min((span.start + 1) as f64) * step;
    let n = span.len() as f64;
    let duration = n * step;
    let part = values.get(span).unwrap_or_default();
    let rectified_mean = part.iter().map(|value| value.abs()).sum::<f64>() / n;
    let (low, high) = part
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), &v| (low.min(v), high.max(v)));
    let sampling = 2.0 * (2.0_f64 / 12.0).sqrt() * step;
    Ok(Response {
        onset,
        end,
        latency: (onset - tap).to_milliseconds(),
        latency_uncertainty: Milliseconds::new(sampling.hypot(late)),
        duration: Milliseconds::new(duration),
        rectified_mean,
        area: rectified_mean * duration,
        rms: (part.iter().map(|value| value * value).sum::<f64>() / n).sqrt(),
        peak_to_peak: high - low,
    })
}
