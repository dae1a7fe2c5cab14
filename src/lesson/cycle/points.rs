//! The points of one cycle that may be used: those the student has settled.
//!
//! A point that is still to be placed stays unknown, so that the heart never gives an answer away. A
//! settled point lies where the student's mark was found right, or where the analysis puts it once the
//! worked answer was shown. How long the cycle is comes from the analysis: from a point of this beat to
//! the same point of the next, P onset first, else QRS onset, else R.

use super::super::{Answer, Evidence, Placement, Session};
use crate::signal::{Landmark, Landmarks, SampleIndex, SampleRate};

/// The points that say how far it is to the next beat, the best one first.
const ANCHORS: [Landmark; 3] = [Landmark::POnset, Landmark::QrsOnset, Landmark::R];

/// The same point in this beat and in the next, as the analysis found them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Following {
    /// In this beat.
    pub here: SampleIndex,
    /// In the next.
    pub next: SampleIndex,
}

/// What is known of one cycle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CyclePoints {
    /// The points that may be used.
    pub known: Landmarks,
    /// How far it is to the next beat; `None` without one.
    pub following: Option<Following>,
    /// Samples a second.
    pub rate: SampleRate,
}

impl CyclePoints {
    /// What the student has settled of the chosen beat; `None` without a beat or any settled point.
    pub fn settled(session: &Session, evidence: Evidence<'_>) -> Option<Self> {
        let (place, beat) = evidence.chosen(session)?;
        let mut known = Landmarks::default();
        for placement in session.placements().filter(|placement| placement.is_done()) {
            let computed = beat.landmarks.at(placement.landmark);
            known.set(placement.landmark, settled_at(placement, computed));
        }
        known.iter().next()?;
        let next = evidence.series().next(place);
        let following = next.and_then(|next| {
            ANCHORS.into_iter().find_map(|anchor| {
                let (here, next) = (beat.landmarks.at(anchor)?, next.landmarks.at(anchor)?);
                (here < next).then_some(Following { here, next })
            })
        });
        let by_r = || next.map(|next| Following { here: beat.r, next: next.r });
        let following = following.or_else(by_r);
        Some(Self { known, following, rate: evidence.recording.rate })
    }
}

/// Where a settled point lies.
fn settled_at(placement: &Placement, computed: Option<SampleIndex>) -> Option<SampleIndex> {
    let settled = placement.tries.iter().rev().find(|one| one.verdict.is_settled());
    match settled {
        Some(one) => Answer::sample(one.answer),
        None => computed,
    }
}
