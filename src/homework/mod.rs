//! Homework: what a teacher sets, what a student does and hands in, and how thirty of them are marked.
//!
//! Four documents of ours, in the envelope of `report/saved`: the assignment, the student's homework while it
//! is being done, the hand-in, and the teacher's marks. A hand-in carries the fingerprint of its assignment and
//! a seal over its own content. They tell a foreign file from the right one and an altered one from a whole one;
//! they do not prove who did the work, and whoever knows how can make both anew.

mod assignment;
mod canonical;
mod doubles;
mod feedback;
mod feedback_page;
mod given;
mod hand_in;
mod marking;
mod marks;
mod plain;
mod problems;
mod table;
mod task;
mod work;

pub use assignment::{Assignment, Help};
pub use doubles::{Doubled, doubled};
pub use feedback::{Feedback, FeedbackRow};
pub use feedback_page::feedback_html;
pub use given::{Given, Material};
pub use hand_in::{HandIn, Seal};
pub use marking::{
    FaultKind, HelpUsed, MarkFault, Marked, Marker, Origin, PointLine, Sheet, TaskLine, Verdict,
};
pub use marks::{Marks, OwnMarks, Total};
pub use problems::{SetFault, SetProblem};
pub use table::marks_csv;
pub use task::{Ask, Task, Tolerance};
pub use work::{Answered, Homework, TaskState};
