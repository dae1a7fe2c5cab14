//! What is missing in one signal: short stretches bridged, longer ones kept as holes, both told.
//!
//! Rows that the clock jumped over and cells without a value come to the same rule, that of
//! [`bridge`](super::super::bridge); a hole that holds both is parted, so that each keeps its cause.

use super::super::bridge::{bridge, longest};
use super::grid::Run;
use super::notes::TextNote;
use super::table::Table;
use super::tell::Told;
use crate::signal::{Hole, HoleCause, SampleRate, SampleSpan, put_in_order};

/// How many missing stretches are listed one by one.
const LISTED: usize = 10;

/// What is missing in one column, over all runs.
pub(super) struct Missing<'a> {
    table: &'a Table,
    column: usize,
    bridged: usize,
    first_bridged: Option<usize>,
    stretches: Vec<(TextNote, usize)>,
    more: (usize, usize),
}

impl<'a> Missing<'a> {
    /// Nothing yet; the column is counted from 0.
    pub(super) const fn new(table: &'a Table, column: usize) -> Self {
        Self { table, column, bridged: 0, first_bridged: None, stretches: Vec::new(), more: (0, 0) }
    }

    /// Makes every sample of a run finite and gives back its holes.
    pub(super) fn bridge(&mut self, samples: &mut [f32], run: &Run, rate: SampleRate) -> Vec<Hole> {
        let gaps = gaps_on_grid(run);
        let in_gap = |at: usize| gaps.iter().any(|gap| gap.range().contains(&at));
        let limit = longest(rate);
        let mut missing =
            samples.chunk_by(|a, b| a.is_finite() == b.is_finite()).scan(0, |at, part| {
                *at += part.len();
                Some((*at - part.len(), part))
            });
        let first = missing.find(|(at, part)| {
            part.len() <= limit
                && part.first().is_some_and(|value| !value.is_finite())
                && !in_gap(*at)
        });
        let first = first.map(|(at, _)| at);
        let bridged = bridge(samples, rate);
        let (holes, in_gaps) = with_gaps(bridged.holes, &gaps);
        let singles = bridged.singles.saturating_sub(in_gaps);
        if let Some(at) = first.filter(|_| singles > 0 && self.bridged == 0) {
            self.first_bridged = Some(self.line(at, run, &gaps));
        }
        self.bridged += singles;
        for hole in holes.iter().filter(|hole| hole.cause == HoleCause::NoValue) {
            let samples = hole.span.len();
            if self.stretches.len() < LISTED {
                let seconds = samples as f64 / rate.hz();
                let line = self.line(hole.span.start().get(), run, &gaps);
                self.stretches.push((TextNote::MissingStretch { samples, seconds }, line));
            } else {
                self.more = (self.more.0 + 1, self.more.1 + samples);
            }
        }
        holes
    }

    /// The line of a sample of a run.
    fn line(&self, at: usize, run: &Run, gaps: &[SampleSpan]) -> usize {
        let jumped: usize =
            gaps.iter().take_while(|gap| gap.end().get() <= at).map(|gap| gap.len()).sum();
        self.table.line_of(run.rows.start + at - jumped)
    }

    /// Tells what was missing.
    pub(super) fn tell(self, told: &mut Told) {
        for (note, line) in self.stretches {
            told.note_in(note, line, self.column);
        }
        if let Some(line) = self.first_bridged {
            told.note_in(TextNote::MissingBridged(self.bridged), line, self.column);
        }
        if self.more.0 > 0 {
            told.note(TextNote::MoreGaps { gaps: self.more.0, samples: self.more.1 }, None);
        }
    }
}

/// Where the rows that are missing lie among the samples of a run.
fn gaps_on_grid(run: &Run) -> Vec<SampleSpan> {
    let mut shift = 0;
    let place = |gap: &super::grid::Gap| {
        let start = gap.before - run.rows.start + shift;
        shift += gap.rows;
        SampleSpan::new(start, start + gap.rows)
    };
    run.gaps.iter().map(place).collect()
}

/// The holes with each gap in them as a hole of its own, and how many samples of gaps were short
/// enough to be bridged like missing values.
fn with_gaps(holes: Vec<Hole>, gaps: &[SampleSpan]) -> (Vec<Hole>, usize) {
    let mut in_gaps: usize = gaps.iter().map(|gap| gap.len()).sum();
    let mut all: Vec<Hole> = Vec::new();
    for hole in holes {
        let (mut start, end) = (hole.span.start().get(), hole.span.end().get());
        let first = gaps.partition_point(|gap| gap.end().get() <= start);
        for gap in gaps.iter().skip(first).take_while(|gap| gap.start().get() < end) {
            in_gaps -= gap.len();
            all.push(Hole { span: *gap, cause: HoleCause::NoRows });
            if gap.start().get() > start {
                all.push(Hole {
                    span: SampleSpan::new(start, gap.start().get()),
                    cause: HoleCause::NoValue,
                });
            }
            start = gap.end().get();
        }
        if start < end {
            all.push(Hole { span: SampleSpan::new(start, end), cause: HoleCause::NoValue });
        }
    }
    put_in_order(&mut all, |hole| hole.span.start().get());
    (all, in_gaps)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hole_of_missing_cells_and_missing_rows_is_parted() {
        let hole = |start, end, cause| Hole { span: SampleSpan::new(start, end), cause };
        let gaps = [SampleSpan::new(2, 3), SampleSpan::new(12, 15)];
        let (holes, short) = with_gaps(vec![hole(10, 18, HoleCause::NoValue)], &gaps);
        let (value, rows) = (HoleCause::NoValue, HoleCause::NoRows);
        assert_eq!(holes, [hole(10, 12, value), hole(12, 15, rows), hole(15, 18, value)]);
        assert_eq!(short, 1);
    }
}
