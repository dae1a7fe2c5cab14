//! Where the taps are in the recording at hand: as chosen, or by what it offers.

use super::{
    NoReflex, ReflexSettings, Reflexes, likely_tap_mark, taps_in_channel, taps_in_trace,
    taps_marked,
};
use crate::signal::{Recording, Seconds};
use serde::{Deserialize, Serialize};

/// How taps are to be found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TapPlan {
    /// By marks, where there are any; else by the jolt in the trace itself.
    #[default]
    AsOffered,
    /// By marks, those of the file or by hand.
    Marks,
    /// By another trace of the file, by its place among the others.
    Channel(usize),
    /// By the jolt in the trace itself.
    Spike,
}

/// How reflexes are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReflexPlan {
    /// How taps are found.
    #[serde(default)]
    pub taps: TapPlan,
    /// How an answer is found.
    pub settings: ReflexSettings,
    /// From the muscle to the cord along the body, m, where it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub path: Option<f64>,
}

impl Default for ReflexPlan {
    fn default() -> Self {
        Self { taps: TapPlan::default(), settings: ReflexSettings::REFLEX, path: None }
    }
}

impl ReflexPlan {
    /// The answers in a recording.
    ///
    /// # Errors
    /// [`NoReflex`] without any tap, or when a setting can't be used.
    pub fn find(
        &self,
        recording: &Recording,
        channels: &[&Recording],
    ) -> Result<Reflexes, NoReflex> {
        Reflexes::of(recording, &self.taps.find(recording, channels)?, self.settings)
    }

    /// Voluntary answers in a recording: the same taps, looked for in a later window.
    ///
    /// # Errors
    /// [`NoReflex`] without any tap.
    pub fn find_voluntary(
        &self,
        recording: &Recording,
        channels: &[&Recording],
    ) -> Result<Reflexes, NoReflex> {
        Reflexes::of(recording, &self.taps.find(recording, channels)?, ReflexSettings::VOLUNTARY)
    }
}

impl TapPlan {
    fn find(
        self,
        recording: &Recording,
        channels: &[&Recording],
    ) -> Result<Vec<Seconds>, NoReflex> {
        let marked = || {
            let text = likely_tap_mark(recording).ok_or(NoReflex::NoMarks)?;
            taps_marked(recording, &text)
        };
        match self {
            Self::AsOffered => marked().or_else(|_| taps_in_trace(recording)),
            Self::Marks => marked(),
            Self::Channel(place) => match channels.get(place) {
                Some(channel) => taps_in_channel(channel),
                None => Err(NoReflex::FlatChannel),
            },
            Self::Spike => taps_in_trace(recording),
        }
    }
}
