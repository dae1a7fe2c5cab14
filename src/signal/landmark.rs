//! The named points of one cardiac cycle.

use super::time::SampleIndex;
use serde::{Deserialize, Serialize};

/// A point of the cycle that can be placed on a trace, in the order in which they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Landmark {
    /// Where the P wave leaves the baseline.
    POnset,
    /// The top of the P wave.
    PPeak,
    /// Where the P wave is back at the baseline.
    PEnd,
    /// Where the QRS complex begins, with or without a Q.
    QrsOnset,
    /// The first downward deflection, before any upward one.
    Q,
    /// The first upward deflection of the QRS complex.
    R,
    /// The first downward deflection after R.
    S,
    /// Where the QRS complex ends: the J point.
    QrsEnd,
    /// Where the T wave leaves the baseline.
    TOnset,
    /// The top of the T wave.
    TPeak,
    /// Where the T wave is back at the baseline.
    TEnd,
}

impl Landmark {
    /// All of them, in the order in which they come.
    pub const ALL: [Self; 11] = [
        Self::POnset,
        Self::PPeak,
        Self::PEnd,
        Self::QrsOnset,
        Self::Q,
        Self::R,
        Self::S,
        Self::QrsEnd,
        Self::TOnset,
        Self::TPeak,
        Self::TEnd,
    ];

    /// The name used in files and message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::POnset => "p_onset",
            Self::PPeak => "p_peak",
            Self::PEnd => "p_end",
            Self::QrsOnset => "qrs_onset",
            Self::Q => "q",
            Self::R => "r",
            Self::S => "s",
            Self::QrsEnd => "qrs_end",
            Self::TOnset => "t_onset",
            Self::TPeak => "t_peak",
            Self::TEnd => "t_end",
        }
    }
}

/// Where the points of one beat lie; a point that can't be measured has no place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Landmarks([Option<SampleIndex>; 11]);

impl Landmarks {
    /// Where a point lies, or `None` where it can't be measured.
    pub const fn at(&self, landmark: Landmark) -> Option<SampleIndex> {
        self.0[landmark as usize]
    }

    /// Puts a point somewhere, or takes it away.
    pub const fn set(&mut self, landmark: Landmark, at: Option<SampleIndex>) {
        self.0[landmark as usize] = at;
    }

    /// The points that have a place, in order.
    pub fn iter(&self) -> impl Iterator<Item = (Landmark, SampleIndex)> + '_ {
        Landmark::ALL.into_iter().filter_map(|landmark| Some((landmark, self.at(landmark)?)))
    }

    /// From one point to another in samples, when both have a place and come in that order.
    pub fn between(&self, from: Landmark, to: Landmark) -> Option<usize> {
        let (from, to) = (self.at(from)?, self.at(to)?);
        to.get().checked_sub(from.get())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_without_a_place_gives_no_interval() {
        let mut beat = Landmarks::default();
        beat.set(Landmark::QrsOnset, Some(SampleIndex::new(100)));
        assert_eq!(beat.between(Landmark::POnset, Landmark::QrsOnset), None);
        beat.set(Landmark::POnset, Some(SampleIndex::new(60)));
        assert_eq!(beat.between(Landmark::POnset, Landmark::QrsOnset), Some(40));
        assert_eq!(beat.between(Landmark::QrsOnset, Landmark::POnset), None);
        assert_eq!(beat.iter().count(), 2);
    }

    #[test]
    fn the_order_of_the_list_is_the_order_of_the_type() {
        assert!(Landmark::ALL.is_sorted());
        for (place, landmark) in Landmark::ALL.into_iter().enumerate() {
            assert_eq!(landmark as usize, place);
        }
    }
}
