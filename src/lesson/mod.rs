//! The guided reading: a student marks one cardiac cycle of their own recording and measures it.
//!
//! Views send a [`Command`]; [`Lesson::apply`] is the one place that carries it out. What the
//! analysis found stays untouched underneath: the student's answers lie over it and are judged
//! against it.

mod answer;
mod apply;
mod beat;
mod beat_grade;
mod by_hand;
mod cautions;
mod check;
mod cleaning_words;
mod command;
mod correcting;
mod correcting_words;
mod cycle;
mod events;
mod evidence;
#[cfg(test)]
pub(crate) mod example;
mod finding_words;
mod judge;
mod landmark_words;
mod prepare;
mod quantity;
mod questions;
mod ranges;
mod results;
mod session;
mod steps;
mod tolerance;
mod undo;
mod verdict;
mod worked;

pub use answer::{Answer, Placement, Try};
pub use apply::Lesson;
pub use beat::{beat_near, suggest_beat};
pub use beat_grade::BeatGrade;
pub use by_hand::{HandRate, HandRule, NoHandRate, Spanned, rate_by_hand, spanned};
pub use cautions::{Caution, CautionWords};
pub use check::{
    CheckRow, CheckScore, FinalCheck, Flaw, FlawAnswer, FlawGuess, Specimen, flawed_stretch,
    flaws_in,
};
pub use cleaning_words::cleaning_words;
pub use command::{Command, Grip, Refusal};
pub use correcting::{BeatCommand, BeatDeed, BeatEditor, BeatRefusal};
pub use correcting_words::{aside_words, corrected_words, deed_words};
pub use cycle::{
    Conduction, CyclePoints, ElectricalPhase, Following, Gap, MechanicalPhase, Moment, Stretch,
    Timeline, TypicalTime, Unmoved, Valve,
};
pub use events::{CycleEvent, EventWords};
pub use evidence::Evidence;
pub use finding_words::FindingWords;
pub use judge::judge;
pub use landmark_words::{LandmarkWords, feedback};
pub use prepare::{Electrode, Preparation, PreparationWords};
pub use quantity::{Quantity, Sampled};
pub use questions::{Choice, ChoiceWords, Question, QuestionWords, QuestionWork};
pub use ranges::{Group, RangeSource, TypicalRange, plausible, typical_ranges};
pub use results::{ResultRow, ResultsTable};
pub use session::{BeatWork, MisplacedAnswer, Session};
pub use steps::Step;
pub use tolerance::{Published, Tolerance};
pub use verdict::{Hint, Miss, Verdict, Way};
pub use worked::worked;
