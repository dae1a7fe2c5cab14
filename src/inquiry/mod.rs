//! Investigations: what changes in a heartbeat, and by how much.
//!
//! Each takes recordings that were read already and gives plain data: numbers with their uncertainty, or
//! a typed reason why there is no number. Nothing in here judges a person or names a disease.

pub mod stats;
