//! What the heart does at one moment of a cycle.
//!
//! Inside QRS the trace tells no stages: septum, walls and base each take a third of it, in their true
//! order (texts on septal activation), at a pace drawn for show. So is the lead of the sinus node.

use super::timeline::SAME;
use super::{
    Conduction, ElectricalPhase, MechanicalPhase, Stretch, Timeline, TypicalTime, Unmoved,
};
use crate::signal::{BeatsPerMinute, Landmark, Milliseconds};

/// How long before P the sinus node is drawn as firing. Nothing at the skin tells; for show.
const SINUS_LEAD_MS: f64 = 40.0;

/// What goes on at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// Electrically; `None` where the points around it are not known.
    pub electrical: Option<ElectricalPhase>,
    /// How far the signal has come; `None` where that is not known.
    pub conduction: Option<Conduction>,
    /// Mechanically, typically; `None` where that can't be told.
    pub mechanical: Option<MechanicalPhase>,
}

impl Moment {
    pub(super) fn of(timeline: &Timeline, moment: Milliseconds) -> Self {
        let length = timeline.length().milliseconds();
        // `max` takes the number when the other is none.
        let at = moment.milliseconds().max(0.0).min(length);
        let electrical = stretch_at(&timeline.electrical, at);
        let mechanical = match &timeline.mechanical {
            Ok(row) => stretch_at(row, at).and_then(|stretch| stretch.phase),
            Err(_) => None,
        };
        let point = nearest_point(timeline, at);
        let told = electrical.and_then(|stretch| Some((stretch.phase?, stretch)));
        let typical = |point| match timeline.mechanical {
            Err(Unmoved::NotAtRest) => None,
            _ => Some(MechanicalPhase::typically_at(point)),
        };
        Self {
            electrical: told.map(|(phase, _)| phase).or(point.map(ElectricalPhase::at)),
            conduction: told
                .map(|(phase, stretch)| conduction(phase, &stretch, at))
                .or(point.map(Conduction::at)),
            mechanical: mechanical.or_else(|| point.and_then(typical)),
        }
    }
}

fn stretch_at<P: Copy>(row: &[Stretch<P>], at: f64) -> Option<Stretch<P>> {
    let after = row.iter().rev().find(|stretch| stretch.start.milliseconds() <= at);
    after.or(row.first()).copied()
}

/// A known point at this very moment.
fn nearest_point(timeline: &Timeline, at: f64) -> Option<Landmark> {
    let here = |time: Milliseconds| (time.milliseconds() - at).abs() <= SAME;
    timeline.points.iter().find(|(_, time)| here(*time)).map(|(landmark, _)| *landmark)
}

fn conduction(phase: ElectricalPhase, stretch: &Stretch<ElectricalPhase>, at: f64) -> Conduction {
    let (start, end) = (stretch.start.milliseconds(), stretch.end.milliseconds());
    // Both times are the same at every rate.
    let typical = |time: TypicalTime| time.at(BeatsPerMinute::new(0.0)).milliseconds();
    match phase {
        ElectricalPhase::AtrialDepolarisation => {
            if at - start < typical(TypicalTime::AvNodeReached) {
                Conduction::Atria
            } else {
                Conduction::AtriaAndAvNode
            }
        }
        ElectricalPhase::AvDelay => {
            if end - at > typical(TypicalTime::Bundle) {
                Conduction::AvNode
            } else {
                Conduction::Bundle
            }
        }
        ElectricalPhase::VentricularDepolarisation => match 3.0 * (at - start) / (end - start) {
            ..1.0 => Conduction::Septum,
            1.0..2.0 => Conduction::Walls,
            _ => Conduction::Base,
        },
        ElectricalPhase::Plateau => Conduction::Plateau,
        ElectricalPhase::VentricularRepolarisation => Conduction::Repolarising,
        ElectricalPhase::Rest => {
            if end - at > SINUS_LEAD_MS {
                Conduction::Rest
            } else {
                Conduction::SinusNode
            }
        }
    }
}
