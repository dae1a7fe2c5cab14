//! Student's t: how many standard errors hold 95 of 100, and how often chance alone goes so far.
//!
//! The crate's inverse is near but not exact (three digits, by its own tests), so it is brought home by
//! Newton's method on its distribution function, which is.

use statrs::distribution::{Continuous, ContinuousCDF, StudentsT};

/// The part below the upper end of a two-sided 95 % interval.
const UPPER: f64 = 0.975;

/// How many standard errors on both sides hold 95 of 100, with so many degrees of freedom; `None` unless
/// there are any.
pub fn coverage(degrees_of_freedom: f64) -> Option<f64> {
    let student = StudentsT::new(0.0, 1.0, degrees_of_freedom).ok()?;
    let near = student.inverse_cdf(UPPER);
    let home = (0..4).fold(near, |t, _| t - (student.cdf(t) - UPPER) / student.pdf(t));
    home.is_finite().then_some(home)
}

/// How often chance alone gives a t so far from 0 on either side; `None` without degrees of freedom or
/// where t is not a number.
pub fn two_sided_p(t: f64, degrees_of_freedom: f64) -> Option<f64> {
    let student = StudentsT::new(0.0, 1.0, degrees_of_freedom).ok()?;
    (!t.is_nan()).then(|| (2.0 * student.cdf(-t.abs())).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_in_every_textbook() {
        for (degrees, right) in
            [(1.0, 12.706), (2.0, 4.303), (3.0, 3.182), (9.0, 2.262), (30.0, 2.042), (500.0, 1.965)]
        {
            let found = coverage(degrees).unwrap();
            assert!((found - right).abs() < 6e-4, "{found} for {degrees}");
        }
        assert_eq!((coverage(0.0), coverage(f64::NAN)), (None, None));
    }

    #[test]
    fn p_is_that_of_both_sides() {
        assert!((two_sided_p(-2.262_157, 9.0).unwrap() - 0.05).abs() < 1e-6);
        assert!((two_sided_p(0.0, 5.0).unwrap() - 1.0).abs() < 1e-12);
        assert_eq!(two_sided_p(f64::NAN, 5.0), None);
    }
}
