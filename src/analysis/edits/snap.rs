//! Where a beat that a student adds comes to stand: on its crest.
//!
//! A finger is wider than an R wave. So an added beat goes to the furthest sample within
//! [`REACH`] of where it was put: the highest in a trace that points up, the lowest in one that is upside
//! down. Where that can't be told it is the one further from the line, the median of half a second
//! around, and downwards only if clearly further: of two alike R is the upward one. A sample at the very end of the reach is the flank of something else: then the
//! beat stays where it was put. Nothing is looked for beyond a hole.

use crate::analysis::beats;
use crate::analysis::neighbours::median;
use crate::analysis::reading::Polarity;
use crate::signal::{Recording, SampleIndex, SampleRate, Seconds};

/// How far from the place the crest may lie (the detector's own reach from its steepest moment to R).
const REACH: Seconds = Seconds::new(0.080);
/// How much on either side makes the line.
const AROUND: Seconds = Seconds::new(0.250);

/// How much further down than up it must go (the detector's own rule for R).
const DOWN: f32 = 1.2;

/// Two beats are at least so many samples apart: the detector's own rule.
pub fn closest(rate: SampleRate) -> usize {
    rate.count(beats::REFRACTORY).max(1)
}

/// The crest near a sample, or that sample where there is none.
pub fn crest(recording: &Recording, at: SampleIndex, polarity: Polarity) -> SampleIndex {
    let samples = &recording.samples;
    let (reach, around) = (recording.rate.count(REACH), recording.rate.count(AROUND));
    let window = |reach: usize| {
        let start = at.get().saturating_sub(reach);
        start..at.get().saturating_add(reach + 1).min(samples.len())
    };
    let Some(line) = samples.get(window(around)).and_then(|near| median(near.iter().copied()))
    else {
        return at;
    };
    let height = |place: usize| {
        let value = samples[place] - line;
        match polarity {
            Polarity::Upright => value,
            Polarity::LooksInverted => -value,
            Polarity::Unclear => value.max(-value / DOWN),
        }
    };
    let near = window(reach);
    let whole = |place: &usize| !recording.is_broken_between(SampleIndex::new(*place), at);
    // Of equals the nearest.
    let away = |place: usize| place.abs_diff(at.get());
    let furthest = near
        .filter(whole)
        .max_by(|&a, &b| height(a).total_cmp(&height(b)).then(away(b).cmp(&away(a))));
    let is_crest = |place: &usize| {
        let beyond = [place.checked_sub(1), Some(place + 1)];
        let rises = |other: usize| other < samples.len() && height(other) > height(*place);
        !beyond.into_iter().flatten().any(rises)
    };
    furthest.filter(is_crest).map_or(at, SampleIndex::new)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Hole, HoleCause, SampleSpan, VoltageUnit};

    /// A bell at 500 of 1000 samples, 1000 a second, that goes down first.
    fn recording(sign: f32) -> Recording {
        let bell = |i: i32, at: i32| (-f64::from((i - at).pow(2)) / 200.0).exp() as f32;
        Recording {
            name: String::new(),
            rate: SampleRate::new(1000.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: (0..1000).map(|i| sign * (bell(i, 500) - 0.4 * bell(i, 450))).collect(),
            holes: Vec::new(),
            marks: Vec::new(),
        }
    }

    fn snapped(recording: &Recording, at: usize, polarity: Polarity) -> usize {
        crest(recording, SampleIndex::new(at), polarity).get()
    }

    #[test]
    fn it_goes_up_in_an_upright_trace_and_down_in_one_upside_down() {
        assert_eq!(snapped(&recording(1.0), 470, Polarity::Upright), 500);
        assert_eq!(snapped(&recording(1.0), 470, Polarity::LooksInverted), 450);
        assert_eq!(snapped(&recording(-1.0), 470, Polarity::LooksInverted), 500);
        assert_eq!(snapped(&recording(-1.0), 470, Polarity::Unclear), 500);
    }

    #[test]
    fn on_a_flank_or_beyond_a_hole_it_stays() {
        assert_eq!(snapped(&recording(1.0), 410, Polarity::Upright), 410, "the flank of the bell");
        let mut broken = recording(1.0);
        broken.holes = vec![Hole { span: SampleSpan::new(480, 485), cause: HoleCause::NoValue }];
        assert!(snapped(&broken, 470, Polarity::Upright) < 480);
        assert_eq!(snapped(&recording(1.0), 5000, Polarity::Upright), 5000);
    }

    #[test]
    fn two_beats_are_a_fifth_of_a_second_apart() {
        assert_eq!(closest(SampleRate::new(250.0).unwrap()), 50);
        assert_eq!(closest(SampleRate::new(0.5).unwrap()), 1);
    }
}
