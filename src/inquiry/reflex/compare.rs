//! Two conditions held against each other: reinforced against not, or voluntary against reflex.
//!
//! Taps of one person in two conditions are not paired, so the means are compared by Welch's interval. They are
//! no sample of people: what holds for these taps need not hold for anybody else. Amplitudes are compared only
//! in the same unit.

use super::Reflexes;
use crate::inquiry::stats::Independent;

/// The second condition less the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparison {
    /// Latency, ms; `None` when a condition has no answer.
    pub latency_ms: Option<Independent>,
    /// Root mean square over the burst; `None` also in different units.
    pub rms: Option<Independent>,
    /// The mean root mean square of the second over that of the first.
    pub rms_ratio: Option<f64>,
}

/// Compares two conditions.
pub fn compare(first: &Reflexes, second: &Reflexes) -> Comparison {
    let latencies = |one: &Reflexes| -> Vec<f64> {
        one.responses().map(|response| response.latency.milliseconds()).collect()
    };
    let sizes =
        |one: &Reflexes| -> Vec<f64> { one.responses().map(|response| response.rms).collect() };
    let rms = Independent::of(&sizes(first), &sizes(second)).filter(|_| first.unit == second.unit);
    Comparison {
        latency_ms: Independent::of(&latencies(first), &latencies(second)),
        rms,
        rms_ratio: rms
            .map(|rms| rms.second.mean / rms.first.mean)
            .filter(|ratio| ratio.is_finite()),
    }
}
