//! What a drawing of a trace shows: plain data, made anew for each picture.

use super::palette::Palette;
use super::projection::{Frame, Projection};
use super::viewport::{Bounds, Viewport};
use crate::analysis::{Origin, Standing};
use crate::signal::{Envelope, Hole, Landmark, SampleIndex, SampleRate, SampleSpan, VoltageUnit};
use crate::words::Language;

/// A trace and all that lies on it. Lists are in order of time; all samples are the recording's.
#[derive(Clone, Copy, Debug)]
pub struct TraceScene<'a> {
    /// The trace.
    pub envelope: &'a Envelope,
    /// A second trace of the same length drawn pale beneath it, such as the unfiltered one.
    pub beneath: Option<&'a Envelope>,
    /// Samples a second.
    pub rate: SampleRate,
    /// What the values are; only millivolts get ECG paper.
    pub unit: VoltageUnit,
    /// Stretches without data, drawn as gaps.
    pub holes: &'a [Hole],
    /// What is in view.
    pub viewport: Viewport,
    /// Beats, marked above the trace.
    pub beats: &'a [BeatMark],
    /// Points, marked on the trace.
    pub points: &'a [PointMark],
    /// Notes, each a line with its words.
    pub notes: &'a [NoteMark<'a>],
    /// Stretches shaded behind the trace.
    pub shades: &'a [Shade<'a>],
    /// The sample under the pointer or the keyboard's cursor.
    pub cursor: Option<SampleIndex>,
    /// It is moving on a machine that can't keep up: small boxes are left out and the line is as thin as can be,
    /// which is what costs the most time.
    pub hurries: bool,
}

impl<'a> TraceScene<'a> {
    /// A trace in millivolts with nothing on it; what else there is replaces a field.
    pub const fn bare(envelope: &'a Envelope, rate: SampleRate, viewport: Viewport) -> Self {
        Self {
            envelope,
            beneath: None,
            rate,
            unit: VoltageUnit::Millivolt,
            holes: &[],
            viewport,
            beats: &[],
            points: &[],
            notes: &[],
            shades: &[],
            cursor: None,
            hurries: false,
        }
    }
}

/// A beat, as it is marked above the trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeatMark {
    /// Its number, the first being 1.
    pub number: usize,
    /// Where it is.
    pub at: SampleIndex,
    /// Who put it there.
    pub origin: Origin,
    /// Whether averages count it.
    pub standing: Standing,
}

/// A point of the cycle on the trace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PointMark {
    /// Which point.
    pub landmark: Landmark,
    /// Where it is.
    pub at: SampleIndex,
    /// Whose it is.
    pub role: Role,
}

/// Something noted at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoteMark<'a> {
    /// When.
    pub at: SampleIndex,
    /// What; may be empty.
    pub text: &'a str,
}

/// Whose point it is. Each has its own shape: a filled dot, an open diamond, a ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// A student placed it.
    Student,
    /// The app found it.
    Answer,
    /// It is being placed.
    Active,
}

/// A stretch shaded behind the trace, with a word at its top; the word may be empty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shade<'a> {
    /// Where.
    pub span: SampleSpan,
    /// What kind.
    pub tone: Tone,
    /// A short word, such as `PR 160 ms`.
    pub label: &'a str,
}

/// What a shaded stretch stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Chosen or measured by the student.
    Chosen,
    /// It can't be used: noise, flat.
    Unusable,
    /// Something lies over it, but it can be used with care: tremor, movement, cut off.
    Doubtful,
}

/// How to draw it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look<'a> {
    /// Colours, weights and sizes in CSS pixels.
    pub palette: &'a Palette,
    /// Device pixels for one CSS pixel.
    pub scale: f64,
    /// CSS pixels for one true millimetre, where that is known: in print, or measured on screen.
    pub px_per_mm: Option<f64>,
    /// The language of the words.
    pub language: Language,
}

impl TraceScene<'_> {
    /// Where everything falls on a drawing of so many CSS pixels: the same as what
    /// [`super::draw_trace`] draws, for the pointer.
    pub fn projection(&self, width: f64, height: f64, palette: &Palette) -> Projection {
        let viewport = self.viewport.clamped(&Bounds::of(self.envelope, self.rate));
        Projection::new(viewport, Frame::of_trace(width, height, palette))
    }
}
