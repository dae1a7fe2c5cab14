//! The part of a trace that can be used: what can't is bridged like a hole.

use crate::signal::{Hole, HoleCause, Recording, SampleSpan};

/// The recording with further stretches treated as holes: bridged, and listed as such.
pub(crate) fn bridged(recording: &Recording, stretches: &[SampleSpan]) -> Recording {
    if stretches.is_empty() {
        return recording.clone();
    }
    let holes = holes(recording, stretches);
    let mut samples = recording.samples.to_vec();
    for Hole { span, .. } in &holes {
        let (start, end) = (span.start().get(), span.end().get());
        let before = start.checked_sub(1).and_then(|i| samples.get(i).copied());
        let after = samples.get(end).copied();
        // A stretch at an end goes on with its only neighbour.
        let (from, to) = match (before, after) {
            (Some(from), Some(to)) => (from, to),
            (Some(one), None) | (None, Some(one)) => (one, one),
            (None, None) => (0.0, 0.0),
        };
        let steps = (span.len() + 1) as f32;
        for (k, sample) in samples[start..end].iter_mut().enumerate() {
            let part = (k + 1) as f32 / steps;
            *sample = from * (1.0 - part) + to * part;
        }
    }
    Recording { samples: samples.into(), holes, ..recording.clone() }
}

/// The holes that [`bridged`] gives.
pub(crate) fn holes(recording: &Recording, stretches: &[SampleSpan]) -> Vec<Hole> {
    let spans = recording.holes.iter().map(|hole| hole.span).chain(stretches.iter().copied());
    // Stretches that were recorded but can't be used are not rows the clock jumped over.
    let cause = |span: SampleSpan| {
        let same = recording.holes.iter().find(|hole| hole.span == span);
        same.map_or(HoleCause::NoValue, |hole| hole.cause)
    };
    let merged = merged(spans, recording.samples.len());
    merged.into_iter().map(|span| Hole { span, cause: cause(span) }).collect()
}

/// Spans in order, cut at `n`, those that overlap or touch made one.
pub(crate) fn merged(spans: impl IntoIterator<Item = SampleSpan>, n: usize) -> Vec<SampleSpan> {
    let mut all: Vec<(usize, usize)> = spans
        .into_iter()
        .map(|span| (span.start().get().min(n), span.end().get().min(n)))
        .filter(|(start, end)| start < end)
        .collect();
    all.sort_unstable();
    let mut joined: Vec<(usize, usize)> = Vec::with_capacity(all.len());
    for (start, end) in all {
        match joined.last_mut() {
            Some(last) if start <= last.1 => last.1 = last.1.max(end),
            _ => joined.push((start, end)),
        }
    }
    joined.into_iter().map(|(start, end)| SampleSpan::new(start, end)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{SampleRate, VoltageUnit};

    #[test]
    fn an_unusable_stretch_is_bridged_and_joins_the_hole_it_touches() {
        let recording = Recording {
            name: String::new(),
            rate: SampleRate::new(250.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: vec![0.0, 9.0, 9.0, 3.0, 4.0, 5.0, 5.0].into(),
            holes: vec![Hole { span: SampleSpan::new(5, 6), cause: HoleCause::NoRows }],
            marks: Vec::new(),
        };
        let usable = bridged(&recording, &[SampleSpan::new(1, 3), SampleSpan::new(6, 9)]);
        assert_eq!(usable.samples[..], [0.0, 1.0, 2.0, 3.0, 4.0, 4.0, 4.0]);
        let spans: Vec<_> = usable.holes.iter().map(|hole| hole.span.range()).collect();
        assert_eq!(spans, [1..3, 5..7]);
    }
}
