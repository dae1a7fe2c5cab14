//! The final check: one more beat without help, marked together, and recordings with a flaw to name.
//!
//! The points are placed by the very commands of the walk; while the check is open they go to its own
//! beat, and there are no hints, no verdicts and no worked answers until all is marked. What was marked
//! stays as it is. The score says what was right, part by part; it says nothing about a person.

mod conduct;
mod final_check;
mod flaw;
mod score;

pub use final_check::FinalCheck;
pub use flaw::{Flaw, FlawAnswer, FlawGuess, Specimen, flawed_stretch, flaws_in};
pub use score::{CheckRow, CheckScore};
