//! Investigations: what changes in a heartbeat, and by how much.
//!
//! Each takes recordings that were read already and gives plain data: numbers with their uncertainty, or
//! a typed reason why there is no number. Nothing in here judges a person or names a disease.

mod breathing;
mod conditions;
#[cfg(test)]
mod invented;
mod investigation;
mod marked;
mod protocol;
mod rate;
mod recovery;
mod reflex;
pub mod stats;
mod stretch;

pub use breathing::{
    Breath, BreathEstimate, BreathLine, BreathMarks, BreathSource, Breathing, BreathingPlan,
    FEWEST_BREATHS, NoBreathing, Paced, Swing, ToldBy, Trail, WhyNoSwing,
};
pub use conditions::{
    AgainstFirst, BeatsOf, Entry, LeftOut, Measured, NoComparison, OnePerson, People, Person,
    groups_summary,
};
pub use investigation::{Investigation, Role};
pub use marked::{MarkText, mark_texts, moments_marked};
pub use protocol::{Phase, Protocol};
pub use rate::{RateCourse, RatePoint, SPAN, SmoothRate};
pub use recovery::{
    Change, ChangeLine, CycleQuantity, DROPS_AFTER, EARLY, Exponential, Fitted, NoNumber,
    PEAK_WITHIN, RateDrop, Recovery, RecoveryPlan, Side, TypicalBeat, changes, overlay_summary,
    recovery_curve, shortened_most,
};
pub use reflex::{
    Baseline, Comparison, FixedDelays, LeftOutOfArc, NoReflex, NoSpeed, PathLength, ReflexPlan,
    ReflexSettings, Reflexes, Response, Sweeps, Tap, TapLine, TapPlan, UnusableReflexSettings,
    WhyNoResponse, compare, likely_tap_mark, rms_envelope, taps_in_channel, taps_in_trace,
    taps_marked, two_site_speed,
};
pub use stretch::{Stretch, Taken};
