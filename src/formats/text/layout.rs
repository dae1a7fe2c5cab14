//! How the table was understood: told in notes, and laid out for the preview.

use super::super::{DecimalMark, Delimiter, TextLayout, TimeColumn, ValueUnit};
use super::columns::Columns;
use super::line_list::LineList;
use super::lines;
use super::notes::TextNote;
use super::shape::Shape;
use super::table::Table;
use super::tell::Told;
use super::timing::Timing;
use super::traces::Signal;

/// How many rows the preview has.
const PREVIEW: usize = 8;

/// The layout as it is shown to the student.
pub(super) fn layout(
    shape: &Shape<'_>,
    columns: &Columns,
    encoding: &str,
    timing: &Timing,
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
        first_data_line: shape.lines.get(shape.first_row).map_or(1, |line| line.number),
        rate_hz: timing.rates.as_ref().and_then(|rates| rates.first().copied()),
        preview: preview.collect(),
    }
}

/// Tells how the table was found in the text.
pub(super) fn tell_shape(
    shape: &Shape<'_>,
    columns: &Columns,
    top: usize,
    table: &mut Table,
    told: &mut Told,
) {
    let first_line = shape.lines.get(shape.first_row).map(|line| line.number);
    if shape.delimiter != Delimiter::Comma && columns.names.len() > 1 {
        told.note(TextNote::DelimiterGuessed(shape.delimiter), first_line);
    }
    let names_none = top == shape.first_row;
    if shape.delimiter == Delimiter::Comma
        && names_none
        && columns.names.len() == 2
        && columns.time == TimeColumn::Absent
        && shape.columns.iter().all(|column| column.decimals == 0 && column.moments == 0)
    {
        told.note(TextNote::CommaSeparates, first_line);
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
    if let Some(line) = table.bracketed {
        told.note(TextNote::BracketsForMinus, Some(line));
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
