//! Five numbers of a group, and which of its values lie outside.
//!
//! Quartiles by linear interpolation, number 7 of Hyndman and Fan (1996, Am Stat 50:361), as most
//! spreadsheets have them. A value is called outlying beyond 1.5 times the distance of the quartiles from
//! them (Tukey 1977, Exploratory Data Analysis): that asks to look at it, it is no reason to leave it out.

use serde::{Deserialize, Serialize};

/// How far beyond a quartile a value is outlying, in distances between the quartiles.
const FENCE: f64 = 1.5;

/// The lowest, the quartiles and the highest of some values.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FiveNumbers {
    /// The lowest.
    pub lowest: f64,
    /// A quarter lies below.
    pub lower_quartile: f64,
    /// The middle.
    pub median: f64,
    /// A quarter lies above.
    pub upper_quartile: f64,
    /// The highest.
    pub highest: f64,
}

impl FiveNumbers {
    /// Those of some values; `None` of none.
    pub fn of(values: &[f64]) -> Option<Self> {
        let mut sorted: Vec<f64> =
            values.iter().copied().filter(|value| value.is_finite()).collect();
        sorted.sort_unstable_by(f64::total_cmp);
        Some(Self {
            lowest: *sorted.first()?,
            lower_quartile: quantile(&sorted, 0.25)?,
            median: quantile(&sorted, 0.5)?,
            upper_quartile: quantile(&sorted, 0.75)?,
            highest: *sorted.last()?,
        })
    }

    /// Whether a value lies so far outside that it should be looked at.
    pub fn is_outlying(&self, value: f64) -> bool {
        let reach = FENCE * (self.upper_quartile - self.lower_quartile);
        value < self.lower_quartile - reach || value > self.upper_quartile + reach
    }
}

/// The value that a part of sorted ones lies below.
fn quantile(sorted: &[f64], part: f64) -> Option<f64> {
    let place = part * sorted.len().checked_sub(1)? as f64;
    let below = *sorted.get(place.floor() as usize)?;
    let above = *sorted.get(place.ceil() as usize)?;
    Some(below + (above - below) * place.fract())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worked_example_of_a_class() {
        // `class-summary`.
        let values = [62.0, 65.0, 68.0, 70.0, 70.0, 71.0, 74.0, 78.0, 81.0, 96.0];
        let five = FiveNumbers::of(&values).unwrap();
        assert_eq!((five.lower_quartile, five.median, five.upper_quartile), (68.5, 70.5, 77.0));
        // Fences at 68.5 - 12.75 and 77 + 12.75.
        let outlying: Vec<f64> =
            values.into_iter().filter(|&value| five.is_outlying(value)).collect();
        assert_eq!(outlying, [96.0]);
    }

    #[test]
    fn one_value_is_all_five_and_none_are_none() {
        let one = FiveNumbers::of(&[3.0, f64::NAN]).unwrap();
        assert_eq!((one.lowest, one.median, one.highest), (3.0, 3.0, 3.0));
        assert!(!one.is_outlying(3.0));
        assert_eq!(FiveNumbers::of(&[]), None);
    }
}
