//! Rows of numbers: CSV, TSV, TXT, whatever the ending, and pasted text.
//!
//! The way of a file: [`encoding`] makes it UTF-8, [`shape`] finds the table in it, [`header`] and
//! [`metadata`] read the words around it, [`columns`] says which column is what, [`rows`] reads all
//! numbers in one pass, [`timing`] ([`stamps`], [`grid`]) puts them on an even grid, [`runs`] names the
//! runs and [`traces`] makes recordings of them. Runs [`side_by_side`] are each a [`part`] of the table. Every step can be overruled by the student's [`Choices`].

mod blocks;
mod clock;
mod columns;
mod decoding;
mod doubt;
mod encoding;
mod fault;
mod grid;
mod header;
mod json;
mod labelled;
mod labels;
mod layout;
mod likely_rate;
mod line_list;
mod lines;
mod metadata;
mod missing;
mod note_words;
mod notes;
mod number;
mod older;
mod part;
mod rate_words;
mod repeated;
mod row;
mod rows;
mod runs;
mod said;
mod shape;
mod side_by_side;
mod stamps;
mod table;
mod tell;
mod timing;
mod traces;
mod unit_words;

pub use decoding::{Decode, decode_with};
pub use fault::TextError;
pub use line_list::LineList;
pub use note_words::LeftOut;
pub use notes::TextNote;

use super::{Choices, Format, NeedsRate, OpenError, Opened, Opening, SourceFile, sniff};
use crate::signal::{Progress, SampleRate};
use crate::words::phrase;
use metadata::Stated;
use part::{Part, Source};
use shape::Shape;
use tell::Told;

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
        return Err(OpenError::NotARecording { kind: phrase!("faults.kind.unknown"), file });
    }
    let mut told = Told::default();
    if decoded.marked {
        told.note(TextNote::MarkStripped, Some(1));
    }
    if decoded.encoding != "UTF-8" {
        told.note(TextNote::Encoding(decoded.encoding.to_owned()), None);
    }
    let encoding = decoded.encoding;
    match json::table(&decoded.text) {
        Some(json::Json::NoTable) => return Err(TextError::JsonWithoutTable { file }.into()),
        Some(json::Json::Table(table)) => {
            told.note(TextNote::JsonSetOut, None);
            return read(table.as_bytes(), &[], encoding, file, choices, told, progress);
        }
        None => {}
    }
    if let Some(labelled) = labelled::unlabelled(decoded.text.as_bytes()) {
        told.note(TextNote::NamesBesideValues, None);
        let text = labelled.text.as_bytes();
        return read(text, &labelled.names, encoding, file, choices, told, progress);
    }
    read(decoded.text.as_bytes(), &[], encoding, file, choices, told, progress)
}

/// Reads a decoded text. `names`: those of its columns, where they stood beside the values.
fn read(
    text: &[u8],
    names: &[String],
    encoding: &str,
    file: String,
    choices: &Choices,
    mut told: Told,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    let Some(shape) = shape::find(text, choices) else { return Err(no_numbers(text, file).into()) };
    if let Some(doubt) = shape.doubt {
        return Err(doubt.error(file).into());
    }
    let mut header = header::read(&shape, shape.columns.len());
    if names.len() == shape.columns.len() {
        header.rename(names);
    }
    for (unit, sample) in header.units.iter_mut().zip(&shape.columns) {
        *unit = unit.or(sample.unit);
    }
    let columns = columns::assign(&shape.columns, &header, choices);
    let line = shape.lines.get(shape.first_row).map_or(1, |line| line.number);
    let width = columns.names.len();
    let parts = side_by_side::parts(columns, &shape.columns, &header, choices);
    if let Some(chosen) = choices
        .value_column
        .filter(|chosen| !parts.iter().any(|columns| traces::is_choosable(columns, *chosen)))
    {
        return Err(TextError::NoSuchColumn { column: chosen + 1, columns: width, file }.into());
    }
    let source = Source { text, shape: &shape, header: &header, choices };
    let mut stated = stated(&shape, &header);
    let count = parts.len();
    let mut read_parts: Vec<Part> = Vec::with_capacity(count);
    let mut unusable = None;
    for (number, columns) in parts.into_iter().enumerate() {
        let time = columns.time;
        match part::read(&source, columns, &mut stated, &mut told, progress) {
            Ok(part) if number == 0 || part.timing.rates.is_some() => read_parts.push(part),
            other => {
                unusable = unusable.or(other.err());
                told.note(TextNote::PartLeftOut(header.name(time)), Some(line));
            }
        }
    }
    if let Some(reason) = unusable.filter(|_| read_parts.is_empty()) {
        return Err(reason.error(line, file).into());
    }
    if count > 1 {
        told.note(TextNote::OwnTimes(count), Some(line));
        part::name_side_by_side(&mut read_parts, &header);
    }
    let (mut signals, places) = part::signals(&mut read_parts);
    let wanted = traces::wanted(&signals, choices);
    traces::settle_units(&mut signals, wanted, &stated, choices, &mut told);
    progress.at(1.0);
    let at = places.get(wanted).copied().unwrap_or(0);
    let Some(part) = read_parts.get(at) else { return Err(no_numbers(text, file).into()) };
    let layout = layout::layout(&shape, &part.columns, encoding, &part.timing, signals.get(wanted));
    if part.timing.rates.is_none() {
        told.note(TextNote::RateUnknown, None);
        let signal = signals.get_mut(wanted).map(|signal| std::mem::take(&mut signal.values));
        let finite = signal.unwrap_or_default().into_iter().filter(|value| value.is_finite());
        return Ok(Opening::NeedsRate(NeedsRate {
            file,
            format: Format::Text,
            samples: part.table.rows,
            plausible_hz: likely_rate::likely_rates(&finite.collect::<Vec<f32>>()),
            notes: told.notes,
            layout: Some(layout),
        }));
    }
    let mut traces = Vec::new();
    let mut suggested = 0;
    for (place, (signal, at)) in signals.into_iter().zip(places).enumerate() {
        let Some(part) = read_parts.get(at) else { continue };
        let runs = traces::recordings(signal, &part.timing, &part.table, &mut told)
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
