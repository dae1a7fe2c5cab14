//! Everything that is tested through the library's front door, in one binary.

mod demo_recordings;
//! suite
mod charts;
