//! The numbers of an investigation for other programs; the rules of `table.rs` hold.

use super::table::{harmless, number, table};
use crate::inquiry::{Breathing, Change, Fitted, Recovery, Reflexes, Role};
use crate::lesson::Sampled;

/// Digits after the point of every number.
const DECIMALS: usize = 3;

/// The same of an amplitude: a tenth of a microvolt.
const AMPLITUDE_DECIMALS: usize = 4;

/// One number and how well it is known.
#[derive(Clone, Copy, Debug, Default)]
struct Number {
    value: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
    n: Option<usize>,
}

impl Number {
    fn around(value: f64, half_width: f64) -> Self {
        let (low, high) = (Some(value - half_width), Some(value + half_width));
        Self { value: Some(value), low, high, n: None }
    }

    fn of(sampled: Option<Sampled>) -> Self {
        sampled.map_or_else(Self::default, |it| Self::around(it.value, it.expanded_uncertainty))
    }

    fn fitted(fitted: Fitted, n: usize) -> Self {
        let estimate = fitted.estimate;
        let (value, low, high) = (Some(estimate.value), Some(estimate.low), Some(estimate.high));
        Self { value, low, high, n: Some(n) }
    }
}

/// A recovery, one row a number: `low` and `high` hold the true value in about 95 of 100 such recordings.
/// What can't be given is empty.
pub fn recovery_csv(student: &str, recovery: &Recovery) -> String {
    let head = ["student", "condition", "quantity", "unit", "value", "low", "high", "n"];
    let mut rows: Vec<(&str, String, &str, Number)> = Vec::new();
    let resting = recovery.resting.as_ref().map_or_else(
        |_| Number::default(),
        |it| Number { n: Some(it.n), ..Number::around(it.value, it.expanded_uncertainty) },
    );
    rows.push(("rest", "rate".to_owned(), "1/min", resting));
    let peak = recovery.peak.as_ref().map_or_else(
        |_| Number::default(),
        |it| Number::around(it.rate.per_minute(), it.expanded_uncertainty),
    );
    rows.push(("recovery", "peak_rate".to_owned(), "1/min", peak));
    for drop in &recovery.drops {
        let fall = drop.drop.as_ref().map_or_else(
            |_| Number::default(),
            |(_, fall)| Number::around(fall.value, fall.half_width()),
        );
        let name = format!("drop_after_{}_s", drop.after.seconds());
        rows.push(("recovery", name, "1/min", fall));
    }
    let curve = recovery.curve.as_ref().ok();
    for (name, unit, part) in [
        ("curve_levels_off_at", "1/min", curve.map(|it| (it.resting, it.n))),
        ("curve_rise", "1/min", curve.map(|it| (it.rise, it.n))),
        ("curve_time_constant", "s", curve.map(|it| (it.time_constant, it.n))),
    ] {
        let part = part.map_or_else(Number::default, |(it, n)| Number::fitted(it, n));
        rows.push(("recovery", name.to_owned(), unit, part));
    }
    for Change { quantity, rest, recovery, difference, .. } in
        recovery.changes().unwrap_or_default()
    {
        for (condition, value) in
            [("rest", rest), ("recovery", recovery), ("difference", difference)]
        {
            rows.push((condition, quantity.key().to_owned(), quantity.unit(), Number::of(value)));
        }
    }
    let written = |value| number(value, DECIMALS);
    let rows = rows.into_iter().map(|(condition, quantity, unit, it)| {
        let n = it.n.map(|n| n.to_string()).unwrap_or_default();
        let numbers = [written(it.value), written(it.low), written(it.high), n];
        let first = [harmless(student), condition.to_owned(), quantity, unit.to_owned()];
        first.into_iter().chain(numbers).collect()
    });
    table(head.map(str::to_owned).into(), rows)
}

/// Every breath of each recording, one row each, with the swing of the rate in it. One that is left out says
/// why in place of numbers.
pub fn breathing_csv(student: &str, found: &[(Role, Breathing)]) -> String {
    let head = [
        "student",
        "condition",
        "breath",
        "from_s",
        "to_s",
        "rr_longest_less_shortest_ms",
        "rate_highest_less_lowest_per_min",
        "left_out",
    ];
    let rows = found.iter().flat_map(|(role, breathing)| {
        breathing.breaths.iter().enumerate().map(move |(place, (breath, swing))| {
            let written = |value| number(value, DECIMALS);
            let swing_of = swing.as_ref().ok();
            vec![
                harmless(student),
                role.key().to_owned(),
                (place + 1).to_string(),
                written(Some(breath.start.seconds())),
                written(Some(breath.end.seconds())),
                written(swing_of.map(|it| it.rr_ms())),
                written(swing_of.map(|it| it.rate())),
                swing.as_ref().err().map(|why| why.key().to_owned()).unwrap_or_default(),
            ]
        })
    });
    table(head.map(str::to_owned).into(), rows)
}

/// Every tap of each recording, one row each, with its answer. A tap without one says why in place of numbers;
/// amplitudes are in the unit of the recording.
pub fn reflex_csv(student: &str, found: &[(Role, Reflexes)]) -> String {
    let head = [
        "student",
        "condition",
        "tap",
        "at_s",
        "latency_ms",
        "duration_ms",
        "rectified_mean",
        "rms",
        "peak_to_peak",
        "no_answer",
    ];
    let rows = found.iter().flat_map(|(role, reflexes)| {
        reflexes.taps.iter().enumerate().map(move |(place, tap)| {
            let written = |value| number(value, DECIMALS);
            let answer = tap.response.as_ref().ok();
            vec![
                harmless(student),
                role.key().to_owned(),
                (place + 1).to_string(),
                written(Some(tap.at.seconds())),
                written(answer.map(|it| it.latency.milliseconds())),
                written(answer.map(|it| it.duration.milliseconds())),
                number(answer.map(|it| it.rectified_mean), AMPLITUDE_DECIMALS),
                number(answer.map(|it| it.rms), AMPLITUDE_DECIMALS),
                number(answer.map(|it| it.peak_to_peak), AMPLITUDE_DECIMALS),
                tap.response.as_ref().err().map(|why| why.key().to_owned()).unwrap_or_default(),
            ]
        })
    });
    table(head.map(str::to_owned).into(), rows)
}
