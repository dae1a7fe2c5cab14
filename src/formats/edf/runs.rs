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
    /// The records between breaks.
    pub(super) pieces: Vec<Piece>,
}

/// Records without a break between them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Piece {
    /// The first of them.
    pub(super) first: usize,
    /// How many there are.
    pub(super) count: usize,
    /// When the first begins, in seconds since the run does.
    pub(super) begin: f64,
}

impl Run {
    /// How many records it has.
    pub(super) fn records(&self) -> usize {
        self.pieces.iter().map(|piece| piece.count).sum()
    }
}

/// How far a record may lie from the end of the one before it and still follow without a break.
const TOLERANCE: f64 = 0.000_5;

/// Records one after the other.
pub(super) fn unbroken(records: usize) -> Vec<Run> {
    vec![Run { onset: 0.0, pieces: vec![Piece { first: 0, count: records, begin: 0.0 }] }]
}

/// Records that begin when they say; one that does not say follows the one before it.
pub(super) fn broken(onsets: &[Option<f64>], seconds: f64) -> Vec<Run> {
    let first = onsets.first().copied().flatten().unwrap_or(0.0);
    let longest_break = onsets.len() as f64 * seconds;
    let mut runs: Vec<Run> = Vec::new();
    let (mut end, mut breaks) = (0.0, 0.0);
    for (record, onset) in onsets.iter().enumerate() {
        let mut begin = onset.map_or(end, |onset| onset - first);
        let follows = (begin - end).abs() <= TOLERANCE;
        if follows {
            begin = end;
        }
        breaks += begin - end;
        match runs.last_mut() {
            Some(run) if begin >= end && breaks <= longest_break => match run.pieces.last_mut() {
                Some(piece) if follows => piece.count += 1,
                _ => {
                    run.pieces.push(Piece { first: record, count: 1, begin: begin - run.onset });
                }
            },
            _ => {
                breaks = 0.0;
                let piece = Piece { first: record, count: 1, begin: 0.0 };
                runs.push(Run { onset: begin, pieces: vec![piece] });
            }
        }
        end = begin + seconds;
    }
    runs
}

/// How many breaks the runs have inside them, and how many seconds they last together.
pub(super) fn breaks(runs: &[Run], seconds: f64) -> (usize, f64) {
    let pairs = runs.iter().flat_map(|run| run.pieces.iter().zip(run.pieces.iter().skip(1)));
    pairs
        .map(|(one, next)| next.begin - one.begin - one.count as f64 * seconds)
        .fold((0, 0.0), |(count, sum), length| (count + 1, sum + length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_break_widens_the_grid_and_a_long_one_begins_anew() {
        let onsets = [Some(5.0), Some(6.0), None, Some(9.5), Some(60.0), Some(61.0), Some(60.0)];
        let runs = broken(&onsets, 1.0);
        let piece = |first, count, begin| Piece { first, count, begin };
        let expected = [
            Run { onset: 0.0, pieces: vec![piece(0, 3, 0.0), piece(3, 1, 4.5)] },
            Run { onset: 55.0, pieces: vec![piece(4, 2, 0.0)] },
            Run { onset: 55.0, pieces: vec![piece(6, 1, 0.0)] },
        ];
        assert_eq!(runs, expected);
        assert_eq!(breaks(&runs, 1.0), (1, 1.5));
        assert_eq!(broken(&[None; 3], 2.0), unbroken(3));
    }
}
