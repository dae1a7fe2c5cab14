//! Round values along an axis, and how they are written.

use crate::words::{Language, decimal};

/// Steps of the time axis, s: boxes of ECG paper below a second, a clock's steps above.
const TIME_STEPS: [f64; 20] = [
    0.004, 0.02, 0.04, 0.2, 0.4, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0,
    1200.0, 1800.0, 3600.0, 7200.0, 21_600.0,
];

/// More lines than any drawing has pixels.
const MOST: i64 = 100_000;

/// Round values from one end of an axis to the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ticks {
    step: f64,
    first: i64,
    last: i64,
}

impl Ticks {
    /// Multiples of a step between two values; at most [`MOST`], and none when the step is not a
    /// number above 0.
    pub(super) fn every(step: f64, from: f64, to: f64) -> Self {
        if !step.is_normal() || step < 0.0 {
            return Self { step: 1.0, first: 0, last: -1 };
        }
        // `as` saturates, and turns NaN into 0.
        let (first, last) = ((from / step).ceil() as i64, (to / step).floor() as i64);
        Self { step, first, last: last.min(first.saturating_add(MOST)) }
    }

    /// Moments, s, at least `room` seconds apart.
    pub(super) fn of_time(from: f64, to: f64, room: f64) -> Self {
        let step = TIME_STEPS.into_iter().find(|&step| step >= room).unwrap_or(86_400.0);
        Self::every(step, from, to)
    }

    /// Values at least `room` apart: 1, 2 or 5 times a power of ten.
    pub(super) fn of_value(from: f64, to: f64, room: f64) -> Self {
        Self::of_steps(&[1.0, 2.0, 5.0, 10.0], from, to, room)
    }

    /// Voltages at least `room` mV apart that lie on lines of ECG paper: 1 or 5 times a power of ten.
    pub(super) fn of_millivolts(from: f64, to: f64, room: f64) -> Self {
        Self::of_steps(&[1.0, 5.0, 10.0], from, to, room)
    }

    fn of_steps(steps: &[f64], from: f64, to: f64, room: f64) -> Self {
        let power = 10f64.powf(room.log10().floor());
        let step = steps
            .iter()
            .map(|times| times * power)
            // A hair less: 0.1 + 0.2 is not 0.3.
            .find(|&step| step >= room * (1.0 - 1e-9))
            .unwrap_or(10.0 * power);
        Self::every(step, from, to)
    }

    /// From one value to the next.
    pub(super) const fn step(self) -> f64 {
        self.step
    }

    /// The values, lowest first.
    pub(super) fn values(self) -> impl Iterator<Item = f64> {
        (self.first..=self.last).map(move |count| count as f64 * self.step)
    }

    /// A value with as many decimals as tell two steps apart.
    pub(super) fn written(self, language: Language, value: f64) -> String {
        let whole = |decimals: i32| {
            let scaled = self.step * 10f64.powi(decimals);
            (scaled - scaled.round()).abs() < 1e-6 * scaled.max(1e-3)
        };
        let decimals = (0..9).find(|&decimals| whole(decimals)).unwrap_or(9);
        decimal(language, value, decimals as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(ticks: Ticks) -> Vec<String> {
        ticks.values().map(|value| ticks.written(Language::English, value)).collect()
    }

    #[test]
    fn steps_are_round() {
        assert_eq!(written(Ticks::of_value(-0.6, 1.1, 0.3)), ["\u{2212}0.5", "0.0", "0.5", "1.0"]);
        assert_eq!(
            written(Ticks::of_millivolts(-0.6, 1.1, 0.12)),
            ["\u{2212}0.5", "0.0", "0.5", "1.0"]
        );
        assert_eq!(written(Ticks::of_value(-90.0, 140.0, 60.0)), ["0", "100"]);
        assert_eq!(written(Ticks::of_time(0.9, 1.7, 0.15)), ["1.0", "1.2", "1.4", "1.6"]);
        assert_eq!(written(Ticks::of_time(0.0, 3600.0, 900.0)), ["0", "1200", "2400", "3600"]);
        assert_eq!(written(Ticks::of_time(0.03, 0.09, 0.03)), ["0.04", "0.08"]);
    }

    #[test]
    fn impossible_axes_have_no_ticks() {
        for room in [0.0, f64::NAN, f64::INFINITY] {
            assert_eq!(Ticks::of_value(0.0, 1.0, room).values().count(), 0, "{room}");
        }
        assert_eq!(Ticks::every(0.1, 1.0, 0.0).values().count(), 0);
        assert!(Ticks::every(1.0, f64::NEG_INFINITY, f64::INFINITY).values().count() < 200_000);
    }
}
