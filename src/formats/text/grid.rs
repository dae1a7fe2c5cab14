//! From stamps to an even grid: the period, and where rows are missing.
//!
//! The period is the sum of all steps that are no gap, over their number: within a stretch only its
//! first and last stamp count, so rounded stamps cost nothing (whole span, not first step). A gap is
//! a step whose delay persists: a tracker follows the grid, and a row that is at least three
//! quarters of a period late counts as a gap only if the rows after it are as late. Stamps that many rows
//! share say nothing inside a group: there, rows are counted between the moments at which the stamp
//! changes, and the first and last group, which may be partial, are left out.

use super::stamps::{Stamps, usual_step};
use crate::signal::put_in_order;
use std::ops::Range;

/// A run of rows on one grid.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    pub(super) rows: Range<usize>,
    /// Where rows are missing, in order.
    pub(super) gaps: Vec<Gap>,
    /// The time from row to row, in the unit of the stamps.
    pub(super) period: f64,
}

/// Rows that are missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Gap {
    /// The row before which they are missing.
    pub(super) before: usize,
    /// How many.
    pub(super) rows: usize,
}

/// The grid of a file.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Grid {
    pub(super) runs: Vec<Run>,
    /// The period over all runs.
    pub(super) period: f64,
    /// By how much of itself the period may be wrong.
    pub(super) uncertainty: f64,
    /// Whether many rows share a stamp.
    pub(super) shared: bool,
    /// How far steps stray from the period, at most, when that is more than rounding.
    pub(super) jitter: Option<f64>,
}

/// How fast the tracker follows late and early rows.
const FOLLOW: f64 = 0.05;
/// About how many steps are looked at to find the usual stray.
const SAMPLED: usize = 65_536;
/// How many rows after a late one are looked at.
const AHEAD: usize = 8;

/// Finds the grid; `None` when the stamps change too seldom to tell. `resolution`: the smallest
/// difference that the stamps can show.
pub(super) fn find(stamps: &Stamps, resolution: f64) -> Option<Grid> {
    let same = count(stamps, |step| step == 0.0);
    if same * 5 > stamps.times.len() {
        return shared(stamps);
    }
    // Runs may have been taken at different rates; each then has a grid of its own.
    let own = |run: &Range<usize>| usual_step(stamps.times.get(run.clone()).unwrap_or_default());
    let differs = |step: f64| !(0.8..=1.25).contains(&(step / stamps.step));
    if !stamps.runs.iter().filter_map(own).any(differs) {
        return regular(stamps, resolution);
    }
    let grids = stamps.runs.iter().filter_map(|run| {
        let times = stamps.times.get(run.clone())?.to_vec();
        let rows = times.len();
        let step = usual_step(&times)?;
        let mut grid = regular(
            &Stamps { times, runs: std::iter::once(0..rows).collect(), step, ..Stamps::default() },
            resolution,
        )?;
        for part in &mut grid.runs {
            part.rows = run.clone();
            part.gaps.iter_mut().for_each(|gap| gap.before += run.start);
        }
        Some(grid)
    });
    let mut grids: Vec<Grid> = grids.collect();
    let runs: Vec<Run> = grids.iter().flat_map(|grid| grid.runs.clone()).collect();
    put_in_order(&mut grids, |grid| grid.runs.first().map_or(0, |run| run.rows.len() + 1));
    Some(Grid { runs, ..grids.pop()? })
}

fn steps(stamps: &Stamps) -> impl Iterator<Item = f64> + '_ {
    stamps.runs.iter().flat_map(|run| {
        stamps.times.get(run.clone()).unwrap_or_default().windows(2).map(|pair| match pair {
            [a, b] => b - a,
            _ => 0.0,
        })
    })
}

fn count(stamps: &Stamps, is: impl Fn(f64) -> bool) -> usize {
    steps(stamps).filter(|step| is(*step)).count()
}

fn regular(stamps: &Stamps, resolution: f64) -> Option<Grid> {
    let usual = stamps.step;
    let all = count(stamps, |_| true);
    // Rounded stamps make steps of two lengths; then a longer step is not yet a gap.
    let rounded = count(stamps, |step| {
        let off = (step - usual).abs();
        off > 0.5 * resolution && off <= 1.5 * resolution
    });
    let rounding = if rounded * 50 > all && resolution > 0.2 * usual { resolution } else { 0.0 };
    let longest = 1.5 * usual + rounding;
    let mean = |steps: &mut dyn Iterator<Item = f64>| {
        let (sum, count) = steps.fold((0.0, 0_usize), |(sum, count), step| (sum + step, count + 1));
        sum / count as f64
    };
    let mut period = mean(&mut steps(stamps).filter(|step| *step <= longest));
    let mut runs = track(stamps, period, rounding);
    let gaps = runs.iter().map(|run| run.gaps.len()).sum::<usize>();
    // Absurd times leave more rows out than a whole number of that size can be multiplied.
    let missing: f64 = runs.iter().flat_map(|run| &run.gaps).map(|gap| gap.rows as f64).sum();
    if gaps * 50 > all && missing * 10.0 > (all * 3) as f64 {
        // Rows that arrive in bursts: only the mean over everything is a period.
        period = mean(&mut steps(stamps));
        runs = track(stamps, period, rounding);
    }
    let kept = |run: &Run| -> (f64, usize) {
        let part = stamps.times.get(run.rows.clone()).unwrap_or_default();
        let span = part.last().copied().unwrap_or(0.0) - part.first().copied().unwrap_or(0.0);
        let jumped: f64 = run
            .gaps
            .iter()
            .filter_map(|gap| {
                Some(stamps.times.get(gap.before)? - stamps.times.get(gap.before - 1)?)
            })
            .sum();
        (span - jumped, run.rows.len() - 1 - run.gaps.len())
    };
    let (span, number) = runs.iter().map(kept).fold((0.0, 0), |(a, b), (c, d)| (a + c, b + d));
    if number == 0 || span <= 0.0 {
        return None;
    }
    let period = span / number as f64;
    for run in &mut runs {
        let (span, number) = kept(run);
        let own = span / number.max(1) as f64;
        let differs = number >= 100 && (own / period - 1.0).abs() > 0.005;
        run.period = if differs { own } else { period };
    }
    let limit = 1.6 * period;
    let strays = || steps(stamps).filter(|step| *step < limit).map(|step| (step - period).abs());
    let most = strays().fold(0.0, f64::max);
    // The usual stray of long files shows in some of the steps; an odd number apart misses no pattern.
    let mut strays: Vec<f64> = strays().step_by((all / SAMPLED) | 1).collect();
    let place = (strays.len() * 19 / 20).min(strays.len().checked_sub(1)?);
    let (_, usual_stray, _) = strays.select_nth_unstable_by(place, f64::total_cmp);
    let jitter = (*usual_stray > (0.04 * period).max(1.05 * resolution)).then_some(most);
    let uncertainty = (resolution + jitter.unwrap_or(0.0)) / span;
    Some(Grid { runs, period, uncertainty, shared: false, jitter })
}

/// Follows the grid through every run and lists what is missing.
fn track(stamps: &Stamps, period: f64, rounding: f64) -> Vec<Run> {
    let late = (0.75 * period).max(1.5 * rounding);
    let runs = stamps.runs.iter().map(|rows| {
        let part = stamps.times.get(rows.clone()).unwrap_or_default();
        let mut gaps = Vec::new();
        let mut at = part.first().copied().unwrap_or(0.0);
        for (place, time) in part.iter().enumerate().skip(1) {
            let delay = time - (at + period);
            let persists = || {
                let next = part.iter().skip(place + 1).take(AHEAD).zip(1..);
                let mut delays =
                    next.map(|(time, ahead)| time - (at + period * f64::from(1 + ahead)));
                delays.all(|later| later > 0.5 * delay)
            };
            // The last rows have nothing after them to show that a delay lasts.
            let shows = part.len() - place > 3 || delay > 2.0 * late;
            if delay > late && shows && persists() {
                // `as` saturates.
                let rows_missing = ((delay / period).round() as usize).max(1);
                gaps.push(Gap { before: rows.start + place, rows: rows_missing });
                at = *time;
            } else {
                at += period + FOLLOW * delay;
            }
        }
        Run { rows: rows.clone(), gaps, period }
    });
    runs.collect()
}

fn shared(stamps: &Stamps) -> Option<Grid> {
    let groups: Vec<Vec<Group>> = stamps.runs.iter().map(|run| groups(stamps, run)).collect();
    let mut ratios: Vec<f64> =
        groups.iter().flatten().map(|group| group.lasts / group.rows as f64).collect();
    if ratios.is_empty() {
        return None;
    }
    let middle = ratios.len() / 2;
    let usual = *ratios.select_nth_unstable_by(middle, f64::total_cmp).1;
    let lack = |group: &Group| group.lasts / usual - group.rows as f64;
    let mut lacks: Vec<f64> = groups.iter().flatten().map(|group| lack(group).abs()).collect();
    let spread = *lacks.select_nth_unstable_by(middle, f64::total_cmp).1;
    let is_short =
        |group: &Group| lack(group) > (0.08 * group.lasts / usual).max(4.0 * spread).max(2.0);
    let (span, rows) = groups
        .iter()
        .flatten()
        .filter(|group| !is_short(group))
        .fold((0.0, 0_usize), |(span, rows), group| (span + group.lasts, rows + group.rows));
    if rows == 0 || span <= 0.0 {
        return None;
    }
    let period = span / rows as f64;
    let runs = stamps.runs.iter().zip(&groups).map(|(rows, groups)| {
        let mut gaps = Vec::new();
        for short in groups.chunk_by(|a, b| is_short(a) && is_short(b)) {
            let Some(first) = short.first().filter(|group| is_short(group)) else { continue };
            let rows: f64 =
                short.iter().map(|group| group.lasts / period - group.rows as f64).sum();
            gaps.push(Gap {
                before: first.start + first.rows,
                rows: (rows.round() as usize).max(1),
            });
        }
        Run { rows: rows.clone(), gaps, period }
    });
    // A stamp changes up to one row late, at either end.
    let uncertainty = 2.0 / rows as f64;
    Some(Grid { runs: runs.collect(), period, uncertainty, shared: true, jitter: None })
}

/// Rows with the same stamp, from one change of the stamp to the next.
#[derive(Clone, Copy, Debug)]
struct Group {
    start: usize,
    rows: usize,
    lasts: f64,
}

fn groups(stamps: &Stamps, run: &Range<usize>) -> Vec<Group> {
    let mut changes = run.clone().skip(1).filter_map(|row| {
        let (before, time) = (*stamps.times.get(row - 1)?, *stamps.times.get(row)?);
        (time > before).then_some((row, time))
    });
    let mut groups = Vec::new();
    let Some(mut last) = changes.next() else { return groups };
    for change in changes {
        groups.push(Group { start: last.0, rows: change.0 - last.0, lasts: change.1 - last.1 });
        last = change;
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::super::stamps::order;
    use super::*;

    fn grid(times: Vec<f64>, resolution: f64) -> Grid {
        find(&order(times, false).unwrap(), resolution).unwrap()
    }

    #[test]
    fn a_gap_is_counted_in_rows() {
        let times = (0..100).filter(|row| !(40..55).contains(row)).map(|row| f64::from(row) * 4.0);
        let grid = grid(times.collect(), 1.0);
        assert_eq!(grid.period, 4.0);
        assert_eq!(grid.runs.first().unwrap().gaps, [Gap { before: 40, rows: 15 }]);
    }

    #[test]
    fn rounded_stamps_are_no_gaps() {
        for hz in [360.0, 900.0, 1200.0] {
            let times = (0..5000).map(|row| (f64::from(row) * 1000.0 / hz).floor());
            let grid = grid(times.collect(), 1.0);
            assert!(grid.runs.first().unwrap().gaps.is_empty(), "{hz}");
            assert!((grid.period * hz / 1000.0 - 1.0).abs() < 3e-4, "{hz}: {}", grid.period);
        }
    }

    #[test]
    fn bursts_are_spread_over_the_whole_span() {
        let times = (0..500).flat_map(|burst| (0..10).map(move |row| f64::from(burst * 40 + row)));
        let grid = grid(times.collect(), 1.0);
        assert!((grid.period - 4.0).abs() < 0.02, "{}", grid.period);
        assert!(grid.runs.first().unwrap().gaps.is_empty());
    }

    #[test]
    fn shared_stamps_are_counted_between_changes() {
        let times = (150..1900)
            .filter(|row| !(700..1040).contains(row))
            .map(|row| (f64::from(row) / 200.0).floor());
        let grid = grid(times.collect(), 1.0);
        assert_eq!((grid.shared, grid.period), (true, 0.005));
        assert_eq!(grid.runs.first().unwrap().gaps, [Gap { before: 550, rows: 340 }]);
    }
}
