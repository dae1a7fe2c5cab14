//! Beatwalk's core: from the bytes of a recording to a heartbeat that a class has read.
//!
//! Nothing in here knows a browser. The arrows between the modules point one way:
//!
//! ```text
//! signal <- formats            signal <- analysis <- lesson <- inquiry <- chart <- report <- homework
//! signal <- synth              words (the messages) <- everything that speaks
//! ```
//!
//! Readers and analysis meet in [`signal`] and do not know each other.

#![warn(missing_docs)]

#[cfg(not(target_arch = "wasm32"))]
rust_i18n::i18n!("src/words", fallback = "en");

pub mod analysis;
pub mod chart;
pub mod formats;
pub mod homework;
pub mod inquiry;
pub mod lesson;
pub mod report;
pub mod signal;
pub mod synth;
pub mod words;
