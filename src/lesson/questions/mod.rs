//! One question at each step: it tells what is electrical from what is mechanical.
//!
//! Each goes at a belief that learners were found to hold. The texts and their sources stand in
//! `src/words/questions.yml`. A question is asked once its point is settled, or a beat is chosen, and
//! holds nobody up.

mod answering;
mod question;
mod words;
mod work;

pub use question::{Choice, Question};
pub use words::{ChoiceWords, QuestionWords};
pub use work::QuestionWork;
