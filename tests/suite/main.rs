//! Everything that is tested through the library's front door, in one binary.

// A test that can't go on has to stop.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod accuracy;
mod boundaries_accuracy;
mod charts;
mod demo_recordings;
mod house;
mod wfdb_anything;
mod wfdb_records;
mod worked_examples;
