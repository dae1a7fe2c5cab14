//! Cuts a line to a box, so that a trace never runs over the margins.
//!
//! Each stretch between two points is cut by the method of Liang and Barsky (1984, ACM Trans. Graph.
//! 3:1). A line that leaves the box and comes back gives several runs; a line that only touches it
//! from outside gives none.

use super::pen::Rect;

type Point = (f64, f64);

/// The parts of a line inside a box, in order. A single point inside is a run of one.
pub(super) fn clipped(line: &[Point], to: &Rect) -> Vec<Vec<Point>> {
    let inside =
        |&(x, y): &Point| (to.left..=to.right).contains(&x) && (to.top..=to.bottom).contains(&y);
    if let [only] = line {
        return if inside(only) { vec![vec![*only]] } else { Vec::new() };
    }
    let mut runs: Vec<Vec<Point>> = Vec::new();
    let mut goes_on = false;
    for pair in line.windows(2) {
        let &[from, until] = pair else { continue };
        let Some((enter, leave)) = cut(from, until, to) else {
            goes_on = false;
            continue;
        };
        match runs.last_mut().filter(|_| goes_on) {
            Some(run) => run.push(leave),
            None => runs.push(vec![enter, leave]),
        }
        goes_on = leave == until;
    }
    runs
}

/// The part of one stretch inside a box.
fn cut(from: Point, until: Point, to: &Rect) -> Option<(Point, Point)> {
    let (dx, dy) = (until.0 - from.0, until.1 - from.1);
    let edges = [
        (-dx, from.0 - to.left),
        (dx, to.right - from.0),
        (-dy, from.1 - to.top),
        (dy, to.bottom - from.1),
    ];
    let (mut enter, mut leave) = (0.0f64, 1.0f64);
    for (towards, room) in edges {
        if towards < 0.0 {
            enter = enter.max(room / towards);
        } else if towards > 0.0 {
            leave = leave.min(room / towards);
        } else if room < 0.0 {
            return None;
        }
    }
    // The ends themselves are kept as they are: a rounded copy would break the run in two.
    let at = |part: f64| match part {
        part if part <= 0.0 => from,
        part if part >= 1.0 => until,
        part => (from.0 + part * dx, from.1 + part * dy),
    };
    (enter <= leave).then(|| (at(enter), at(leave)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const SQUARE: Rect = Rect::new(0.0, 0.0, 10.0, 10.0);

    #[test]
    fn a_wave_that_leaves_the_box_is_cut_at_its_edge() {
        let wave = [(0.0, 8.0), (4.0, 8.0), (5.0, -8.0), (6.0, 8.0), (10.0, 8.0)];
        let runs = clipped(&wave, &SQUARE);
        assert_eq!(
            runs,
            [vec![(0.0, 8.0), (4.0, 8.0), (4.5, 0.0)], vec![(5.5, 0.0), (6.0, 8.0), (10.0, 8.0)]]
        );
    }

    #[test]
    fn what_lies_outside_gives_nothing() {
        assert!(clipped(&[(0.0, -1.0), (10.0, -1.0)], &SQUARE).is_empty());
        assert!(clipped(&[(20.0, 5.0)], &SQUARE).is_empty());
        assert!(clipped(&[], &SQUARE).is_empty());
        assert_eq!(clipped(&[(5.0, 5.0)], &SQUARE), [vec![(5.0, 5.0)]]);
    }

    proptest! {
        #[test]
        fn no_part_lies_outside(
            line in proptest::collection::vec((-30.0..30.0f64, -30.0..30.0f64), 0..40),
        ) {
            for (x, y) in clipped(&line, &SQUARE).into_iter().flatten() {
                prop_assert!((-1e-9..=10.0 + 1e-9).contains(&x) && (-1e-9..=10.0 + 1e-9).contains(&y));
            }
        }
    }
}
