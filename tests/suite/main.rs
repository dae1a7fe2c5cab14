//! suite
mod charts;
