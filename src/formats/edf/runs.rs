//! Where the records lie in time: one after the other, or with breaks between them (EDF+D).
//!
//! A break widens the grid, and nothing is measured across it. The grid never grows to more than
//! twice what was recorded: where breaks are longer, or time runs backwards, a new run begins, which
//! becomes a trace of its own.

/// Records that share a grid.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    /// When the first of them begins, in seconds since the first record of the file.
    pub(super) onset: f64,
    /// Which record, and when it begins in seconds since `onset`.
    pub(super) records: Vec<(usize, f64)>,
}

/// How far a record may lie from the end of the one before it and still follow without a break.
const TOLERANCE: f64 = 0.000_5;

/// Records one after the other.
pub(super) fn unbroken(records: usize, seconds: f64) -> Vec<Run> {
    let records = (0..records).map(|record| (record, record as f64 * seconds)).collect();
    vec![Run { onset: 0.0, records }]
}

/// Records that begin when they say; one that does not say follows the one before it.
pub(super) fn broken(onsets: &[Option<f64>], seconds: f64) -> Vec<Run> {
    let first = onsets.first().copied().flatten().unwrap_or(0.0);
    let longest_break = onsets.len() as f64 * seconds;
    let mut runs: Vec<Run> = Vec::new();
    let (mut end, mut breaks) = (0.0, 0.0);
    for (record, onset) in onsets.iter().enumerate() {
        let mut begin = onset.map_or(end, |onset| onset - first);
        if (begin - end).abs() <= TOLERANCE {
            begin = end;
        }
        breaks += begin - end;
        match runs.last_mut() {
            Some(run) if begin >= end && breaks <= longest_break => {
                run.records.push((record, begin - run.onset));
            }
            _ => {
                breaks = 0.0;
                runs.push(Run { onset: begin, records: vec![(record, 0.0)] });
            }
        }
        end = begin + seconds;
    }
    runs
}

/// How many breaks the runs have inside them, and how many seconds they last together.
pub(super) fn breaks(runs: &[Run], seconds: f64) -> (usize, f64) {
    let pairs = runs.iter().flat_map(|run| run.records.iter().zip(run.records.iter().skip(1)));
    let lengths = pairs.map(|((_, one), (_, next))| next - one - seconds);
    lengths
        .filter(|&length| length > TOLERANCE)
        .fold((0, 0.0), |(count, sum), length| (count + 1, sum + length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_break_widens_the_grid_and_a_long_one_begins_anew() {
        let onsets = [Some(5.0), Some(6.0), None, Some(9.5), Some(60.0), Some(61.0), Some(60.0)];
        let runs = broken(&onsets, 1.0);
        let expected = [
            Run { onset: 0.0, records: vec![(0, 0.0), (1, 1.0), (2, 2.0), (3, 4.5)] },
            Run { onset: 55.0, records: vec![(4, 0.0), (5, 1.0)] },
            Run { onset: 55.0, records: vec![(6, 0.0)] },
        ];
        assert_eq!(runs, expected);
        assert_eq!(breaks(&runs, 1.0), (1, 1.5));
        assert_eq!(broken(&[None; 3], 2.0), unbroken(3, 2.0));
    }
}
