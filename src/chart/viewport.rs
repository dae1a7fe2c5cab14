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
/// A view lower than this part of the trace is a mistake, not a view.
const LOWEST: f64 = 1e-9;
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
            height: if self.height.is_finite() && self.height > bounds.height() * LOWEST {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::{CSS_PX_PER_MM, Palette};
    use proptest::prelude::*;

    const BOUNDS: Bounds = Bounds { duration: Seconds::new(60.0), low: -0.4, high: 1.2 };

    fn view(start: f64, span: f64, middle: f64, height: f64) -> Viewport {
        Viewport { start: Seconds::new(start), span: Seconds::new(span), middle, height }
    }

    fn rate() -> SampleRate {
        SampleRate::new(250.0).unwrap()
    }

    #[test]
    fn a_drag_stops_at_the_ends() {
        let at = view(10.0, 6.0, 0.3, 2.0);
        assert_eq!(at.panned(Seconds::new(5.0), 0.1, &BOUNDS), view(15.0, 6.0, 0.4, 2.0));
        assert_eq!(at.panned(Seconds::new(500.0), 9.0, &BOUNDS), view(54.0, 6.0, 1.2, 2.0));
        assert_eq!(at.panned(Seconds::new(-500.0), -9.0, &BOUNDS), view(0.0, 6.0, -0.4, 2.0));
    }

    #[test]
    fn zooming_keeps_the_point_under_the_pointer() {
        let near = view(10.0, 8.0, 0.3, 2.0).zoomed((Seconds::new(12.0), 0.8), 0.5, 0.5, &BOUNDS);
        assert_eq!(near, view(11.0, 4.0, 0.55, 1.0));
    }

    #[test]
    fn zooming_ends_at_the_whole_recording_and_at_a_tenth_of_a_second() {
        let at = view(10.0, 8.0, 0.3, 2.0);
        let about = (Seconds::new(14.0), 0.3);
        let far = at.zoomed(about, 1e9, 1.0, &BOUNDS);
        assert_eq!((far.start.seconds(), far.span.seconds()), (0.0, 60.0));
        assert_eq!(at.zoomed(about, 0.0, 1.0, &BOUNDS).span.seconds(), 0.1);
    }

    #[test]
    fn paper_keeps_its_scale_on_a_short_or_quiet_recording() {
        let frame = Frame::of_trace(900.0, 400.0, &Palette::PRINT);
        let paper = Viewport::paper(&frame, CSS_PX_PER_MM, Seconds::new(0.0), 0.0);
        let short = Bounds { duration: Seconds::new(2.0), low: -0.001, high: 0.001 };
        let moved = paper.panned(Seconds::new(3.0), 0.5, &short);
        assert_eq!((moved.span, moved.height), (paper.span, paper.height));
        assert_eq!(moved.start.seconds(), 0.0);
    }

    #[test]
    fn one_cycle_is_framed_by_its_points_or_by_habit() {
        let envelope = Envelope::new((0..2500).map(|i| (i % 250) as f32).collect());
        let r = SampleIndex::new(1000);
        let mut beat = Beat::at(r);
        let habit = Viewport::around(&beat, &envelope, rate());
        assert!((habit.start.seconds() - 3.7).abs() < 0.005, "{habit:?}");
        assert!((habit.end().seconds() - 4.5).abs() < 0.005, "{habit:?}");
        beat.landmarks.set(Landmark::POnset, Some(SampleIndex::new(950)));
        beat.landmarks.set(Landmark::TEnd, Some(SampleIndex::new(1100)));
        let framed = Viewport::around(&beat, &envelope, rate());
        assert!((framed.start.seconds() - 3.72).abs() < 0.005, "{framed:?}");
        assert!((framed.end().seconds() - 4.48).abs() < 0.005, "{framed:?}");
    }

    #[test]
    fn an_empty_trace_has_a_view() {
        let view = Viewport::fit(&Envelope::new(Vec::new().into()), rate());
        assert_eq!(view.span.seconds(), SHORTEST);
        assert!(view.height > 0.0);
    }

    fn any_number() -> impl Strategy<Value = f64> {
        prop_oneof![
            -1e3..1e3f64,
            Just(f64::NAN),
            Just(f64::INFINITY),
            Just(f64::NEG_INFINITY),
            Just(0.0),
            Just(1e300),
            Just(1e-300),
        ]
    }

    proptest! {
        #[test]
        fn no_move_leads_into_nothing(
            first in (any_number(), any_number(), any_number(), any_number()),
            moves in proptest::collection::vec((any_number(), any_number(), 0..3u8), 0..12),
        ) {
            let mut at = view(first.0, first.1, first.2, first.3).clamped(&BOUNDS);
            for (across, up, kind) in moves {
                at = match kind {
                    0 => at.panned(Seconds::new(across), up, &BOUNDS),
                    1 => at.zoomed((Seconds::new(12.0), 0.3), across, up, &BOUNDS),
                    _ => at.centred(Seconds::new(across), &BOUNDS),
                };
                let (start, span) = (at.start.seconds(), at.span.seconds());
                prop_assert!((SHORTEST..=LONGEST).contains(&span), "{at:?}");
                prop_assert!(start >= 0.0 && (start == 0.0 || start + span <= 60.0 + 1e-9), "{at:?}");
                prop_assert!((-0.4..=1.2).contains(&at.middle), "{at:?}");
                prop_assert!(at.height > 0.0 && at.height.is_finite(), "{at:?}");
                prop_assert_eq!(at, at.clamped(&BOUNDS));
            }
        }
    }
}
