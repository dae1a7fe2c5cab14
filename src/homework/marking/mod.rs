//! From hand-ins to sheets of marks.
//!
//! What is right is measured anew from the recording. For a recording that the teacher gave, the truth is what
//! the analysis finds with all that the teacher set (part, scale, cleaning, corrected beats); the student's own
//! part only says over which beats a number was measured, and the direction is the student's, because turning
//! the trace over moves no beat. For a recording that the student brought, part, scale and direction are the
//! student's: nobody else knows them. What students may not bring is anything that would let them choose the
//! answer: their corrections of beats and their quietening never change the truth. Where they corrected
//! beats, the line says so, and the teacher looks.

mod fault;
mod lines;
mod marker;
mod points;
mod reference;
mod sheet;

pub use fault::{FaultKind, MarkFault};
pub use marker::{Marked, Marker};
pub use sheet::{HelpUsed, Origin, PointLine, Sheet, TaskLine, Verdict};
