//! The mechanical phases of a cycle: muscle and valves. No electrode sees them.

use crate::signal::Landmark;
use crate::words::{Language, say};
use std::borrow::Cow;

/// A mechanical phase.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MechanicalPhase {
    /// The ventricles are relaxed and fill by themselves.
    Filling,
    /// The atria contract and add the last of the filling.
    AtrialSystole,
    /// The atria relax; the valves to the full ventricles are still open.
    EndOfFilling,
    /// The ventricles squeeze with all valves shut.
    IsovolumetricContraction,
    /// Blood leaves for the arteries.
    Ejection,
    /// The ventricles relax with all valves shut.
    IsovolumetricRelaxation,
}

/// Whether a pair of valves lets blood through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Valve {
    /// Open.
    Open,
    /// Shut.
    Shut,
}

impl MechanicalPhase {
    /// All of them, in the order in which they come after P.
    pub const ALL: [Self; 6] = [
        Self::Filling,
        Self::AtrialSystole,
        Self::EndOfFilling,
        Self::IsovolumetricContraction,
        Self::Ejection,
        Self::IsovolumetricRelaxation,
    ];

    /// The valves between atria and ventricles.
    pub const fn inlet_valves(self) -> Valve {
        match self {
            Self::Filling | Self::AtrialSystole | Self::EndOfFilling => Valve::Open,
            _ => Valve::Shut,
        }
    }

    /// The valves between ventricles and arteries.
    pub const fn outlet_valves(self) -> Valve {
        if matches!(self, Self::Ejection) { Valve::Open } else { Valve::Shut }
    }

    /// What it typically is at a point of the cycle, for a beat whose points are not all placed yet.
    pub const fn typically_at(landmark: Landmark) -> Self {
        match landmark {
            Landmark::POnset => Self::Filling,
            Landmark::PPeak | Landmark::PEnd => Self::AtrialSystole,
            Landmark::QrsOnset | Landmark::Q | Landmark::R => Self::EndOfFilling,
            Landmark::S | Landmark::QrsEnd => Self::IsovolumetricContraction,
            Landmark::TOnset | Landmark::TPeak | Landmark::TEnd => Self::Ejection,
        }
    }

    /// The name used in message keys and for the drawing.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Filling => "filling",
            Self::AtrialSystole => "atrial_systole",
            Self::EndOfFilling => "end_of_filling",
            Self::IsovolumetricContraction => "isovolumetric_contraction",
            Self::Ejection => "ejection",
            Self::IsovolumetricRelaxation => "isovolumetric_relaxation",
        }
    }

    /// What happens, in a sentence.
    pub fn words(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("heart.mechanical.{}", self.key()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_valves_before_and_behind_a_ventricle_are_never_open_together() {
        for phase in MechanicalPhase::ALL {
            let valves = (phase.inlet_valves(), phase.outlet_valves());
            assert_ne!(valves, (Valve::Open, Valve::Open), "{phase:?}");
        }
    }
}
