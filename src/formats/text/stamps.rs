//! The time column made to run forward: gaps in it filled, clocks carried over midnight, restarts found.
//!
//! Works in the file's own unit. A step back is, in this order: a clock or counter that started anew
//! (midnight, noon of a 12-hour clock, the hour of a minutes clock, 2^32, 2^16 or 2^8 of a counter); one
//! stamp out of order, which is replaced from its neighbours; jitter, when it is at most three usual
//! steps; and otherwise the start of a new run.

use std::ops::Range;

/// Stamps that run forward within each run.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Stamps {
    pub(super) times: Vec<f64>,
    /// The rows of each run, in order, none empty.
    pub(super) runs: Vec<Range<usize>>,
    /// The first row after which the clock was carried on.
    pub(super) wrapped: Option<usize>,
    /// Rows whose stamp was out of order.
    pub(super) backward: Vec<usize>,
    /// The usual step: the median of those forward.
    pub(super) step: f64,
}

/// Puts stamps in order; `None` when they do not run forward at all. `clock`: a time of day without date.
pub(super) fn order(mut times: Vec<f64>, clock: bool) -> Option<Stamps> {
    let step = usual_step(&times)?;
    fill(&mut times, step);
    let whole = !clock && times.iter().take(1000).all(|time| time.fract() == 0.0);
    let wraps: &[f64] = match (clock, whole) {
        (true, _) => &[86_400.0, 43_200.0, 3600.0],
        (_, true) if is_byte(&times, step) => &[256.0],
        (_, true) => &[4_294_967_296.0, 65_536.0],
        _ => &[],
    };
    let rows = times.len();
    let mut stamps = Stamps { step, ..Stamps::default() };
    let mut starts = vec![0];
    let mut shift = 0.0;
    let mut before = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for row in 0..rows {
        let next = times.get(row + 1).copied().unwrap_or(f64::NAN) + shift;
        let Some(time) = times.get_mut(row) else { break };
        *time += shift;
        let back = *time - before.1;
        let mut replaced = None;
        if back < 0.0 {
            let nearby = if clock { 60.0_f64.max(step * 100.0) } else { step * 100.0 };
            let is_full = |wrap: &f64| (0.0..=nearby).contains(&(back + wrap));
            if let Some(wrap) = wraps.iter().find(|wrap| is_full(wrap)) {
                shift += wrap;
                *time += wrap;
                stamps.wrapped.get_or_insert(row);
            } else if next >= before.1 && next - before.1 <= step * 20.0 && row > 0 {
                *time = f64::midpoint(before.1, next);
                stamps.backward.push(row);
            } else if *time >= before.0 && *time - before.0 <= step * 20.0 && back < -step * 3.0 {
                replaced = Some(f64::midpoint(before.0, *time));
                stamps.backward.push(row - 1);
            } else if -back > step * 3.0 {
                starts.push(row);
            }
        }
        before = (replaced.unwrap_or(before.1), *time);
        if let Some(replaced) = replaced
            && let Some(earlier) = times.get_mut(row - 1)
        {
            *earlier = replaced;
        }
    }
    if starts.len() > 20.max(rows / 50) || stamps.backward.len() > 20.max(rows / 20) {
        return None;
    }
    let ends = starts.iter().skip(1).copied().chain([rows]);
    stamps.runs = starts.iter().copied().zip(ends).map(|(start, end)| start..end).collect();
    stamps.times = times;
    Some(stamps)
}

/// Whether the stamps are the numbers of a counter of one byte.
fn is_byte(times: &[f64], step: f64) -> bool {
    step == 1.0 && times.len() > 300 && times.iter().all(|time| (0.0..256.0).contains(time))
}

/// The median of the forward steps; `None` when there are none.
pub(super) fn usual_step(times: &[f64]) -> Option<f64> {
    // Loggers that stamp only some rows leave the others empty.
    let mut known = (0..).zip(times).filter(|(_, time)| time.is_finite());
    let mut before: (u32, f64) = known.next().map(|(row, time)| (row, *time))?;
    let pairs = known.filter_map(|(row, time)| {
        let (rows, step) = (row - before.0, time - before.1);
        before = (row, *time);
        (step > 0.0).then(|| step / f64::from(rows))
    });
    let mut steps: Vec<f64> = pairs.take(50_000).collect();
    let middle = steps.len() / 2;
    if steps.is_empty() {
        return None;
    }
    let (_, step, _) = steps.select_nth_unstable_by(middle, f64::total_cmp);
    step.is_finite().then_some(*step)
}

/// Puts stamps where there are none: evenly between their neighbours, or one step on at the ends.
fn fill(times: &mut [f64], step: f64) {
    let Some(first) = times.iter().position(|time| time.is_finite()) else { return };
    let known = times.get(first).copied().unwrap_or(0.0);
    for (ahead, time) in times.iter_mut().take(first).rev().enumerate() {
        *time = known - step * (ahead + 1) as f64;
    }
    let mut last = (first, known);
    let mut at = first + 1;
    while at < times.len() {
        let Some(time) = times.get(at).copied() else { break };
        if time.is_finite() {
            let (from, value) = last;
            let each = (time - value) / (at - from) as f64;
            for (ahead, hole) in times.iter_mut().take(at).skip(from + 1).enumerate() {
                *hole = value + each * (ahead + 1) as f64;
            }
            last = (at, time);
        }
        at += 1;
    }
    for (ahead, time) in times.iter_mut().skip(last.0 + 1).enumerate() {
        *time = last.1 + step * (ahead + 1) as f64;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_goes_on_after_midnight() {
        let stamps = order(vec![86_399.0, 86_399.5, 0.0, 0.5], true).unwrap();
        assert_eq!(stamps.times, [86_399.0, 86_399.5, 86_400.0, 86_400.5]);
        assert_eq!((stamps.runs.len(), stamps.wrapped), (1, Some(2)));
    }

    #[test]
    fn one_stamp_out_of_order_is_replaced() {
        let behind = order(vec![0.0, 4.0, 8.0, 2.0, 16.0, 20.0], false).unwrap();
        assert_eq!(
            (behind.times, behind.backward),
            (vec![0.0, 4.0, 8.0, 12.0, 16.0, 20.0], vec![3])
        );
        let ahead = order(vec![0.0, 4.0, 900.0, 12.0, 16.0], false).unwrap();
        assert_eq!((ahead.times, ahead.backward), (vec![0.0, 4.0, 8.0, 12.0, 16.0], vec![2]));
    }

    #[test]
    fn going_back_for_good_begins_a_run() {
        let mut times: Vec<f64> = (0..100).map(f64::from).collect();
        times.extend((0..50).map(f64::from));
        assert_eq!(order(times, false).unwrap().runs, [0..100, 100..150]);
        let noise: Vec<f64> = (0..400).map(|row| f64::from(row * 7919 % 400)).collect();
        assert_eq!(order(noise, false), None);
    }

    #[test]
    fn missing_stamps_are_filled() {
        let n = f64::NAN;
        let stamps = order(vec![n, 4.0, n, n, 16.0, 20.0, n], false).unwrap();
        assert_eq!(stamps.times, [0.0, 4.0, 8.0, 12.0, 16.0, 20.0, 24.0]);
    }
}
