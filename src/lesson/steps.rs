//! The order in which a cycle is read.
//!
//! R first: it is the tallest and sharpest point, so nobody misses it, and every other point is
//! found by its side of R. Then the other peaks, which are seen without judging a baseline. The
//! boundaries come last, in the order of the electrical events: they need an eye for where a wave
//! leaves the baseline, and the peaks say where to look. Common practice; no source ranks the orders.

use crate::signal::Landmark;
use serde::{Deserialize, Serialize};

/// One step of the reading.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Step {
    /// Choose the beat to read.
    #[default]
    ChooseBeat,
    /// Place one point of the cycle.
    Place(Landmark),
    /// Compare what came out.
    Results,
}

impl Step {
    /// All steps, in order.
    pub const ALL: [Self; 13] = [
        Self::ChooseBeat,
        Self::Place(Landmark::R),
        Self::Place(Landmark::Q),
        Self::Place(Landmark::S),
        Self::Place(Landmark::PPeak),
        Self::Place(Landmark::TPeak),
        Self::Place(Landmark::POnset),
        Self::Place(Landmark::PEnd),
        Self::Place(Landmark::QrsOnset),
        Self::Place(Landmark::QrsEnd),
        Self::Place(Landmark::TOnset),
        Self::Place(Landmark::TEnd),
        Self::Results,
    ];

    /// Where it comes in [`Self::ALL`], the first being 0.
    pub fn position(self) -> usize {
        Self::ALL.iter().position(|&step| step == self).unwrap_or_default()
    }

    /// The step after this one; none after the results.
    pub fn next(self) -> Option<Self> {
        Self::ALL.get(self.position() + 1).copied()
    }

    /// The step before this one; none before the choice of a beat.
    pub fn back(self) -> Option<Self> {
        Self::ALL.get(self.position().checked_sub(1)?).copied()
    }

    /// The key of its heading.
    pub fn title_key(self) -> String {
        match self {
            Self::ChooseBeat => "lesson.steps.choose_beat".to_owned(),
            Self::Place(landmark) => format!("landmarks.{}.name", landmark.key()),
            Self::Results => "lesson.steps.results".to_owned(),
        }
    }

    /// The point that is placed in this step.
    pub const fn landmark(self) -> Option<Landmark> {
        match self {
            Self::Place(landmark) => Some(landmark),
            Self::ChooseBeat | Self::Results => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_landmark_has_exactly_one_step() {
        for landmark in Landmark::ALL {
            let steps = Step::ALL.iter().filter(|step| step.landmark() == Some(landmark));
            assert_eq!(steps.count(), 1, "{landmark:?}");
        }
    }

    #[test]
    fn walking_forward_and_back_meets_every_step() {
        let forward: Vec<_> =
            std::iter::successors(Some(Step::ChooseBeat), |step| step.next()).collect();
        let mut back: Vec<_> =
            std::iter::successors(Some(Step::Results), |step| step.back()).collect();
        back.reverse();
        assert_eq!(forward, Step::ALL);
        assert_eq!(back, Step::ALL);
    }
}
