//! How far from a point a mark still counts as right.
//!
//! Boundaries: two standard deviations of the disagreement between the referees of the CSE Working
//! Party 1985, Eur Heart J 6:815 (table 2, as quoted by Martinez et al. 2004): a student who is
//! within them disagrees with the analysis no more than the referees did with each other. Peaks and
//! the T onset have no published limit; theirs are common practice. No limit is narrower than the
//! time between two samples, because a mark can only stand on a sample.

use crate::signal::{Landmark, Milliseconds, SampleRate};
use serde::{Deserialize, Serialize};

/// A limit and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tolerance {
    /// A mark this far away is still right.
    pub right: Milliseconds,
    /// A mark this far away is still close.
    pub close: Milliseconds,
    /// Whether the limit was published, or is common practice.
    pub published: Published,
}

/// Where a limit comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Published {
    /// CSE Working Party 1985.
    CseTwoSigma,
    /// A trade rule without a source.
    CommonPractice,
}

/// How many times the limit still counts as close. Common practice.
const CLOSE: f64 = 3.0;

impl Tolerance {
    /// The limit for a point at a sampling rate.
    pub fn of(landmark: Landmark, rate: SampleRate) -> Self {
        use Published::{CommonPractice, CseTwoSigma};
        let (limit, published) = match landmark {
            Landmark::POnset => (10.2, CseTwoSigma),
            Landmark::PEnd => (12.7, CseTwoSigma),
            Landmark::QrsOnset => (6.5, CseTwoSigma),
            Landmark::QrsEnd => (11.6, CseTwoSigma),
            Landmark::TEnd => (30.6, CseTwoSigma),
            // Sharp: the top is one or two samples wide.
            Landmark::Q | Landmark::R | Landmark::S => (8.0, CommonPractice),
            // Rounded: the top is as flat as noise is high.
            Landmark::PPeak => (16.0, CommonPractice),
            Landmark::TPeak => (20.0, CommonPractice),
            // The gentlest slope of all: experts leave it out more often than not.
            Landmark::TOnset => (40.0, CommonPractice),
        };
        let right = f64::max(limit, rate.interval().to_milliseconds().milliseconds());
        Self { right: Milliseconds::new(right), close: Milliseconds::new(right * CLOSE), published }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_sample_away_is_never_out_of_reach() {
        for hz in [40.0, 100.0, 250.0, 1000.0] {
            let rate = SampleRate::new(hz).unwrap();
            for landmark in Landmark::ALL {
                let right = Tolerance::of(landmark, rate).right.milliseconds();
                assert!(right >= 1000.0 / hz, "{landmark:?} at {hz} Hz");
            }
        }
    }

    #[test]
    fn the_published_limits_stand_as_printed() {
        let rate = SampleRate::new(1000.0).unwrap();
        let published: Vec<_> = Landmark::ALL
            .into_iter()
            .map(|landmark| (landmark, Tolerance::of(landmark, rate)))
            .filter(|(_, tolerance)| tolerance.published == Published::CseTwoSigma)
            .map(|(landmark, tolerance)| (landmark, tolerance.right.milliseconds()))
            .collect();
        let table = [
            (Landmark::POnset, 10.2),
            (Landmark::PEnd, 12.7),
            (Landmark::QrsOnset, 6.5),
            (Landmark::QrsEnd, 11.6),
            (Landmark::TEnd, 30.6),
        ];
        assert_eq!(published, table);
    }
}
