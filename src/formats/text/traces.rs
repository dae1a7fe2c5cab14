//! From rows to recordings: gaps opened on the grid, units turned into mV.

use super::super::{Choices, TimeColumn, ValueUnit, lead};
use super::columns::{Columns, left_out};
use super::grid::Run;
use super::labels::Labels;
use super::metadata::Stated;
use super::missing::Missing;
use super::note_words::LeftOut;
use super::notes::TextNote;
use super::table::Table;
use super::tell::Told;
use super::timing::Timing;
use crate::signal::{
    Mark, MarkKind, Recording, SampleIndex, SampleRate, UnusableRate, VoltageUnit, put_in_order,
};

/// Values above this are no voltage at the skin, in mV. Ours: electrodes in use give some hundred.
const LARGEST: f32 = 10_000.0;

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
            Some(LeftOut::Switch) => match Labels::of_switch(signal.column, &signal.values) {
                Some(labels) => table.labels.push(labels),
                None => told.note(TextNote::ColumnLeftOut(signal.name, LeftOut::Switch), None),
            },
            Some(why) => told.note(TextNote::ColumnLeftOut(signal.name, why), None),
            None => signals.push(signal),
        }
    }
    signals
}

/// Gives marks without words the name of their column, and tells of them.
pub(super) fn tell_marks(table: &mut Table, columns: &Columns, told: &mut Told) {
    let rows = table.rows;
    for labels in &mut table.labels {
        let name = columns.names.get(labels.column).cloned().unwrap_or_default();
        if !labels.is_settled && !labels.settle(rows) {
            told.note(TextNote::ColumnLeftOut(name, LeftOut::Words), None);
            continue;
        }
        if labels.marks.is_empty() {
            continue;
        }
        for (_, words) in &mut labels.marks {
            if words.is_empty() {
                words.clone_from(&name);
            } else if words.replace(',', ".").parse::<f64>().is_ok() {
                *words = format!("{name} {words}");
            }
        }
        told.note(TextNote::MarksFrom { column: name, marks: labels.marks.len() }, None);
    }
}

/// The marks of a run, on its grid.
fn marks(table: &Table, run: &Run, samples: usize) -> Vec<Mark> {
    let mut marks: Vec<Mark> = table
        .labels
        .iter()
        .flat_map(|labels| &labels.marks)
        .filter(|(row, _)| run.rows.contains(row))
        .map(|(row, words)| {
            let widened: usize =
                run.gaps.iter().filter(|gap| gap.before <= *row).map(|gap| gap.rows).sum();
            let at = SampleIndex::new(row - run.rows.start + widened);
            Mark { at, kind: MarkKind::Note, text: words.clone() }
        })
        .filter(|mark| mark.at.get() < samples)
        .collect();
    put_in_order(&mut marks, |mark| mark.at.get());
    marks
}

/// The place of the signal that is chosen, or that most looks like the ECG.
pub(super) fn wanted(signals: &[Signal], choices: &Choices) -> usize {
    let chosen = signals.iter().position(|signal| Some(signal.column) == choices.value_column);
    chosen.unwrap_or_else(|| {
        lead::likeliest(
            signals.iter().map(|signal| (signal.name.as_str(), signal.unit.to_recording().1)),
        )
    })
}

/// Settles the units, and tells of the wanted signal's.
pub(super) fn settle_units(
    signals: &mut [Signal],
    wanted: usize,
    stated: &Stated,
    choices: &Choices,
    told: &mut Told,
) {
    let several = signals.len() > 1;
    for (place, signal) in signals.iter_mut().enumerate() {
        let is_wanted = place == wanted;
        if let Some(unit) = choices.value_unit.filter(|_| is_wanted) {
            signal.unit = unit;
        } else if let (ValueUnit::Unstated, Some((unit, line))) = (signal.unit, stated.unit) {
            signal.unit = unit;
            if is_wanted {
                told.note(TextNote::UnitFromText(unit), Some(line));
            }
        }
        if !is_wanted {
            continue;
        }
        if several && choices.value_column.is_none() {
            told.note(TextNote::ValueColumnGuessed(signal.name.clone()), None);
        }
        match signal.unit {
            ValueUnit::Unstated => told.note(TextNote::UnitUnknown, None),
            ValueUnit::Counts => told.note(TextNote::Uncalibrated, None),
            ValueUnit::Volt | ValueUnit::Microvolt | ValueUnit::Nanovolt => {
                told.note(TextNote::UnitConverted(signal.unit), None);
            }
            ValueUnit::Millivolt => {}
        }
    }
}

/// Makes the recordings of one signal, one for each run.
///
/// # Errors
/// [`UnusableRate`] when a rate is not possible.
pub(super) fn recordings(
    signal: Signal,
    timing: &Timing,
    table: &Table,
    told: &mut Told,
) -> Result<Vec<Recording>, UnusableRate> {
    let (factor, unit) = signal.unit.to_recording();
    let mut values = signal.values;
    if factor != 1.0 {
        values.iter_mut().for_each(|value| *value = (f64::from(*value) * factor) as f32);
    }
    let (runs, rates) = (&timing.runs, timing.rates.as_deref().unwrap_or_default());
    let mut recordings = Vec::with_capacity(runs.len());
    let mut missing = Missing::new(table, signal.column);
    let mut highest = 0.0_f32;
    for (number, (run, hz)) in runs.iter().zip(rates).enumerate() {
        let rate = SampleRate::new(*hz)?;
        let whole = run.rows == (0..values.len()) && run.gaps.is_empty();
        let mut samples = if whole { std::mem::take(&mut values) } else { widened(&values, run) };
        let largest = samples.iter().copied().fold(0.0, |a: f32, b| a.max(b.abs()));
        highest = highest.max(largest);
        let holes = missing.bridge(&mut samples, run, rate);
        let name = match timing.names.get(number) {
            Some(Some(run)) => format!("{}, {run}", signal.name),
            _ if runs.len() > 1 => format!("{}, run {}", signal.name, number + 1),
            _ => signal.name.clone(),
        };
        recordings.push(Recording {
            name,
            rate,
            unit,
            marks: marks(table, run, samples.len()),
            samples: samples.into(),
            holes,
        });
    }
    missing.tell(told);
    if highest > LARGEST && unit == VoltageUnit::Millivolt {
        told.note(TextNote::ValuesUnlikely(f64::from(highest)), None);
    }
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

/// Whether a chosen column can be a signal.
pub(super) fn is_choosable(columns: &Columns, chosen: usize) -> bool {
    chosen < columns.names.len() && columns.time != TimeColumn::At(chosen)
}
