//! The electrical phases of a cycle, as a trace shows them, and the place on the conduction path.

use crate::signal::Landmark;
use crate::words::{Language, say};
use std::borrow::Cow;

/// An electrical phase, in the order in which they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ElectricalPhase {
    /// The atria depolarise: the P wave.
    AtrialDepolarisation,
    /// The AV node holds the signal back: the PR segment.
    AvDelay,
    /// The septum and the ventricles depolarise: QRS.
    VentricularDepolarisation,
    /// The ventricles stay depolarised: the ST segment.
    Plateau,
    /// The ventricles repolarise: the T wave.
    VentricularRepolarisation,
    /// All is at rest: from T to the next cycle.
    Rest,
}

impl ElectricalPhase {
    /// All of them, in order.
    pub const ALL: [Self; 6] = [
        Self::AtrialDepolarisation,
        Self::AvDelay,
        Self::VentricularDepolarisation,
        Self::Plateau,
        Self::VentricularRepolarisation,
        Self::Rest,
    ];

    /// The point at which it begins.
    pub const fn begins_at(self) -> Landmark {
        match self {
            Self::AtrialDepolarisation => Landmark::POnset,
            Self::AvDelay => Landmark::PEnd,
            Self::VentricularDepolarisation => Landmark::QrsOnset,
            Self::Plateau => Landmark::QrsEnd,
            Self::VentricularRepolarisation => Landmark::TOnset,
            Self::Rest => Landmark::TEnd,
        }
    }

    /// The point at which it ends; rest ends with the cycle.
    pub const fn ends_at(self) -> Option<Landmark> {
        match self {
            Self::AtrialDepolarisation => Some(Landmark::PEnd),
            Self::AvDelay => Some(Landmark::QrsOnset),
            Self::VentricularDepolarisation => Some(Landmark::QrsEnd),
            Self::Plateau => Some(Landmark::TOnset),
            Self::VentricularRepolarisation => Some(Landmark::TEnd),
            Self::Rest => None,
        }
    }

    /// The phase that a point of the cycle lies in, or begins.
    pub const fn at(landmark: Landmark) -> Self {
        match landmark {
            Landmark::POnset | Landmark::PPeak => Self::AtrialDepolarisation,
            Landmark::PEnd => Self::AvDelay,
            Landmark::QrsOnset | Landmark::Q | Landmark::R | Landmark::S => {
                Self::VentricularDepolarisation
            }
            Landmark::QrsEnd => Self::Plateau,
            Landmark::TOnset | Landmark::TPeak => Self::VentricularRepolarisation,
            Landmark::TEnd => Self::Rest,
        }
    }

    /// The name used in message keys.
    pub const fn key(self) -> &'static str {
        match self {
            Self::AtrialDepolarisation => "atrial_depolarisation",
            Self::AvDelay => "av_delay",
            Self::VentricularDepolarisation => "ventricular_depolarisation",
            Self::Plateau => "plateau",
            Self::VentricularRepolarisation => "ventricular_repolarisation",
            Self::Rest => "rest",
        }
    }

    /// The part of the trace that it makes, in the trade's letters.
    pub const fn letters(self) -> &'static str {
        match self {
            Self::AtrialDepolarisation => "P",
            Self::AvDelay => "PR",
            Self::VentricularDepolarisation => "QRS",
            Self::Plateau => "ST",
            Self::VentricularRepolarisation => "T",
            Self::Rest => "TP",
        }
    }

    /// What happens, in a sentence.
    pub fn words(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("heart.electrical.{}", self.key()))
    }
}

/// How far the signal has come on its way through the heart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Conduction {
    /// The sinus node fires.
    SinusNode,
    /// It spreads over the atria.
    Atria,
    /// It has reached the AV node, and the last of the atria.
    AtriaAndAvNode,
    /// The AV node holds it back.
    AvNode,
    /// The bundle and its branches carry it down.
    Bundle,
    /// The septum depolarises, from left to right.
    Septum,
    /// The walls depolarise, from the inside out.
    Walls,
    /// The base of the ventricles depolarises last.
    Base,
    /// All of the ventricles are depolarised.
    Plateau,
    /// The ventricles repolarise.
    Repolarising,
    /// Nothing is on its way.
    Rest,
}

impl Conduction {
    /// How far it is at a point of the cycle.
    pub const fn at(landmark: Landmark) -> Self {
        match landmark {
            Landmark::POnset => Self::SinusNode,
            Landmark::PPeak => Self::AtriaAndAvNode,
            Landmark::PEnd => Self::AvNode,
            Landmark::QrsOnset | Landmark::Q => Self::Septum,
            Landmark::R => Self::Walls,
            Landmark::S => Self::Base,
            Landmark::QrsEnd => Self::Plateau,
            Landmark::TOnset | Landmark::TPeak => Self::Repolarising,
            Landmark::TEnd => Self::Rest,
        }
    }

    /// The name used for the drawing.
    pub const fn key(self) -> &'static str {
        match self {
            Self::SinusNode => "sinus_node",
            Self::Atria => "atria",
            Self::AtriaAndAvNode => "atria_and_av_node",
            Self::AvNode => "av_node",
            Self::Bundle => "bundle",
            Self::Septum => "septum",
            Self::Walls => "walls",
            Self::Base => "base",
            Self::Plateau => "plateau",
            Self::Repolarising => "repolarising",
            Self::Rest => "rest",
        }
    }
}
