//! The points between which phases run, and the phases that follow from them.

use super::{ElectricalPhase, Gap, MechanicalPhase, Stretch, TypicalTime, Unmoved};
use crate::signal::{BeatsPerMinute, Landmark, Milliseconds};

/// The boundaries of a cycle that are known and come in their order.
pub(super) struct Boundaries {
    at: Vec<(Landmark, Milliseconds)>,
    end: Option<Milliseconds>,
}

impl Boundaries {
    /// Takes the boundaries among the points of a cycle; one that comes before its predecessor is left
    /// out. `end` is that of the cycle, when there is a next beat.
    pub(super) fn of(points: &[(Landmark, Milliseconds)], end: Option<Milliseconds>) -> Self {
        let mut at: Vec<(Landmark, Milliseconds)> = Vec::new();
        for phase in ElectricalPhase::ALL {
            let found = points.iter().find(|(landmark, _)| *landmark == phase.begins_at());
            let in_order = |time| at.last().is_none_or(|(_, before)| *before <= time);
            if let Some(&(landmark, time)) = found
                && in_order(time)
            {
                at.push((landmark, time));
            }
        }
        Self { at, end }
    }

    fn at(&self, landmark: Landmark) -> Option<Milliseconds> {
        self.at.iter().find(|(known, _)| *known == landmark).map(|(_, time)| *time)
    }

    /// The electrical phases with both ends known and some length.
    pub(super) fn phases(&self) -> Vec<Stretch<ElectricalPhase>> {
        let stretch = |phase: ElectricalPhase| {
            let (start, end) = self.ends_of(phase);
            let (start, end) = (start?, end?);
            (start < end).then_some(Stretch { phase: Some(phase), start, end })
        };
        ElectricalPhase::ALL.into_iter().filter_map(stretch).collect()
    }

    /// The electrical phases of which an end is not known.
    pub(super) fn gaps(&self) -> Vec<Gap> {
        let gap = |phase: ElectricalPhase| {
            let (start, end) = self.ends_of(phase);
            let start_missing = start.is_none().then_some(phase.begins_at());
            let end_missing = if end.is_none() { phase.ends_at() } else { None };
            let waits_for: Vec<Landmark> = start_missing.into_iter().chain(end_missing).collect();
            (start.is_none() || end.is_none()).then_some(Gap { phase, waits_for })
        };
        ElectricalPhase::ALL.into_iter().filter_map(gap).collect()
    }

    fn ends_of(&self, phase: ElectricalPhase) -> (Option<Milliseconds>, Option<Milliseconds>) {
        let end = match phase.ends_at() {
            Some(landmark) => self.at(landmark),
            None => self.end,
        };
        (self.at(phase.begins_at()), end)
    }

    /// The mechanical phases at typical delays after P onset and QRS onset. Without P onset, what comes
    /// before QRS is not told.
    pub(super) fn mechanics(
        &self,
        rate: Option<BeatsPerMinute>,
    ) -> Result<Vec<Stretch<MechanicalPhase>>, Unmoved> {
        let qrs = self.at(Landmark::QrsOnset).ok_or(Unmoved::NoQrsOnset)?;
        let (Some(rate), Some(end)) = (rate, self.end) else { return Err(Unmoved::NoRate) };
        if !TypicalTime::hold_at(rate) {
            return Err(Unmoved::NotAtRest);
        }
        let after = |start: Milliseconds, time: TypicalTime| start + time.at(rate);
        let mut begins = Vec::new();
        if let Some(p) = self.at(Landmark::POnset) {
            let contraction = after(p, TypicalTime::AtrialDelay);
            let relaxation = after(contraction, TypicalTime::AtrialSystole);
            begins.extend([
                (MechanicalPhase::Filling, p),
                (MechanicalPhase::AtrialSystole, contraction),
                (MechanicalPhase::EndOfFilling, relaxation),
            ]);
        } else {
            begins.push((MechanicalPhase::EndOfFilling, qrs));
        }
        let outlets_shut = after(qrs, TypicalTime::OutletsShut);
        begins.extend([
            (MechanicalPhase::IsovolumetricContraction, after(qrs, TypicalTime::InletsShut)),
            (MechanicalPhase::Ejection, after(qrs, TypicalTime::OutletsOpen)),
            (MechanicalPhase::IsovolumetricRelaxation, outlets_shut),
            (MechanicalPhase::Filling, after(outlets_shut, TypicalTime::IsovolumetricRelaxation)),
        ]);
        Ok(one_after_another(&begins, end))
    }
}

/// Stretches from one beginning to the next; a beginning that comes late gives way to the one after it.
fn one_after_another(
    begins: &[(MechanicalPhase, Milliseconds)],
    end: Milliseconds,
) -> Vec<Stretch<MechanicalPhase>> {
    let stretch = |(place, &(phase, start)): (usize, &(MechanicalPhase, Milliseconds))| {
        let later = begins.iter().skip(place + 1).map(|(_, start)| start.milliseconds());
        let next = later.fold(end.milliseconds(), f64::min);
        let end = Milliseconds::new(next);
        (start < end).then_some(Stretch { phase: Some(phase), start, end })
    };
    begins.iter().enumerate().filter_map(stretch).collect()
}
