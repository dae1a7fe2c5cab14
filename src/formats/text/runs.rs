//! Runs that words begin, and what runs are called.
//!
//! The clock has found its runs already ([`timing`](super::timing)). Here those are added that only a line
//! of text begins, and each run gets the name that was said before its first row. The first run
//! is named from above the table, and only when a later run has a name as well.

use super::super::{TimeColumn, TimeUnit};
use super::columns::Columns;
use super::grid::Run;
use super::line_list::LineList;
use super::notes::TextNote;
use super::said::{Start, name, says_run};
use super::shape::Shape;
use super::table::Table;
use super::tell::Told;
use super::timing::Timing;

/// The fewest rows of a run.
const FEWEST: usize = 10;

/// Adds the runs that words begin and names all of them. `top`: the place of the head's first line.
pub(super) fn settle(
    timing: &mut Timing,
    shape: &Shape<'_>,
    top: usize,
    table: &Table,
    columns: &Columns,
    told: &mut Told,
) {
    let above = shape.lines.get(..shape.first_row).unwrap_or_default();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).trim().to_owned();
    let heads: Vec<String> =
        above.iter().skip(top).map(|line| text(line.bytes)).filter(|it| !it.is_empty()).collect();
    let starts = table.said.starts(&heads);
    let is_timeless =
        columns.time == TimeColumn::Absent || timing.unit == Some(TimeUnit::SampleNumber);
    for start in &starts {
        if start.is_said || start.has_head && columns.time == TimeColumn::Absent {
            split(timing, start, told);
        }
        if is_timeless && !timing.is_chosen {
            restate(timing, start);
        }
    }
    let said_before =
        |run: &Run| starts.iter().find(|start| start.row > 0 && start.row == run.rows.start);
    timing.names =
        timing.runs.iter().map(|run| said_before(run).and_then(|it| it.name.clone())).collect();
    if timing.names.iter().any(Option::is_some) {
        let mut lines = LineList::default();
        let by_number = timing.names.iter().flatten().any(|name| says_run(name));
        let first = above
            .iter()
            .take(top)
            .rev()
            .filter(|line| !by_number || says_run(&text(line.bytes)))
            .find_map(|line| Some((name(&text(line.bytes))?, line.number)));
        if let (Some(to @ None), Some((name, line))) = (timing.names.first_mut(), first) {
            *to = Some(name);
            lines.add(line);
        }
        lines.extend(
            timing
                .runs
                .iter()
                .filter_map(said_before)
                .filter(|it| it.name.is_some())
                .map(|it| it.line),
        );
        told.list(TextNote::RunsNamed, lines);
    }
    if timing.runs.len() > 1 {
        told.note(TextNote::Runs(timing.runs.len()), None);
    }
}

/// Parts the run in which a start lies, unless a part would be too short.
fn split(timing: &mut Timing, start: &Start, told: &mut Told) {
    let fits =
        |run: &Run| run.rows.start + FEWEST <= start.row && start.row + FEWEST <= run.rows.end;
    let Some(place) = timing.runs.iter().position(fits) else { return };
    let Some(run) = timing.runs.get_mut(place) else { return };
    let mut later = Run { rows: start.row..run.rows.end, ..run.clone() };
    later.gaps.retain(|gap| gap.before > start.row);
    run.gaps.retain(|gap| gap.before < start.row);
    run.rows.end = start.row;
    timing.runs.insert(place + 1, later);
    if let Some(rates) = &mut timing.rates
        && let Some(hz) = rates.get(place).copied()
    {
        rates.insert(place + 1, hz);
    }
    told.note(TextNote::RunSaid, Some(start.line));
}

/// Takes the rate that is stated where a run begins, for it and those after it.
fn restate(timing: &mut Timing, start: &Start) {
    let (Some(hz), Some(rates)) = (start.rate_hz, &mut timing.rates) else { return };
    for (run, rate) in timing.runs.iter().zip(rates) {
        if run.rows.start >= start.row && start.row > 0 {
            *rate = hz;
        }
    }
}
