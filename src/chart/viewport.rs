//! Which part of a recording is in view, and how it moves.
//!
//! A plain value: every move gives a new viewport that still lies on the recording. Moves never
//! lead into nothing: in time the view stays between the first and the last sample (a view longer
//! than the recording starts with it), in voltage its middle stays between the lowest and the
//! highest sample. Only zooming changes a scale, and only within limits, so that true paper scale
//! survives every other move. Numbers that are not finite leave the view as it was.

use super::projection::Frame;
use crate::analysis::Beat;
use crate::signal::{Envelope, Landmark, SampleIndex, SampleRate, SampleSpan, Seconds};

/// The shortest view, s: some twenty samples of a slow classroom sensor.
const SHORTEST: f64 = 0.1;
/// The longest view, s: a day, more than any file opened here.
const LONGEST: f64 = 86_400.0;
/// Room above and below a trace that is fitted, as a part of its height.
const HEADROOM: f64 = 0.15;
/// Zooming stops when the view is so many times lower than the trace, or so many times higher.
const DEEPEST: f64 = 1000.0;
const HIGHEST: f64 = 20.0;

/// What is in view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewport {
    /// The moment at the left edge.
    pub start: Seconds,
    /// From the left edge to the right one.
    pub span: Seconds,
    /// The value half way up, in the unit of the recording.
    pub middle: f64,
    /// From the lower edge to the upper one, in the unit of the recording.
    pub height: f64,
}

/// How far a recording reaches in time and in value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// From the first sample to one sample after the last.
    pub duration: Seconds,
    /// The lowest sample, in the unit of the recording.
    pub low: f64,
    /// The highest sample, in the unit of the recording.
    pub high: f64,
}

impl Bounds {
    /// How far a trace reaches; an empty one lasts 0 s and lies at 0.
    pub fn of(envelope: &Envelope, rate: SampleRate) -> Self {
        let samples = envelope.samples().len();
        let duration = Seconds::new(samples as f64 / rate.hz());
        match envelope.extent(SampleSpan::new(0, samples)) {
            Some(extent) => {
                Self { duration, low: f64::from(extent.low), high: f64::from(extent.high) }
            }
            None => Self { duration, low: 0.0, high: 0.0 },
        }
    }

    /// The height of the trace; of a flat one, a thousandth of its value or 1.
    fn height(&self) -> f64 {
        let height = self.high - self.low;
        let least = self.high.abs().max(self.low.abs()) / 1000.0;
        if height > least {
            height
        } else if least > 0.0 {
            least
        } else {
            1.0
        }
    }
}

impl Viewport {
    /// The whole recording, with a little room above and below.
    pub fn fit(envelope: &Envelope, rate: SampleRate) -> Self {
        let bounds = Bounds::of(envelope, rate);
        Self::over(Seconds::new(0.0), bounds.duration, &bounds).clamped(&bounds)
    }

    /// A stretch of the recording, with a little room above and below what is in it.
    pub fn stretch(envelope: &Envelope, rate: SampleRate, span: SampleSpan) -> Self {
        let bounds = Bounds::of(envelope, rate);
        let inside = match envelope.extent(span) {
            Some(extent) => Bounds { low: extent.low.into(), high: extent.high.into(), ..bounds },
            None => bounds,
        };
        let span_seconds = Seconds::new(span.len() as f64 / rate.hz());
        Self::over(rate.time_of(span.start()), span_seconds, &inside).clamped(&bounds)
    }

    /// One cardiac cycle: from before P to after T, or the usual 0.3 s before and 0.5 s after R
    /// (common practice) where those have no place.
    pub fn around(beat: &Beat, envelope: &Envelope, rate: SampleRate) -> Self {
        const ROOM: f64 = 0.08;
        let landmark = |which, otherwise: f64| {
            beat.landmarks
                .at(which)
                .map_or(rate.time_of(beat.r).seconds() + otherwise, |at| rate.time_of(at).seconds())
        };
        let start = landmark(Landmark::POnset, -0.3 + ROOM) - ROOM;
        let end = landmark(Landmark::TEnd, 0.5 - ROOM) + ROOM;
        let sample = |seconds| rate.nearest(Seconds::new(seconds)).get();
        Self::stretch(envelope, rate, SampleSpan::new(sample(start), sample(end)))
    }

    /// True paper scale on a drawing of which so many pixels make a millimetre: 25 mm/s, 10 mm/mV.
    pub fn paper(frame: &Frame, px_per_mm: f64, start: Seconds, middle: f64) -> Self {
        let px_per_mm = if px_per_mm > 0.0 { px_per_mm } else { 1.0 };
        Self {
            start,
            span: Seconds::new(frame.plot_width() / px_per_mm / 25.0),
            middle,
            height: frame.plot_height() / px_per_mm / 10.0,
        }
    }

    /// Later by so many seconds and higher by so much.
    #[must_use]
    pub fn panned(self, later: Seconds, higher: f64, bounds: &Bounds) -> Self {
        Self { start: self.start + later, middle: self.middle + higher, ..self }
            .or(self)
            .clamped(bounds)
    }

    /// Span and height so many times as long and high, while one point stays where it is. Factors
    /// below 1 go nearer. In time the view grows at most to the whole recording.
    #[must_use]
    pub fn zoomed(
        self,
        about: (Seconds, f64),
        time_factor: f64,
        value_factor: f64,
        bounds: &Bounds,
    ) -> Self {
        if !(self.height > 0.0 && self.span.seconds() > 0.0) {
            return self.clamped(bounds);
        }
        let (moment, value) = (about.0.seconds(), about.1);
        let whole = bounds.duration.seconds().max(self.span.seconds()).max(SHORTEST);
        let span = (self.span.seconds() * time_factor.abs()).clamp(SHORTEST, whole);
        let (lowest, highest) = (bounds.height() / DEEPEST, bounds.height() * HIGHEST);
        let height = (self.height * value_factor.abs())
            .clamp(lowest.min(self.height), highest.max(self.height));
        let (wider, taller) = (span / self.span.seconds(), height / self.height);
        Self {
            start: Seconds::new(moment - (moment - self.start.seconds()) * wider),
            span: Seconds::new(span),
            middle: value - (value - self.middle) * taller,
            height,
        }
        .or(self)
        .clamped(bounds)
    }

    /// The same span and height with a moment in the middle.
    #[must_use]
    pub fn centred(self, moment: Seconds, bounds: &Bounds) -> Self {
        let start = Seconds::new(moment.seconds() - self.span.seconds() / 2.0);
        Self { start, ..self }.or(self).clamped(bounds)
    }

    /// The nearest view that lies on the recording.
    #[must_use]
    pub fn clamped(self, bounds: &Bounds) -> Self {
        let span = finite(self.span.seconds(), bounds.duration.seconds()).clamp(SHORTEST, LONGEST);
        let latest = (bounds.duration.seconds() - span).max(0.0);
        Self {
            start: Seconds::new(finite(self.start.seconds(), 0.0).clamp(0.0, latest)),
            span: Seconds::new(span),
            middle: finite(self.middle, bounds.low).clamp(bounds.low, bounds.high.max(bounds.low)),
            height: if self.height.is_finite() && self.height > 0.0 {
                self.height
            } else {
                bounds.height()
            },
        }
    }

    /// The moment at the right edge.
    pub fn end(&self) -> Seconds {
        self.start + self.span
    }

    /// The samples in view and one more on either side, so that lines reach the edges.
    pub fn samples(&self, rate: SampleRate, length: usize) -> SampleSpan {
        let first = (self.start.seconds() * rate.hz()).floor() as usize;
        let last = (self.end().seconds() * rate.hz()).ceil() as usize;
        SampleSpan::new(first.saturating_sub(1).min(length), last.saturating_add(2).min(length))
    }

    /// Whether a sample is in view.
    pub fn shows(&self, sample: SampleIndex, rate: SampleRate) -> bool {
        (self.start..=self.end()).contains(&rate.time_of(sample))
    }

    fn over(start: Seconds, span: Seconds, reach: &Bounds) -> Self {
        Self {
            start,
            span,
            middle: f64::midpoint(reach.low, reach.high),
            height: reach.height() * (1.0 + 2.0 * HEADROOM),
        }
    }

    /// Itself when all its numbers are usable, else another view.
    fn or(self, other: Self) -> Self {
        let numbers = [self.start.seconds(), self.span.seconds(), self.middle, self.height];
        if numbers.iter().all(|number| number.is_finite()) { self } else { other }
    }
}

fn finite(number: f64, otherwise: f64) -> f64 {
    if number.is_finite() { number } else { otherwise }
}
