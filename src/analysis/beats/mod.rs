//! Where the beats are, and which of them averages may use.
//!
//! Steepness ([`slope`]) → its peaks ([`candidates`]) → which of them are beats ([`decide`], with
//! [`rules`] of timing, [`likeness`] of shape and, through noise, the likeliest [`chain`]) → R on its
//! peak ([`place`]) → what each beat counts for ([`standing`]). No step knows the unit of the trace:
//! only ratios are compared.

mod candidates;
mod chain;
mod decide;
mod likeness;
mod place;
mod rules;
mod shapes;
mod slope;
mod standing;

use crate::signal::{SampleRate, SampleSpan, Seconds};

pub(crate) use candidates::REFRACTORY;
pub(crate) use place::{Placed, place, stay};
pub(crate) use slope::steepness;
pub(crate) use standing::{Shape, correlation, standings};

/// A complex nearer to an end than this is cut off, and can't be told from an edge.
const END: Seconds = Seconds::new(0.050);

/// The steepest moment of each beat outside the stretches that can't be used.
pub(crate) fn find(
    steepness: &[f32],
    band: &[f32],
    rate: SampleRate,
    unusable: &[SampleSpan],
) -> Vec<usize> {
    let mut peaks = candidates::candidates(steepness, rate);
    let end = rate.count(END);
    peaks.retain(|peak| {
        let after = unusable.partition_point(|span| span.end().get() <= peak.at);
        let inside = unusable.get(after).is_some_and(|span| span.start().get() <= peak.at);
        !inside && peak.at >= end && peak.at + end < steepness.len()
    });
    decide::decide(&peaks, band, steepness, rate).iter().map(|peak| peak.at).collect()
}
