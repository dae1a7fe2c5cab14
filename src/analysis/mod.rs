//! From a trace to its beats: where they are, where their waves begin and end, and what that measures.
//!
//! [`read`] is the one way in, [`read_corrected`] the same with a student's corrections. The raw trace is never altered; whatever is filtered is a copy.

mod beats;
mod cleaning;
mod edits;
mod filter;
mod grade;
mod intervals;
mod measurement;
mod median;
mod neighbours;
mod qtc;
mod quality;
mod read;
mod reading;
mod rhythm;
mod series;
mod spike;
mod uncertainty;
mod waves;

pub use cleaning::{
    Cleaning, Corner, Mains, Price, R_KEPT, Smoother, SmootherKind, UnusableCorner, UnusableWindow,
    WavePrice, Window, price, strongest_window,
};
pub use edits::{BeatEdits, Corrected, PlacedBeat, closest, crest};
pub use grade::{Grade, Grades};
pub use intervals::measure;
pub use measurement::{Intervals, Measurement};
pub use median::median_beat;
pub use qtc::{QtCorrection, corrected_qt};
pub use read::{read, read_corrected};
pub use reading::{
    Beat, Finding, FindingKind, MedianBeat, Origin, Polarity, Reading, Severity, Standing,
    WhySetAside,
};
pub use rhythm::{Rhythm, RrInterval, Variability, WhyLeftOut, rhythm};
pub use series::BeatSeries;
pub use uncertainty::sampling_uncertainty;
pub use waves::delineate;

pub(crate) use filter::{Filter, moving_average};
pub(crate) use neighbours::median;
