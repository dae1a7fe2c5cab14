//! Copies of a trace with less of what is not the heart, none of it moved in time.
//!
//! Every filter runs forward and back over the whole trace, so a wave stays where it was. The raw
//! trace is never altered. Input is finite by the contract of
//! [`Recording`](crate::signal::Recording); empty input gives empty output; holes are bridged before.

mod butterworth;
mod moving_average;
mod zero_phase;

pub(crate) use butterworth::Filter;
pub(crate) use moving_average::moving_average;
