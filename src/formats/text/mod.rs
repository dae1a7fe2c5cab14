//! Rows of numbers: CSV, TSV, TXT, whatever the ending, and pasted text.
//!
//! The way of a file: [`encoding`] makes it UTF-8, [`shape`] finds the table in it, [`header`] and
//! [`metadata`] read the words around it, [`columns`] says which column is what, [`rows`] reads all
//! numbers in one pass, [`timing`] ([`stamps`], [`grid`]) puts them on an even grid and [`traces`] makes
//! recordings of them. Every step can be overruled by the student's [`Choices`].

mod clock;
mod columns;
mod encoding;
mod fault;
mod grid;
mod header;
mod likely_rate;
mod lines;
mod metadata;
mod notes;
mod number;
mod rows;
mod shape;
mod stamps;
mod tell;
mod timing;
mod traces;
mod unit_words;

pub use fault::TextError;
pub use notes::{LeftOut, LineList, TextNote};

use super::{
    Choices, DecimalMark, Delimiter, Format, NeedsRate, OpenError, Opened, Opening, Place,
    SourceFile, TextLayout, TimeColumn, ValueUnit, lead, sniff,
};
use crate::signal::{Progress, Recording, SampleRate};
use columns::Columns;
use metadata::Stated;
use shape::Shape;
use tell::Told;
use traces::Signal;

/// The fewest rows in which anything can be seen.
const FEWEST_ROWS: usize = 10;
/// How many rows the preview has.
const PREVIEW: usize = 8;

/// Opens a text file.
pub(super) fn open(
    files: &[SourceFile],
    choices: &Choices,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    let [source] = files else { return Err(TextError::SeveralFiles { count: files.len() }.into()) };
    let file = source.name.clone();
    if let Some(hz) = choices.rate_hz {
        SampleRate::new(hz).map_err(TextError::from)?;
    }
    let decoded = encoding::decode(&source.bytes);
    if sniff::is_binary(&decoded.text) {
        return Err(OpenError::NotARecording { kind: "neither text nor a known recording", file });
    }
    let mut told = Told::default();
    if decoded.marked {
        told.note(TextNote::MarkStripped, Some(1));
    }
    if decoded.encoding != "UTF-8" {
        told.note(TextNote::Encoding(decoded.encoding.to_owned()), None);
    }
    let text = decoded.text.as_bytes();
    let Some(shape) = shape::find(text, choices) else { return Err(no_numbers(text, file).into()) };
    if let Some(line) = shape.comma_for_both {
        return Err(TextError::CommaForBoth { line, file }.into());
    }
    let mut header = header::read(&shape, shape.columns.len());
    for (unit, sample) in header.units.iter_mut().zip(&shape.columns) {
        *unit = unit.or(sample.unit);
    }
    let mut columns = columns::assign(&shape.columns, &header, choices);
    let stated = stated(&shape, &header);
    let first_line = shape.lines.get(shape.first_row).map_or(1, |line| line.number);
    if let Some(column) =
        choices.value_column.filter(|chosen| !traces::is_choosable(&columns, *chosen))
    {
        return Err(TextError::NoSuchColumn {
            column: column + 1,
            columns: columns.names.len(),
            file,
        }
        .into());
    }

    let reading = rows::Reading { delimiter: shape.delimiter, mark: shape.mark, first_line };
    let mut table = rows::read_all(text, reading, &columns, progress);
    tell_shape(&shape, &columns, header.top, &mut table, &mut told);
    let decimals = match columns.time {
        TimeColumn::At(at) => shape.columns.get(at).map_or(0, |sample| sample.decimals),
        TimeColumn::Absent => 0,
    };
    let mut signals = traces::signals(&mut table, &columns, choices.value_column, &mut told);
    if signals.is_empty() {
        let column = columns.values.first().map(|column| column + 1);
        return Err(TextError::NoValues { place: Place { line: first_line, column }, file }.into());
    }
    if table.rows < FEWEST_ROWS {
        return Err(TextError::TooFewRows { rows: table.rows, line: first_line, file }.into());
    }
    table.values = signals.iter_mut().map(|signal| std::mem::take(&mut signal.values)).collect();
    let timing = timing::find(&mut table, &columns, decimals, &stated, choices, &mut told);
    for (signal, values) in signals.iter_mut().zip(std::mem::take(&mut table.values)) {
        signal.values = values;
    }
    columns.time_unit = timing.unit;
    let wanted = wanted(&signals, choices);
    units(&mut signals, wanted, &stated, choices, &mut told);

    let layout = layout(
        &shape,
        &columns,
        decoded.encoding,
        first_line,
        timing.rates.as_deref(),
        signals.get(wanted),
    );
    progress.at(1.0);
    let Some(rates) = timing.rates else {
        told.note(TextNote::RateUnknown, None);
        let signal = signals
            .get_mut(wanted)
            .map(|signal| std::mem::take(&mut signal.values))
            .unwrap_or_default();
        let finite: Vec<f32> = signal.into_iter().filter(|value| value.is_finite()).collect();
        return Ok(Opening::NeedsRate(NeedsRate {
            file,
            format: Format::Text,
            samples: table.rows,
            plausible_hz: likely_rate::likely_rates(&finite),
            notes: told.notes,
            layout: Some(layout),
        }));
    };
    let mut traces: Vec<Recording> = Vec::new();
    let mut suggested = 0;
    for (place, signal) in signals.into_iter().enumerate() {
        let runs = traces::recordings(signal, &timing.runs, &rates, &table, &mut told)
            .map_err(TextError::from)?;
        if place == wanted {
            let longest =
                (0..).zip(&runs).max_by_key(|(at, run)| (run.samples.len(), usize::MAX - at));
            suggested = traces.len() + longest.map_or(0, |(at, _)| at);
        }
        traces.extend(runs);
    }
    Ok(Opening::Ready(Opened {
        file,
        format: Format::Text,
        traces,
        suggested,
        notes: told.notes,
        layout: Some(layout),
    }))
}

/// No line is a row: the last line with text shows the student what there is instead.
fn no_numbers(text: &[u8], file: String) -> TextError {
    let last = lines::Lines::new(text).filter(|line| !line.is_blank()).last();
    let says = last
        .map(|line| String::from_utf8_lossy(line.bytes).chars().take(40).collect())
        .unwrap_or_default();
    TextError::NoNumbers { line: last.map_or(1, |line| line.number), says, file }
}

/// What the words around the table say: above it, in remarks and in names.
fn stated(shape: &Shape<'_>, header: &header::Header) -> Stated {
    let mut stated = Stated::default();
    for (place, line) in shape.lines.iter().enumerate() {
        if place < shape.first_row || line.is_comment() {
            let text = line.bytes.get(..line.bytes.len().min(4096)).unwrap_or_default();
            stated.read(&String::from_utf8_lossy(text), line.number, place >= header.top);
        }
    }
    stated
}

/// Tells how the table was found in the text.
fn tell_shape(
    shape: &Shape<'_>,
    columns: &Columns,
    top: usize,
    table: &mut rows::Table,
    told: &mut Told,
) {
    let first_line = shape.lines.get(shape.first_row).map(|line| line.number);
    if shape.delimiter != Delimiter::Comma && columns.names.len() > 1 {
        told.note(TextNote::DelimiterGuessed(shape.delimiter), first_line);
    }
    let has_decimals = shape.columns.iter().any(|column| column.decimals > 0);
    if shape.mark == DecimalMark::Comma && has_decimals {
        told.note(TextNote::DecimalComma, first_line);
    }
    let mut preamble = LineList::default();
    let mut comments = LineList::default();
    for (place, line) in shape.lines.iter().enumerate().take(shape.first_row) {
        if line.is_comment() {
            comments.add(line.number);
        } else if place < top && !line.is_blank() {
            preamble.add(line.number);
        }
    }
    comments.append(&table.comments);
    told.list(TextNote::PreambleSkipped, preamble);
    told.list(TextNote::CommentsSkipped, comments);
    told.list(TextNote::TextSkipped, std::mem::take(&mut table.text));
    told.list(TextNote::FooterSkipped, std::mem::take(&mut table.footer));
    if columns.empty > 0 {
        told.note(TextNote::EmptyColumns(columns.empty), first_line);
    }
    if columns.limited {
        told.note(TextNote::ColumnsLimited(columns.values.len()), first_line);
    }
    if let Some(line) = table.grouped {
        told.note(TextNote::ThousandsParted, Some(line));
    }
    told.list(TextNote::RaggedRows, std::mem::take(&mut table.ragged));
    told.list(TextNote::UnreadableCells, std::mem::take(&mut table.unreadable));
    if let Some(line) = table.cut {
        told.note(TextNote::LastLineCut, Some(line));
    }
    if let (true, TimeColumn::At(at)) = (columns.time_guessed, columns.time) {
        told.note(
            TextNote::TimeColumnGuessed(columns.names.get(at).cloned().unwrap_or_default()),
            first_line,
        );
    }
}

/// The place of the signal that is chosen, or that most looks like the ECG.
fn wanted(signals: &[Signal], choices: &Choices) -> usize {
    let chosen = signals.iter().position(|signal| Some(signal.column) == choices.value_column);
    chosen.unwrap_or_else(|| {
        lead::likeliest(
            signals.iter().map(|signal| (signal.name.as_str(), signal.unit.to_recording().1)),
        )
    })
}

/// Settles the units, and tells of the wanted signal's.
fn units(
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
            ValueUnit::Volt | ValueUnit::Microvolt => {
                told.note(TextNote::UnitConverted(signal.unit), None)
            }
            ValueUnit::Millivolt => {}
        }
    }
}

fn layout(
    shape: &Shape<'_>,
    columns: &Columns,
    encoding: &str,
    first_data_line: usize,
    rates: Option<&[f64]>,
    wanted: Option<&Signal>,
) -> TextLayout {
    let rows = shape
        .lines
        .iter()
        .skip(shape.first_row)
        .filter(|line| !line.is_blank() && !line.is_comment());
    let preview = rows.take(PREVIEW).map(|line| {
        lines::Cells::new(line.bytes, shape.delimiter)
            .take(columns.names.len())
            .map(lines::shown)
            .collect()
    });
    TextLayout {
        encoding: encoding.to_owned(),
        delimiter: shape.delimiter,
        decimal_mark: shape.mark,
        columns: columns.names.clone(),
        time_column: columns.time,
        time_unit: columns.time_unit,
        value_column: wanted.map_or(0, |signal| signal.column),
        value_unit: wanted.map_or(ValueUnit::Unstated, |signal| signal.unit),
        first_data_line,
        rate_hz: rates.and_then(|rates| rates.first().copied()),
        preview: preview.collect(),
    }
}
