//! What was found in a trace.

use super::edits::{BeatEdits, Corrected, closest};
use super::measurement::Intervals;
use crate::signal::{Landmark, Landmarks, SampleIndex, SampleRate, SampleSpan};
use serde::{Deserialize, Serialize};

/// Everything that was found in one trace. All sample indices are those of the recording.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Which way up the trace is.
    pub polarity: Polarity,
    /// Where beats were found, in order; corrections never change it.
    pub found: Vec<SampleIndex>,
    /// The beats, in order: those found, with the student's corrections laid over them.
    pub beats: Vec<Beat>,
    /// What was recorded but can't be used, in order and apart: flat, stuck, or noise without beats.
    pub unusable: Vec<SampleSpan>,
    /// How many of them were corrected.
    pub corrected: Corrected,
    /// The typical beat, when there are enough that look alike.
    pub median: Option<MedianBeat>,
    /// What was measured over all beats that count.
    pub intervals: Intervals,
    /// What is wrong with the trace, gravest first.
    pub findings: Vec<Finding>,
}

impl Reading {
    /// The reading as it stands until the trace is read again with other edits: beats that stand where
    /// they stood keep what is known of them, others have no points yet. Averages are the old ones.
    #[must_use]
    pub fn until_read_again(&self, edits: &BeatEdits, rate: SampleRate) -> Self {
        let (placed, corrected) = edits.over(&self.found, closest(rate));
        let known = |r: SampleIndex| {
            let place = self.beats.binary_search_by_key(&r, |beat| beat.r).ok()?;
            self.beats.get(place).copied()
        };
        let beats = placed.into_iter().map(|placed| {
            let beat = known(placed.r).unwrap_or(Beat::at(placed.r));
            Beat { origin: placed.origin, standing: beat.standing.with_word(placed.word), ..beat }
        });
        Self { beats: beats.collect(), corrected, ..self.clone() }
    }
}

/// One heartbeat.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Beat {
    /// The peak of R, or the deepest point where the complex only goes down.
    pub r: SampleIndex,
    /// Who put it there.
    pub origin: Origin,
    /// The points of this cycle; those that can't be measured have no place.
    pub landmarks: Landmarks,
    /// Whether averages count it.
    pub standing: Standing,
}

impl Beat {
    /// A found beat that counts, without points.
    pub fn at(r: SampleIndex) -> Self {
        let (origin, standing) = (Origin::Found, Standing::Counts);
        Self { r, origin, landmarks: Landmarks::default(), standing }
    }
}

/// Who put a beat where it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// The detector.
    #[default]
    Found,
    /// The student, who moved it there.
    Moved,
    /// The student, where the detector found none.
    Added,
}

impl Origin {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Found, Self::Moved, Self::Added];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::Moved => "moved",
            Self::Added => "added",
        }
    }
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

impl Standing {
    /// The standing once the student has said whether to count the beat.
    #[must_use]
    pub fn with_word(self, word: Option<bool>) -> Self {
        let by_hand = Self::SetAside(WhySetAside::ByHand);
        match word {
            Some(true) => Self::Counts,
            Some(false) => by_hand,
            None if self == by_hand => Self::Counts,
            None => self,
        }
    }
}

/// Why a beat is left out of averages. None of these names a diagnosis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhySetAside {
    /// Its shape differs from the usual beat of this trace.
    OtherShape,
    /// It comes early, and the next one waits.
    Early,
    /// It comes late, or one before it was missed.
    Late,
    /// It lies in noise, or touches a hole.
    Unclear,
    /// The student said so.
    ByHand,
}

impl WhySetAside {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::OtherShape, Self::Early, Self::Late, Self::Unclear, Self::ByHand];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::OtherShape => "other_shape",
            Self::Early => "early",
            Self::Late => "late",
            Self::Unclear => "unclear",
            Self::ByHand => "by_hand",
        }
    }
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
