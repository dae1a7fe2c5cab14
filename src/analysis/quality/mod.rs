//! Whether a trace is usable, where it is not, and what the class can do about it.
//!
//! Before beats are looked for: stretches that are flat or stuck at the end of the range
//! ([`stretches`]), hum ([`hum`]) and noise ([`noise`]). Afterwards, against the height of the beats:
//! wander ([`wander`]) and which way up the trace is ([`polarity`]).

mod finding;
mod hum;
mod noise;
mod polarity;
mod stretches;
mod usable;
mod wander;

pub(crate) use hum::{Hum, hum};
pub(crate) use noise::noisy;
pub(crate) use polarity::polarity;
pub(crate) use stretches::{clipped, dead};
pub(crate) use usable::bridged;
pub(crate) use wander::wander;
