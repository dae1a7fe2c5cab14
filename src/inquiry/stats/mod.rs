//! Statistics of small groups: what a class of volunteers, or the beats of one, can tell.
//!
//! Student's t and the normal distribution come from the crate statrs. Values that are not finite are left
//! out everywhere. All intervals are meant for 95 of 100 samples; p is always two-sided. Checked against
//! scipy.stats: `tests/data/reference/scipy_inquiry.py`.

mod boxes;
mod estimate;
mod holm;
mod independent;
mod paired;
mod signed_rank;
mod student;

pub use boxes::FiveNumbers;
pub use estimate::{Estimate, Moments};
pub use holm::holm;
pub use independent::Independent;
pub use paired::{FEWEST_FOR_A_TEST, Paired, TTest};
pub use signed_rank::{SignedRank, signed_rank};
pub use student::{coverage, two_sided_p};
