//! Investigations: what changes in a heartbeat, and by how much.
//!
//! Each takes recordings that were read already and gives plain data: numbers with their uncertainty, or
//! a typed reason why there is no number. Nothing in here judges a person or names a disease.

mod conditions;
mod protocol;
mod rate;
mod recovery;
pub mod stats;
mod stretch;

pub use conditions::{
    AgainstFirst, BeatsOf, Entry, LeftOut, Measured, NoComparison, OnePerson, People, Person,
    groups_summary,
};
pub use protocol::{Phase, Protocol};
pub use rate::{RateCourse, RatePoint, SPAN, SmoothRate};
pub use recovery::{
    Change, ChangeLine, CycleQuantity, DROPS_AFTER, EARLY, Exponential, Fitted, NoNumber,
    PEAK_WITHIN, RateDrop, Recovery, Side, TypicalBeat, changes, overlay_summary, recovery_curve,
    shortened_most,
};
pub use stretch::{Stretch, Taken};
