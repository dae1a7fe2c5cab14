//! One voltage trace at one sampling rate: what every later step works on.

use super::mark::Mark;
use super::time::{SampleIndex, SampleRate, SampleSpan};
use super::units::Seconds;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// One trace of one recording, on an even grid.
///
/// Contract: every sample is a finite number. Where nothing was recorded, the samples bridge from
/// one side to the other in a straight line and the stretch stands in [`Self::holes`]: it is never
/// drawn as data and no interval is measured across it. Single missing samples may be bridged
/// without a hole; the reader then says so in a note.
#[derive(Clone, Debug, PartialEq)]
pub struct Recording {
    /// What the file calls this signal, such as `MLII` or `ECG I`; may be empty.
    pub name: String,
    /// Samples a second.
    pub rate: SampleRate,
    /// What one unit of a sample is.
    pub unit: VoltageUnit,
    /// The samples, in `unit`.
    pub samples: Arc<[f32]>,
    /// Stretches in which nothing was recorded, in order, not touching each other.
    pub holes: Vec<Hole>,
    /// Marks that came with the file, in order.
    pub marks: Vec<Mark>,
}

/// What the numbers of a trace are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VoltageUnit {
    /// Millivolts; microvolts and volts have been turned into them.
    Millivolt,
    /// Steps of a converter whose range nobody stated: heights can be compared, not measured.
    Counts,
    /// The file does not say.
    Unstated,
}

/// A stretch without data.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hole {
    /// Where it lies on the grid.
    pub span: SampleSpan,
    /// Why there is nothing.
    pub cause: HoleCause,
}

/// Why nothing was recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HoleCause {
    /// The file has a place for each sample, but no value in it.
    NoValue,
    /// The clock moves on, but the file has no rows for that time: the grid was widened.
    NoRows,
}

impl Recording {
    /// From the first sample to one sample after the last.
    pub fn duration(&self) -> Seconds {
        Seconds::new(self.samples.len() as f64 / self.rate.hz())
    }

    /// The median of all samples, in `unit`: most of a heartbeat is rest, so it lies on the baseline.
    /// 0 where there are none.
    pub fn level(&self) -> f64 {
        let mut samples = self.samples.to_vec();
        let middle = samples.len() / 2;
        if samples.is_empty() {
            return 0.0;
        }
        f64::from(*samples.select_nth_unstable_by(middle, f32::total_cmp).1)
    }

    /// Whether the file calls this signal muscle (EMG): its spikes are not beats.
    pub fn is_muscle(&self) -> bool {
        let name = self.name.to_lowercase();
        name.split(|sign: char| !sign.is_alphanumeric()).any(|word| word.starts_with("emg"))
    }

    /// How many samples the file held: the grid without the places that the clock jumped over.
    pub fn recorded_samples(&self) -> usize {
        let jumped: usize = self
            .holes
            .iter()
            .filter(|hole| hole.cause == HoleCause::NoRows)
            .map(|hole| hole.span.len())
            .sum();
        self.samples.len() - jumped
    }

    /// The hole that a sample lies in, if any.
    pub fn hole_at(&self, sample: SampleIndex) -> Option<Hole> {
        let after = self.holes.partition_point(|hole| hole.span.end() <= sample);
        self.holes.get(after).copied().filter(|hole| hole.span.contains(sample))
    }

    /// Whether any hole lies between two samples.
    pub fn is_broken_between(&self, from: SampleIndex, to: SampleIndex) -> bool {
        let span = SampleSpan::new(from.get(), to.get() + 1);
        self.holes.iter().any(|hole| hole.span.overlaps(span))
    }

    /// The part in a span, as a recording of its own; marks and holes move with it.
    #[must_use]
    pub fn part(&self, span: SampleSpan) -> Self {
        let start = span.start().get().min(self.samples.len());
        let end = span.end().get().min(self.samples.len());
        let holes = self
            .holes
            .iter()
            .filter(|hole| hole.span.overlaps(span))
            .map(|hole| Hole {
                span: SampleSpan::new(
                    hole.span.start().get().max(start) - start,
                    hole.span.end().get().min(end) - start,
                ),
                cause: hole.cause,
            })
            .collect();
        let marks = self
            .marks
            .iter()
            .filter(|mark| span.contains(mark.at))
            .map(|mark| Mark { at: SampleIndex::new(mark.at.get() - start), ..mark.clone() })
            .collect();
        Self { samples: self.samples[start..end].into(), holes, marks, ..self.clone() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn recording() -> Recording {
        Recording {
            name: "ECG I".to_owned(),
            rate: SampleRate::new(250.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: (0..1000).map(|i| i as f32).collect(),
            holes: vec![
                Hole { span: SampleSpan::new(100, 200), cause: HoleCause::NoValue },
                Hole { span: SampleSpan::new(400, 500), cause: HoleCause::NoRows },
            ],
            marks: Vec::new(),
        }
    }

    #[test]
    fn jumped_rows_do_not_count_as_recorded() {
        assert_eq!(recording().recorded_samples(), 900);
        assert_eq!(recording().duration().seconds(), 4.0);
    }

    #[test]
    fn a_hole_is_found_from_a_sample_inside_it() {
        let recording = recording();
        assert!(recording.hole_at(SampleIndex::new(99)).is_none());
        assert!(recording.hole_at(SampleIndex::new(499)).is_some());
        assert!(recording.is_broken_between(SampleIndex::new(50), SampleIndex::new(100)));
        assert!(!recording.is_broken_between(SampleIndex::new(200), SampleIndex::new(399)));
    }

    #[test]
    fn the_level_is_the_median() {
        let of = |samples: &[f32]| Recording { samples: samples.into(), ..recording() }.level();
        assert_eq!((of(&[515.0, 900.0, 514.0, 516.0, 100.0]), of(&[])), (515.0, 0.0));
    }

    #[test]
    fn muscle_is_known_by_its_name() {
        let named = |name: &str| Recording { name: name.to_owned(), ..recording() };
        assert!(named("EMG rectus femoris").is_muscle() && named("channel 2 (emg1)").is_muscle());
        assert!(!named("ECG I").is_muscle() && !named("").is_muscle());
    }

    #[test]
    fn a_part_keeps_its_holes_in_place() {
        let part = recording().part(SampleSpan::new(150, 450));
        assert_eq!(part.samples.len(), 300);
        assert_eq!(part.samples[0], 150.0);
        let spans: Vec<_> = part.holes.iter().map(|hole| hole.span.range()).collect();
        assert_eq!(spans, [0..50, 250..300]);
    }
}
