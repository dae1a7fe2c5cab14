//! Stretches without a signal, and waves cut off at the end of the sensor's range.
//!
//! All three are runs of exactly equal samples: noise moves the last digit of any living trace. A
//! run is *flat* when it lasts; it is *stuck* when it lies at the highest or lowest value of the whole
//! trace, far from its middle, for longer than a wave lasts: an electrode came off. Short runs there,
//! several times over and with a jump at their edge, are waves cut off (common practice).

use crate::signal::{Recording, SampleSpan, Seconds};

/// Equal samples for this long are no heart: at 25 beats a minute the line rests for less.
const FLAT: Seconds = Seconds::new(1.5);
/// At an end of the range this long is enough: a wave is over in less.
const STUCK: Seconds = Seconds::new(0.2);
/// An end of the range lies at least this part of the whole height from the middle of the trace.
const FAR: f32 = 0.25;
/// A top that is cut off has at least this many equal samples.
const CUT: usize = 3;
/// And the trace leaves it with a jump of this part of the whole height, within this many samples: the
/// first may still lie just below the end of the range.
const JUMP: f32 = 0.02;
const JUMP_WITHIN: usize = 2;
/// One flat top may be chance.
const CUT_TOPS: usize = 2;

/// Where the trace stands still.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Still {
    /// Exactly flat, anywhere: no signal reached the file.
    pub(crate) flat: Vec<SampleSpan>,
    /// Stuck at an end of the range: no signal either.
    pub(crate) stuck: Vec<SampleSpan>,
    /// The tops (or bottoms) that are cut off.
    pub(crate) clipped: Vec<SampleSpan>,
}

/// The stretches in which a trace stands still.
pub(crate) fn still(recording: &Recording) -> Still {
    let mut still = Still::default();
    let Some(range) = Range::of(recording) else { return still };
    let (flat, stuck) = (recording.rate.count(FLAT), recording.rate.count(STUCK).max(CUT));
    for run in runs(recording, CUT.min(flat).max(2)) {
        if range.is_end(run.value) && run.span.len() >= stuck {
            still.stuck.push(run.span);
        } else if run.span.len() >= flat {
            still.flat.push(run.span);
        } else if range.is_end(run.value) && run.span.len() >= CUT && range.jumps(recording, &run) {
            still.clipped.push(run.span);
        }
    }
    if still.clipped.len() < CUT_TOPS {
        still.clipped.clear();
    }
    still
}

/// Samples of exactly one value.
struct Run {
    span: SampleSpan,
    value: f32,
}

/// The runs of at least so many samples, outside holes.
fn runs(recording: &Recording, shortest: usize) -> impl Iterator<Item = Run> {
    let mut end = 0;
    recording.samples.chunk_by(|a, b| a == b).filter_map(move |chunk| {
        let span = SampleSpan::new(end, end + chunk.len());
        end += chunk.len();
        let value = *chunk.first()?;
        let is_run = chunk.len() >= shortest && recording.hole_at(span.start()).is_none();
        is_run.then_some(Run { span, value })
    })
}

/// What the samples of a trace span.
struct Range {
    low: f32,
    high: f32,
    middle: f32,
}

impl Range {
    fn of(recording: &Recording) -> Option<Self> {
        let mut values: Vec<f32> = recording.samples.to_vec();
        let half = values.len() / 2;
        if values.is_empty() {
            return None;
        }
        let (_, &mut middle, _) = values.select_nth_unstable_by(half, f32::total_cmp);
        let (low, high) = values
            .iter()
            .fold((middle, middle), |(low, high), &value| (low.min(value), high.max(value)));
        Some(Self { low, high, middle })
    }

    fn is_end(&self, value: f32) -> bool {
        (value <= self.low || value >= self.high)
            && (value - self.middle).abs() > FAR * (self.high - self.low)
    }

    /// Whether the trace goes into a run, or leaves it, with a jump.
    fn jumps(&self, recording: &Recording, run: &Run) -> bool {
        let (start, end) = (run.span.start().get(), run.span.end().get());
        let last = recording.samples.len().min(end + JUMP_WITHIN);
        let jump = JUMP * (self.high - self.low);
        [start.saturating_sub(JUMP_WITHIN)..start, end..last].into_iter().any(|beside| {
            let beside = recording.samples.get(beside).unwrap_or_default();
            beside.iter().any(|to| (to - run.value).abs() >= jump)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{SampleRate, VoltageUnit};

    fn recording(samples: Vec<f32>) -> Recording {
        Recording {
            name: String::new(),
            rate: SampleRate::new(100.0).unwrap(),
            unit: VoltageUnit::Counts,
            samples: samples.into(),
            holes: Vec::new(),
            marks: Vec::new(),
        }
    }

    /// A rough line around 500 with a triangle of 600 every second, cut off at 1023.
    fn cut_trace() -> Vec<f32> {
        let wave = |i: usize| 600.0 - 20.0 * (i % 100).abs_diff(50) as f32;
        (0..1000).map(|i| (500.0 + (i % 7) as f32 + wave(i).max(0.0)).min(1023.0)).collect()
    }

    #[test]
    fn cut_tops_and_a_loose_electrode_are_told_apart() {
        let mut samples = cut_trace();
        samples[610..720].fill(1023.0);
        let recording = recording(samples);
        let Still { flat, stuck, clipped } = still(&recording);
        assert_eq!(stuck, [SampleSpan::new(610, 720)]);
        assert_eq!(flat, []);
        assert_eq!(clipped.len(), 9, "the seventh top lies in the stuck stretch");
        assert!(clipped.iter().all(|span| (7..=9).contains(&span.len())));
    }

    #[test]
    fn an_early_flat_line_is_flat_and_a_resting_baseline_is_not() {
        let mut samples = cut_trace();
        samples[..300].fill(503.0);
        assert_eq!(still(&recording(samples)).flat, [SampleSpan::new(0, 300)]);
        let mut resting = vec![0.0; 500];
        for at in [50, 150, 250, 350, 450] {
            resting[at] = 1.0;
        }
        assert_eq!(still(&recording(resting)), Still::default());
        assert_eq!(still(&recording(Vec::new())), Still::default());
    }
}
