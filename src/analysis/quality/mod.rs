//! Whether a trace is usable, where it is not, and what the class can do about it.
//!
//! Before beats are looked for: stretches that are flat or stuck at the end of the range
//! ([`stretches`]), hum ([`hum`]) and noise ([`noise`]). Afterwards, against the height of the beats:
//! wander ([`wander`]), movement ([`motion`]), muscles ([`tremor`]), steps that are too coarse
//! ([`coarse`]) and which way up the trace is ([`polarity`]).

mod coarse;
mod hum;
mod motion;
mod noise;
mod polarity;
mod stretches;
mod tremor;
mod usable;
mod wander;

pub(crate) use coarse::is_coarse;
pub(crate) use hum::{Hum, hum};
pub(crate) use motion::motion;
pub(crate) use noise::noisy;
pub(crate) use polarity::polarity;
pub(crate) use stretches::still;
pub(crate) use tremor::tremor;
pub(crate) use usable::{bridged, holes, merged};
pub(crate) use wander::wander;
