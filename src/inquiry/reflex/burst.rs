//! A burst in rectified EMG: where it stays above a line for long enough, and where it ends.
//!
//! Samples above the line belong together when no more than `dip` samples below it lie between them. The burst
//! is the first such run that is at least `hold` samples long, from its first sample above the line to its last.
//! It has to begin in the window; it may end after it. A run that was above the line before the window
//! opened did not begin in it. Empty input has no burst.

use std::ops::Range;

/// Lengths in samples.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rule {
    pub(super) hold: usize,
    pub(super) dip: usize,
}

/// What a window holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Found {
    /// A burst, from its first sample to after its last.
    Burst(Range<usize>),
    /// The EMG was above the line already when the window opened, and long enough to be a burst.
    BeforeWindow,
    /// Nothing stays above the line long enough.
    Nothing,
}

/// The first burst that begins in a window of rectified samples.
pub(super) fn burst(rectified: &[f64], line: f64, window: Range<usize>, rule: Rule) -> Found {
    let mut at = window.start;
    let is_above = |at: usize| rectified.get(at).is_some_and(|&value| value > line);
    while at < window.end.min(rectified.len()) {
        if !is_above(at) {
            at += 1;
            continue;
        }
        let run = run(rectified, line, at, rule.dip);
        if run.len() >= rule.hold {
            // Looking back over a dip: a run that reaches across the opening began before it.
            let back = at.saturating_sub(rule.dip + 1).min(window.start);
            let reaches_back = at <= window.start + rule.dip && (back..window.start).any(is_above);
            return if reaches_back { Found::BeforeWindow } else { Found::Burst(run) };
        }
        at = run.end;
    }
    Found::Nothing
}

/// The run above the line from a sample on, across dips.
pub(super) fn run(rectified: &[f64], line: f64, from: usize, dip: usize) -> Range<usize> {
    let mut end = from;
    let mut at = from;
    while at < rectified.len() && at - end <= dip {
        if rectified.get(at).is_some_and(|&value| value > line) {
            end = at + 1;
        }
        at += 1;
    }
    from..end
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn found(signs: &str, window: Range<usize>) -> Found {
        let rectified: Vec<f64> =
            signs.chars().map(|sign| if sign == '#' { 2.0 } else { 0.0 }).collect();
        burst(&rectified, 1.0, window, Rule { hold: 4, dip: 1 })
    }

    #[test]
    fn the_first_run_that_is_long_enough() {
        assert_eq!(found("..##..##.##.......", 0..18), Found::Burst(6..11));
        assert_eq!(found("..##..##..##......", 0..18), Found::Nothing);
        assert_eq!(found(".....#####", 0..10), Found::Burst(5..10));
        assert_eq!(found("", 0..9), Found::Nothing);
    }

    #[test]
    fn it_begins_in_the_window_and_may_end_after_it() {
        assert_eq!(found("......######......", 3..8), Found::Burst(6..12));
        assert_eq!(found("......######......", 3..6), Found::Nothing);
        assert_eq!(found("......######......", 8..18), Found::BeforeWindow);
        assert_eq!(found(".....##.####......", 8..18), Found::BeforeWindow);
        assert_eq!(found(".....##..####.....", 8..18), Found::Burst(9..13));
    }

    proptest! {
        #[test]
        fn a_burst_holds_what_it_promises(
            rectified in proptest::collection::vec(0.0f64..2.0, 0..120),
            window in (0usize..140, 0usize..140),
            hold in 1usize..8,
            dip in 0usize..4,
        ) {
            let window = window.0.min(window.1)..window.0.max(window.1);
            if let Found::Burst(found) = burst(&rectified, 1.0, window.clone(), Rule { hold, dip }) {
                prop_assert!(window.contains(&found.start) && found.len() >= hold);
                prop_assert!(rectified[found.start] > 1.0 && rectified[found.end - 1] > 1.0);
                let below = rectified[found].split(|&value| value > 1.0).map(<[f64]>::len);
                prop_assert!(below.max().unwrap_or(0) <= dip);
            }
        }
    }
}
