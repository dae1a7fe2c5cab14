//! Whether a curve may be laid through a recovery at all, and which.
//!
//! A fit always gives numbers; these rules say when they mean something (all of them common practice):
//! at least [`NEEDED`] intervals count; recovery was followed for at least [`SHORTEST_FOLLOWED`] and for one
//! time constant; the rate falls by more than the last third of it wavers; the time constant is no shorter
//! than a beat or two, and its 95 % interval is no wider than itself.

use super::exponential::{Exponential, SHORTEST};
use super::no_number::{NoNumber, Side};
use crate::inquiry::stats::{FiveNumbers, Moments};

/// The fewest intervals that have to count.
const NEEDED: usize = 20;
/// The shortest recovery that is looked at, s.
const SHORTEST_FOLLOWED: f64 = 20.0;
/// The start of recovery, s, that is held against its last third.
const START: f64 = 5.0;

/// The curve through moments in s after the end of exercise, in order, and rates in 1/min.
///
/// # Errors
/// [`NoNumber`] where a curve would say nothing.
pub fn recovery_curve(points: &[(f64, f64)]) -> Result<Exponential, NoNumber> {
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return Err(NoNumber::Empty(Side::Recovery));
    };
    let followed = last.0 - first.0;
    if followed < SHORTEST_FOLLOWED {
        return Err(NoNumber::TooShort { followed });
    }
    if points.len() < NEEDED {
        let (found, needed) = (points.len(), NEEDED);
        return Err(NoNumber::TooFewBeats { side: Side::Recovery, found, needed });
    }
    if !falls(points, first.0, last.0) {
        return Err(NoNumber::DoesNotFall);
    }
    let fit = Exponential::through(points).ok_or(NoNumber::TooLoose)?;
    let time_constant = fit.time_constant.estimate;
    if fit.rise.estimate.value <= 0.0 {
        return Err(NoNumber::DoesNotFall);
    }
    if time_constant.value > followed {
        return Err(NoNumber::TooShort { followed });
    }
    if time_constant.value < 1.02 * SHORTEST {
        return Err(NoNumber::TooSudden);
    }
    if 2.0 * time_constant.half_width() > time_constant.value {
        return Err(NoNumber::TooLoose);
    }
    Ok(fit)
}

/// Whether the middle of the start lies above that of the last third by more than the latter scatters.
fn falls(points: &[(f64, f64)], from: f64, to: f64) -> bool {
    let rates = |low: f64, high: f64| -> Vec<f64> {
        let within = points.iter().filter(|point| (low..=high).contains(&point.0));
        within.map(|point| point.1).collect()
    };
    let (start, end) = (rates(from, from + START), rates(to - (to - from) / 3.0, to));
    let middle = |rates: &[f64]| FiveNumbers::of(rates).map(|five| five.median);
    let scatter = Moments::of(&end).and_then(|end| end.deviation).unwrap_or_default();
    middle(&start).zip(middle(&end)).is_some_and(|(start, end)| start - end > scatter)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beats as they come on a curve, with a swing of so much a minute, ten breaths a minute.
    fn beats(seconds: f64, swing: f64, rate: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        let mut points = Vec::new();
        let mut now = 0.0;
        while now < seconds {
            let value = rate(now) + swing * (now * std::f64::consts::TAU / 6.0).sin();
            points.push((now, value));
            now += 60.0 / value;
        }
        points
    }

    fn down(tau: f64) -> impl Fn(f64) -> f64 {
        move |t: f64| 78.0 + 70.0 * (-t / tau).exp()
    }

    #[test]
    fn a_recovery_followed_long_enough_has_a_curve() {
        let fit = recovery_curve(&beats(120.0, 2.0, down(40.0))).unwrap();
        assert!(fit.time_constant.estimate.holds(40.0), "{fit:?}");
    }

    #[test]
    fn each_refusal_has_its_reason() {
        let refusal = |points: &[(f64, f64)]| recovery_curve(points).unwrap_err();
        assert_eq!(refusal(&[]), NoNumber::Empty(Side::Recovery));
        let short = refusal(&beats(15.0, 1.0, down(40.0)));
        assert!(matches!(short, NoNumber::TooShort { followed } if followed < 15.0));
        let shorter_than_tau = refusal(&beats(60.0, 0.3, down(150.0)));
        assert!(matches!(shorter_than_tau, NoNumber::TooShort { .. }), "{shorter_than_tau:?}");
        let few: Vec<(f64, f64)> = beats(60.0, 1.0, down(20.0)).into_iter().step_by(9).collect();
        let needed = NEEDED;
        let too_few = NoNumber::TooFewBeats { side: Side::Recovery, found: few.len(), needed };
        assert_eq!(refusal(&few), too_few);
        assert_eq!(refusal(&beats(120.0, 3.0, |_| 75.0)), NoNumber::DoesNotFall);
        assert_eq!(refusal(&beats(120.0, 1.0, |t| 75.0 + t / 4.0)), NoNumber::DoesNotFall);
        let cliff = |t: f64| if t < 5.5 { 150.0 } else { 80.0 };
        let points: Vec<(f64, f64)> = beats(60.0, 0.5, cliff).split_off(10);
        assert!(recovery_curve(&points).is_err());
        let loose = refusal(&beats(60.0, 16.0, |t| 80.0 + 24.0 * (-t / 40.0).exp()));
        assert!(matches!(
            loose,
            NoNumber::TooLoose | NoNumber::DoesNotFall | NoNumber::TooShort { .. }
        ));
    }
}
