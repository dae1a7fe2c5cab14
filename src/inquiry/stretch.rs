//! Which part of which recording stands for a condition: a whole file, or what lies before or after a mark.

use crate::analysis::{Beat, BeatSeries};
use crate::lesson::Evidence;
use crate::signal::{SampleIndex, SampleSpan, Seconds};
use crate::words::{Phrase, phrase};

/// A part of a recording, and how it was chosen.
#[derive(Clone, Copy, Debug)]
pub struct Stretch<'a> {
    /// The recording and what was found in it.
    pub evidence: Evidence<'a>,
    /// Which of its samples.
    pub span: SampleSpan,
    /// How it was chosen.
    pub taken: Taken,
}

/// How a part was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// The whole recording.
    Whole,
    /// All before a mark.
    Before(SampleIndex),
    /// All from a mark on.
    After(SampleIndex),
    /// From one moment to another.
    Between(SampleSpan),
}

impl<'a> Stretch<'a> {
    /// The whole recording.
    pub fn whole(evidence: Evidence<'a>) -> Self {
        let span = SampleSpan::new(0, evidence.recording.samples.len());
        Self { evidence, span, taken: Taken::Whole }
    }

    /// What lies before a mark.
    pub fn before(evidence: Evidence<'a>, mark: SampleIndex) -> Self {
        let end = mark.get().min(evidence.recording.samples.len());
        Self { evidence, span: SampleSpan::new(0, end), taken: Taken::Before(mark) }
    }

    /// What lies from a mark on.
    pub fn after(evidence: Evidence<'a>, mark: SampleIndex) -> Self {
        let end = evidence.recording.samples.len();
        let span = SampleSpan::new(mark.get().min(end), end);
        Self { evidence, span, taken: Taken::After(mark) }
    }

    /// A part from one moment to another; what lies beyond the recording is cut off.
    pub fn between(evidence: Evidence<'a>, span: SampleSpan) -> Self {
        let end = evidence.recording.samples.len();
        let within = SampleSpan::new(span.start().get().min(end), span.end().get().min(end));
        Self { evidence, span: within, taken: Taken::Between(span) }
    }

    /// Its beats, in order.
    pub fn beats(&self) -> &'a [Beat] {
        let beats = &self.evidence.reading.beats;
        let start = beats.partition_point(|beat| beat.r < self.span.start());
        let end = beats.partition_point(|beat| beat.r < self.span.end());
        beats.get(start..end).unwrap_or_default()
    }

    /// Its beats in order, with what is missing between them.
    pub fn series(&self) -> BeatSeries<'a> {
        let Evidence { recording, reading } = self.evidence;
        BeatSeries::new(recording, self.beats(), &reading.unusable)
    }

    /// Its first moment, counted from the first sample of the recording.
    pub fn start(&self) -> Seconds {
        self.evidence.recording.rate.time_of(self.span.start())
    }

    /// Where it comes from, to be said beside each result.
    pub fn said(&self) -> Phrase {
        let at = |sample| Phrase::number(self.evidence.recording.rate.time_of(sample).seconds(), 1);
        match self.taken {
            Taken::Whole => phrase!("recovery.taken.whole"),
            Taken::Before(mark) => {
                let seconds = at(mark);
                phrase!("recovery.taken.before", seconds)
            }
            Taken::After(mark) => {
                let seconds = at(mark);
                phrase!("recovery.taken.after", seconds)
            }
            Taken::Between(span) => {
                let (from, to) = (at(span.start()), at(span.end()));
                phrase!("recovery.taken.between", from, to)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::example;

    #[test]
    fn a_mark_parts_the_beats() {
        let (recording, reading) = example::of_beats(5);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let count = |stretch: Stretch<'_>| stretch.beats().len();
        // R at 278, 1078, 1878, 2678, 3478.
        let mark = SampleIndex::new(1878);
        assert_eq!(count(Stretch::whole(evidence)), 5);
        assert_eq!(count(Stretch::before(evidence, mark)), 2);
        assert_eq!(count(Stretch::after(evidence, mark)), 3);
        assert_eq!(count(Stretch::between(evidence, SampleSpan::new(1000, 9_000_000))), 4);
        assert_eq!(count(Stretch::after(evidence, SampleIndex::new(usize::MAX))), 0);
        assert_eq!(Stretch::after(evidence, mark).start(), Seconds::new(1.878));
    }
}
