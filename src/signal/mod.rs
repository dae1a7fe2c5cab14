//! What a recording is: samples on an even grid, their unit, their holes and their marks.
//!
//! Readers make [`Recording`]s, analysis reads them; this is the only place where they meet.

mod calibration;
mod envelope;
mod landmark;
mod mark;
mod order;
mod progress;
mod recording;
mod time;
mod units;

pub use calibration::{Calibration, Converter, UnusableCalibration};
pub use envelope::{Envelope, Extent};
pub use landmark::{Landmark, Landmarks};
pub use mark::{BeatCode, Mark, MarkKind};
pub use order::{map_of, places_in_order, put_in_order};
pub use progress::Progress;
pub use recording::{Hole, HoleCause, Recording, VoltageUnit};
pub use time::{SampleIndex, SampleRate, SampleSpan, UnusableRate};
pub use units::{BeatsPerMinute, Hertz, Milliseconds, Millivolts, Seconds};
