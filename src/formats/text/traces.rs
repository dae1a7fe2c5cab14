//! From rows to recordings: gaps opened on the grid, missing values bridged, units turned into mV.

use super::super::bridge::bridge;
use super::super::{TimeColumn, ValueUnit};
use super::columns::{Columns, left_out};
use super::grid::Run;
use super::notes::{LeftOut, TextNote};
use super::rows::Table;
use super::tell::Told;
use crate::signal::{Hole, HoleCause, Recording, SampleRate, SampleSpan, UnusableRate};

/// Values above this are no voltage at the skin, in mV. Ours: electrodes in use give some hundred.
const LARGEST: f32 = 10_000.0;
/// How many missing stretches are listed one by one.
const LISTED: usize = 10;

/// A signal on its way to a recording.
#[derive(Debug)]
pub(super) struct Signal {
    /// Its place among the columns of the table.
    pub(super) column: usize,
    pub(super) name: String,
    pub(super) unit: ValueUnit,
    pub(super) values: Vec<f32>,
}

/// The columns that are signals. Empty when no column has any value.
pub(super) fn signals(
    table: &mut Table,
    columns: &Columns,
    chosen: Option<usize>,
    told: &mut Told,
) -> Vec<Signal> {
    let read = columns.values.iter().zip(&columns.units).zip(std::mem::take(&mut table.values));
    let all: Vec<(Signal, Option<LeftOut>)> = read
        .filter(|(_, values)| values.iter().any(|value| value.is_finite()))
        .map(|((column, unit), values)| {
            let why = left_out(&values).filter(|_| chosen != Some(*column));
            let name = columns.names.get(*column).cloned().unwrap_or_default();
            (Signal { column: *column, name, unit: *unit, values }, why)
        })
        .collect();
    // When nothing moves, a flat trace is still the trace.
    let none_moves = all.iter().all(|(_, why)| why.is_some());
    let mut signals = Vec::new();
    for (signal, why) in all {
        match why.filter(|_| !none_moves) {
            Some(why) => told.note(TextNote::ColumnLeftOut(signal.name, why), None),
            None => signals.push(signal),
        }
    }
    signals
}

/// Makes the recordings of one signal, one for each run.
///
/// # Errors
/// [`UnusableRate`] when a rate is not possible.
pub(super) fn recordings(
    signal: Signal,
    runs: &[Run],
    rates: &[f64],
    table: &Table,
    told: &mut Told,
) -> Result<Vec<Recording>, UnusableRate> {
    let (factor, unit) = signal.unit.to_recording();
    let mut values = signal.values;
    if factor != 1.0 {
        values.iter_mut().for_each(|value| *value = (f64::from(*value) * factor) as f32);
    }
    let mut recordings = Vec::with_capacity(runs.len());
    let mut tally = Missing::default();
    for (number, (run, hz)) in runs.iter().zip(rates).enumerate() {
        let rate = SampleRate::new(*hz)?;
        let whole = run.rows == (0..values.len()) && run.gaps.is_empty();
        let mut samples = if whole { std::mem::take(&mut values) } else { widened(&values, run) };
        let largest = samples.iter().copied().fold(0.0, |a: f32, b| a.max(b.abs()));
        if factor != 1.0 || signal.unit == ValueUnit::Millivolt {
            tally.largest = tally.largest.max(largest);
        }
        let bridged = bridge(&mut samples, rate);
        let (holes, in_gaps) = with_gaps(bridged.holes, run);
        tally.add(
            bridged.singles.saturating_sub(in_gaps),
            &holes,
            run,
            rate,
            table,
            signal.column,
            told,
        );
        let name = if runs.len() > 1 {
            format!("{}, run {}", signal.name, number + 1)
        } else {
            signal.name.clone()
        };
        recordings.push(Recording {
            name,
            rate,
            unit,
            samples: samples.into(),
            holes,
            marks: Vec::new(),
        });
    }
    tally.tell(signal.column, told);
    Ok(recordings)
}

/// The values of a run with room for the rows that are missing.
fn widened(values: &[f32], run: &Run) -> Vec<f32> {
    let missing: usize = run.gaps.iter().map(|gap| gap.rows).sum();
    let mut samples = Vec::with_capacity(run.rows.len() + missing);
    let mut from = run.rows.start;
    for gap in &run.gaps {
        samples.extend_from_slice(values.get(from..gap.before).unwrap_or_default());
        samples.resize(samples.len() + gap.rows, f32::NAN);
        from = gap.before;
    }
    samples.extend_from_slice(values.get(from..run.rows.end).unwrap_or_default());
    samples
}

/// The holes with each gap as a hole of its own, and how many samples of gaps were bridged as short.
fn with_gaps(holes: Vec<Hole>, run: &Run) -> (Vec<Hole>, usize) {
    let mut gaps = Vec::with_capacity(run.gaps.len());
    let mut shift = 0;
    for gap in &run.gaps {
        let start = gap.before - run.rows.start + shift;
        gaps.push(SampleSpan::new(start, start + gap.rows));
        shift += gap.rows;
    }
    let mut in_gaps: usize = gaps.iter().map(|gap| gap.len()).sum();
    let mut all: Vec<Hole> =
        gaps.iter().map(|span| Hole { span: *span, cause: HoleCause::NoRows }).collect();
    for hole in holes {
        let (mut start, end) = (hole.span.start().get(), hole.span.end().get());
        let first = gaps.partition_point(|gap| gap.end().get() <= start);
        for gap in gaps.iter().skip(first).take_while(|gap| gap.start().get() < end) {
            in_gaps -= gap.len();
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
    all.sort_unstable_by_key(|hole| hole.span.start());
    (all, in_gaps)
}

/// What is missing in one column.
#[derive(Default)]
struct Missing {
    bridged: usize,
    listed: usize,
    more: (usize, usize),
    largest: f32,
}

impl Missing {
    #[allow(clippy::too_many_arguments, reason = "one call; each is a thing of its own")]
    fn add(
        &mut self,
        bridged: usize,
        holes: &[Hole],
        run: &Run,
        rate: SampleRate,
        table: &Table,
        column: usize,
        told: &mut Told,
    ) {
        self.bridged += bridged;
        let mut jumped = 0;
        for hole in holes {
            let samples = hole.span.len();
            if hole.cause == HoleCause::NoRows {
                jumped += samples;
            } else if self.listed < LISTED {
                self.listed += 1;
                let seconds = samples as f64 / rate.hz();
                let line = table.line_of(run.rows.start + hole.span.start().get() - jumped);
                told.note_in(TextNote::MissingStretch { samples, seconds }, line, column);
            } else {
                self.more = (self.more.0 + 1, self.more.1 + samples);
            }
        }
    }

    fn tell(&self, column: usize, told: &mut Told) {
        if self.bridged > 0 {
            told.note_in(TextNote::MissingBridged(self.bridged), 1, column);
        }
        if self.more.0 > 0 {
            told.note(TextNote::MoreGaps { gaps: self.more.0, samples: self.more.1 }, None);
        }
        if self.largest > LARGEST {
            told.note(TextNote::ValuesUnlikely(f64::from(self.largest)), None);
        }
    }
}

/// Whether a chosen column can be a signal.
pub(super) fn is_choosable(columns: &Columns, chosen: usize) -> bool {
    chosen < columns.names.len() && columns.time != TimeColumn::At(chosen)
}
