//! What was found in a trace.

use super::measurement::Intervals;
use crate::signal::{Landmark, Landmarks, SampleIndex, SampleRate, SampleSpan};
use serde::{Deserialize, Serialize};

/// Everything that was found in one trace. All sample indices are those of the recording.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Which way up the trace is.
    pub polarity: Polarity,
    /// The beats, in order.
    pub beats: Vec<Beat>,
    /// The typical beat, when there are enough that look alike.
    pub median: Option<MedianBeat>,
    /// What was measured over all beats that count.
    pub intervals: Intervals,
    /// What is wrong with the trace, gravest first.
    pub findings: Vec<Finding>,
}

/// One heartbeat.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Beat {
    /// The peak of R, or the deepest point where the complex only goes down.
    pub r: SampleIndex,
    /// The points of this cycle; those that can't be measured have no place.
    pub landmarks: Landmarks,
    /// Whether averages count it.
    pub standing: Standing,
}

/// Whether a beat counts in averages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// It counts.
    Counts,
    /// It is left out, and why.
    SetAside(WhySetAside),
}

/// Why a beat is left out of averages. None of these names a diagnosis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhySetAside {
    /// Its shape differs from the usual beat of this trace.
    OtherShape,
    /// It comes much earlier or later than its neighbours.
    OtherTiming,
    /// It lies in noise, or touches a hole.
    Unclear,
}

/// Which way up the trace is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Polarity {
    /// P, QRS and T point up, as expected in lead I.
    Upright,
    /// P, QRS and T point down: the arm electrodes may be swapped.
    LooksInverted,
    /// Can't be told from this trace.
    Unclear,
}

/// The typical beat: the median, sample by sample, of the beats that count, aligned at R.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MedianBeat {
    /// The samples, in the unit of the recording, from before P to after T.
    pub samples: Vec<f32>,
    /// Samples a second.
    pub rate: SampleRate,
    /// Its points, counted from the first of `samples`; R is always among them.
    pub landmarks: Landmarks,
    /// How many beats it was made from.
    pub n: usize,
}

impl MedianBeat {
    /// The height of a point above the line just before the complex, in the unit of the recording;
    /// `None` when it can't be measured.
    pub fn height(&self, landmark: Landmark) -> Option<f64> {
        self.samples.get(self.landmarks.at(landmark)?.get()).map(|&value| value.into())
    }
}

/// Something about the signal itself that the student should know.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// What it is.
    pub kind: FindingKind,
    /// How much it matters.
    pub severity: Severity,
    /// Where; empty when it is about the whole trace.
    pub spans: Vec<SampleSpan>,
}

/// How much a finding matters, gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// The stretch can't be used.
    Unusable,
    /// Some measurements suffer.
    Limits,
    /// Good to know.
    Remark,
}

/// What can be wrong with a signal.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FindingKind {
    /// Exactly flat: no signal reached the sensor.
    Flat,
    /// Stuck at the end of the sensor's range: an electrode came off.
    Stuck,
    /// Cut off at the end of the sensor's range: heights there can't be measured.
    Clipped,
    /// Noise in which beats can't be told.
    Noisy,
    /// A steady hum from the mains, at this frequency in Hz.
    MainsHum(f64),
    /// A hum of the mains above half the sampling rate, which shows at another frequency.
    FoldedHum {
        /// The frequency of the mains, Hz.
        mains: f64,
        /// The frequency at which it shows, Hz.
        seen: f64,
    },
    /// Fine fuzz from trembling muscles.
    Tremor,
    /// The line jumps: somebody moved.
    Motion,
    /// The steps of the converter are too coarse for small waves.
    Coarse,
    /// The line rises and falls by more than half the height of the beats.
    BaselineWander,
    /// Fewer samples a second than boundaries need.
    LowRate,
    /// Too few beats for averages.
    TooShort,
    /// The trace looks upside down.
    Inverted,
    /// No beat was found.
    NoBeats,
    /// The signal is called muscle (EMG), not heart: no beats were looked for.
    Muscle,
}

impl FindingKind {
    /// All of them, hums with frequencies as an example.
    pub const ALL: [Self; 15] = [
        Self::Flat,
        Self::Stuck,
        Self::Clipped,
        Self::Noisy,
        Self::MainsHum(50.0),
        Self::FoldedHum { mains: 60.0, seen: 40.0 },
        Self::Tremor,
        Self::Motion,
        Self::Coarse,
        Self::BaselineWander,
        Self::LowRate,
        Self::TooShort,
        Self::Inverted,
        Self::NoBeats,
        Self::Muscle,
    ];

    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Stuck => "stuck",
            Self::Clipped => "clipped",
            Self::Noisy => "noisy",
            Self::MainsHum(_) => "mains_hum",
            Self::FoldedHum { .. } => "folded_hum",
            Self::Tremor => "tremor",
            Self::Motion => "motion",
            Self::Coarse => "coarse",
            Self::BaselineWander => "baseline_wander",
            Self::LowRate => "low_rate",
            Self::TooShort => "too_short",
            Self::Inverted => "inverted",
            Self::NoBeats => "no_beats",
            Self::Muscle => "muscle",
        }
    }
}
