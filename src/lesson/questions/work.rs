//! What a student answered to one question.

use super::{Choice, Question};
use serde::{Deserialize, Serialize};

/// Everything about one question that was answered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuestionWork {
    /// Which question.
    pub question: Question,
    /// The answer that stands now; `None` when it was taken back.
    pub chosen: Option<Choice>,
    /// The answers up to the right one, oldest first. They stay when the answer is taken back.
    pub tries: Vec<Choice>,
}

impl QuestionWork {
    /// A question nobody has answered yet.
    pub const fn untouched(question: Question) -> Self {
        Self { question, chosen: None, tries: Vec::new() }
    }

    /// The very first answer: what was believed before anything was explained.
    pub fn first(&self) -> Option<Choice> {
        self.tries.first().copied()
    }

    /// Whether the right answer was given.
    pub fn is_settled(&self) -> bool {
        self.tries.last() == Some(&Choice::Right)
    }

    /// Takes an answer; it counts as a try until the right one was given, and after that only shows
    /// its explanation.
    pub(super) fn take(&mut self, choice: Choice) {
        let repeated = self.tries.last() == Some(&choice);
        if !self.is_settled() && !repeated {
            self.tries.push(choice);
        }
        self.chosen = Some(choice);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_first_answer_stays_and_tries_end_with_the_right_one(
            answers in proptest::collection::vec(0usize..3, 1..12),
        ) {
            let mut work = QuestionWork::untouched(Question::TallIsStrong);
            for &answer in &answers {
                work.take(Choice::ALL[answer]);
            }
            let right = answers.iter().position(|&answer| answer == 0);
            prop_assert_eq!(work.first(), Some(Choice::ALL[answers[0]]));
            prop_assert_eq!(work.chosen, answers.last().map(|&answer| Choice::ALL[answer]));
            prop_assert_eq!(work.is_settled(), right.is_some());
            prop_assert!(work.tries.len() <= right.map_or(answers.len(), |place| place + 1));
            let rights = work.tries.iter().filter(|&&choice| choice == Choice::Right).count();
            prop_assert_eq!(rights, usize::from(right.is_some()));
        }
    }
}
