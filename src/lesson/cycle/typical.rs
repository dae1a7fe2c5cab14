//! Typical times that no trace shows: delays from an electrical event to what follows it.
//!
//! They are those of resting people and carry no measurement of this student. Sources:
//!
//! | time | value | source |
//! |---|---|---|
//! | P onset to contraction of the atria | 25 ms | `OpenStax`, Anatomy and Physiology 2e, 19.2 |
//! | atrial systole | 100 ms | the same, 19.3 |
//! | P onset until the signal reaches the AV node | 50 ms | the same, 19.2 |
//! | bundle and branches, before QRS | 25 ms | the same, 19.2 |
//! | QRS onset to the shutting of the inlet valves | 60 ms (50 to 80) | echo and phonocardiogram of 49 people, Am J Cardiol 1975, PMID 1114992 (abstract: 0.06 s); range from memory |
//! | QRS onset to the opening of the outlet valves | 131 - 0.4 x rate ms | pre-ejection period, adult men, Weissler 1968, from memory; shorter in the young (Wanderman 1981, Circulation 63:204) |
//! | QRS onset to the shutting of the outlet valves | 546 - 2.1 x rate ms | electromechanical systole, the same |
//! | relaxation with all valves shut | 70 ms (58 to 82) | from memory, echocardiography texts |
//!
//! The rates are those at which the lines were drawn: people at rest. The limits 40 and 110 a minute are
//! common practice.

use crate::signal::{BeatsPerMinute, Milliseconds};
use crate::words::{Language, decimal, say, say_with};
use std::borrow::Cow;

/// A typical time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TypicalTime {
    /// From P onset until the signal is at the AV node.
    AvNodeReached,
    /// The way through the bundle and its branches, before QRS.
    Bundle,
    /// From P onset to the contraction of the atria.
    AtrialDelay,
    /// How long the atria contract.
    AtrialSystole,
    /// From QRS onset until the valves from the atria shut.
    InletsShut,
    /// From QRS onset until the valves to the arteries open.
    OutletsOpen,
    /// From QRS onset until the valves to the arteries shut.
    OutletsShut,
    /// How long the ventricles relax with all valves shut.
    IsovolumetricRelaxation,
}

impl TypicalTime {
    /// All of them, in the order of the cycle.
    pub const ALL: [Self; 8] = [
        Self::AvNodeReached,
        Self::Bundle,
        Self::AtrialDelay,
        Self::AtrialSystole,
        Self::InletsShut,
        Self::OutletsOpen,
        Self::OutletsShut,
        Self::IsovolumetricRelaxation,
    ];

    /// The slowest and the fastest rate at which they are given, beats a minute.
    pub const RATES: [f64; 2] = [40.0, 110.0];

    /// Whether they hold at a rate.
    pub fn hold_at(rate: BeatsPerMinute) -> bool {
        (Self::RATES[0]..=Self::RATES[1]).contains(&rate.per_minute())
    }

    /// The time at a resting rate.
    pub fn at(self, rate: BeatsPerMinute) -> Milliseconds {
        let rate = rate.per_minute();
        Milliseconds::new(match self {
            Self::AvNodeReached => 50.0,
            Self::Bundle | Self::AtrialDelay => 25.0,
            Self::AtrialSystole => 100.0,
            Self::InletsShut => 60.0,
            Self::OutletsOpen => 131.0 - 0.4 * rate,
            Self::OutletsShut => 546.0 - 2.1 * rate,
            Self::IsovolumetricRelaxation => 70.0,
        })
    }

    /// What it is, with its value at a rate.
    pub fn words(self, rate: BeatsPerMinute, language: Language) -> String {
        let time = decimal(language, self.at(rate).milliseconds(), 0);
        say_with(language, &format!("heart.times.{}.is", self.key()), &[("ms", &time)])
    }

    /// Where it comes from.
    pub fn source(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("heart.times.{}.source", self.key()))
    }

    const fn key(self) -> &'static str {
        match self {
            Self::AvNodeReached => "av_node_reached",
            Self::Bundle => "bundle",
            Self::AtrialDelay => "atrial_delay",
            Self::AtrialSystole => "atrial_systole",
            Self::InletsShut => "inlets_shut",
            Self::OutletsOpen => "outlets_open",
            Self::OutletsShut => "outlets_shut",
            Self::IsovolumetricRelaxation => "isovolumetric_relaxation",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Weissler's lines at 60 a minute: 107 ms before and 420 ms up to the end of ejection.
    #[test]
    fn the_lines_give_their_values_at_sixty() {
        let rate = BeatsPerMinute::new(60.0);
        assert!((TypicalTime::OutletsOpen.at(rate).milliseconds() - 107.0).abs() < 1e-9);
        assert!((TypicalTime::OutletsShut.at(rate).milliseconds() - 420.0).abs() < 1e-9);
    }

    #[test]
    fn the_inlets_shut_before_the_outlets_open_at_every_resting_rate() {
        for rate in 40..=110 {
            let rate = BeatsPerMinute::new(rate.into());
            assert!(TypicalTime::hold_at(rate));
            let order =
                [TypicalTime::InletsShut, TypicalTime::OutletsOpen, TypicalTime::OutletsShut];
            assert!(order.map(|time| time.at(rate).milliseconds()).is_sorted(), "{rate:?}");
        }
        assert!(
            ![39.9, 110.1, f64::NAN].map(BeatsPerMinute::new).into_iter().any(TypicalTime::hold_at)
        );
    }
}
