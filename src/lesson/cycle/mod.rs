//! One cardiac cycle in time: what the heart does electrically, and apart from it, what it does
//! mechanically.
//!
//! The electrical phases run between points on the student's own trace, so their times are measured.
//! No sensor here sees the heart move: the mechanical phases are put beside them at typical delays
//! ([`TypicalTime`]), each with its source. The two are kept in two rows and never mixed.

mod boundaries;
mod electrical;
mod mechanical;
mod moment;
mod points;
#[cfg(test)]
mod tests;
mod timeline;
mod told;
mod typical;

pub use electrical::{Conduction, ElectricalPhase};
pub use mechanical::{MechanicalPhase, Valve};
pub use moment::Moment;
pub use points::{CyclePoints, Following};
pub use timeline::{Gap, Stretch, Timeline, Unmoved};
pub use typical::TypicalTime;
