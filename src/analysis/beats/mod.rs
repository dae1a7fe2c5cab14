//! Where the beats are.

mod candidates;
mod decide;
mod slope;

pub(crate) use candidates::{Candidate, candidates};
pub(crate) use decide::decide;
pub(crate) use slope::steepness;
