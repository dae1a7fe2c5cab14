//! A number with the interval that holds the true one, and the first two moments of a sample.
//!
//! The interval of a mean is mean ± t·s/√n with Student's t of n - 1 (Student 1908, Biometrika 6:1). It
//! takes the values to be a random sample of a normal population, which a class seldom is.

use super::student::coverage;
use crate::words::{Language, decimal, say_with};
use serde::{Deserialize, Serialize};

/// A number and the interval that holds the true one in 95 of 100 such samples.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The number.
    pub value: f64,
    /// The lower end of the interval.
    pub low: f64,
    /// The upper end of the interval.
    pub high: f64,
}

impl Estimate {
    /// A number in the middle of its interval.
    pub fn around(value: f64, half_width: f64) -> Self {
        Self { value, low: value - half_width, high: value + half_width }
    }

    /// From the number to the upper end.
    pub fn half_width(self) -> f64 {
        self.high - self.value
    }

    /// The number with its interval in brackets.
    pub fn in_words(self, decimals: usize, language: Language) -> String {
        let [value, low, high] =
            [self.value, self.low, self.high].map(|value| decimal(language, value, decimals));
        let places = [("value", &*value), ("low", &*low), ("high", &*high)];
        say_with(language, "recovery.table.with_interval", &places)
    }

    /// Whether the interval holds a value.
    pub fn holds(self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

/// How many values, where their middle is and how far they scatter.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Moments {
    /// How many values.
    pub n: usize,
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation (n - 1); `None` of a single value.
    pub deviation: Option<f64>,
}

impl Moments {
    /// The moments of some values; `None` of none.
    pub fn of(values: &[f64]) -> Option<Self> {
        let finite: Vec<f64> = values.iter().copied().filter(|value| value.is_finite()).collect();
        let n = finite.len();
        if n == 0 {
            return None;
        }
        let mean = finite.iter().sum::<f64>() / n as f64;
        let squares: f64 = finite.iter().map(|value| (value - mean).powi(2)).sum();
        let deviation = (n > 1).then(|| (squares / (n - 1) as f64).sqrt());
        Some(Self { n, mean, deviation })
    }

    /// The standard deviation of the mean, s/√n; `None` of a single value.
    pub fn standard_error(self) -> Option<f64> {
        Some(self.deviation? / (self.n as f64).sqrt())
    }

    /// The mean with its 95 % interval; `None` of a single value.
    pub fn mean_interval(self) -> Option<Estimate> {
        let factor = coverage((self.n - 1) as f64)?;
        Some(Estimate::around(self.mean, factor * self.standard_error()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_values_by_hand() {
        // Mean 5, s² = (9 + 1 + 1 + 9)/3 = 6.667, s = 2.582, s/√4 = 1.291; t of 3 is 3.182.
        let moments = Moments::of(&[2.0, 4.0, 6.0, f64::NAN, 8.0]).unwrap();
        assert_eq!((moments.n, moments.mean), (4, 5.0));
        let interval = moments.mean_interval().unwrap();
        assert!((interval.half_width() - 4.108).abs() < 1e-3, "{interval:?}");
        assert!(interval.holds(1.0) && !interval.holds(0.8));
    }

    #[test]
    fn one_value_has_no_interval_and_none_no_mean() {
        let one = Moments::of(&[7.0]).unwrap();
        assert_eq!((one.deviation, one.mean_interval()), (None, None));
        assert_eq!(Moments::of(&[f64::INFINITY]), None);
    }
}
