//! From a trace to its beats: where they are, where their waves begin and end, and what that measures.
//!
//! [`read`] is the one way in. The raw trace is never altered; whatever is filtered is a copy.

mod beats;
mod filter;
mod intervals;
mod measurement;
mod median;
mod neighbours;
mod qtc;
mod quality;
mod read;
mod reading;
mod spike;
mod waves;

pub use filter::{MovingAverage, UnusableWindow};
pub use intervals::measure;
pub use measurement::{Intervals, Measurement};
pub use median::median_beat;
pub use qtc::{QtCorrection, corrected_qt};
pub use read::read;
pub use reading::{
    Beat, Finding, FindingKind, MedianBeat, Polarity, Reading, Severity, Standing, WhySetAside,
};
pub use waves::delineate;
