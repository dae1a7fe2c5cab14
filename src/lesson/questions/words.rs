//! What is said about a question and each of its answers.

use super::{Choice, Question};
use crate::lesson::LandmarkWords;
use crate::words::{Language, say};
use std::borrow::Cow;

/// A question in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuestionWords {
    /// What is asked.
    pub ask: Cow<'static, str>,
    /// The answers, in the order in which they are shown.
    pub choices: [(Choice, ChoiceWords); 3],
    /// Where the explanations come from.
    pub source: Cow<'static, str>,
}

/// An answer in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChoiceWords {
    /// The answer.
    pub text: Cow<'static, str>,
    /// Why it is so, or what is so instead.
    pub why: Cow<'static, str>,
}

impl Question {
    /// The name of its step: that of the point, where a point is placed.
    pub fn step_name(self, language: Language) -> Cow<'static, str> {
        match self.step().landmark() {
            Some(landmark) => LandmarkWords::of(landmark, language).name,
            None => say(language, &self.step().title_key()),
        }
    }

    /// What is said about it.
    pub fn words(self, language: Language) -> QuestionWords {
        let part = |part: &str| say(language, &format!("questions.{}.{part}", self.key()));
        let choice = |choice: Choice| {
            let key = choice.key();
            let words = ChoiceWords { text: part(key), why: part(&format!("{key}_why")) };
            (choice, words)
        };
        QuestionWords {
            ask: part("ask"),
            choices: self.choices().map(choice),
            source: part("source"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_question_and_every_explanation_is_said_in_every_language() {
        let mut said = std::collections::HashSet::new();
        for (question, language) in Question::ALL
            .into_iter()
            .flat_map(|question| Language::ALL.map(|language| (question, language)))
        {
            let words = question.words(language);
            let choices = words.choices.iter().flat_map(|(_, it)| [&it.text, &it.why]);
            for text in choices.chain([&words.ask]) {
                assert!(text.len() > 10 && !text.contains("questions."), "{question:?}: {text}");
                assert!(said.insert(text.to_string()), "said twice: {text}");
            }
            assert!(words.ask.ends_with('?') && words.source.len() > 5, "{question:?}");
        }
    }

    #[test]
    fn no_answer_gives_itself_away_by_its_length() {
        // With three answers chance makes it the longest in one question of three.
        let longest_is_right = |language: Language| {
            let is_longest = |question: &&Question| {
                let words = question.words(language);
                let longest = words.choices.iter().max_by_key(|(_, it)| it.text.len());
                longest.is_some_and(|(choice, _)| *choice == Choice::Right)
            };
            Question::ALL.iter().filter(is_longest).count()
        };
        for language in Language::ALL {
            assert!(longest_is_right(language) <= 6, "{}", longest_is_right(language));
        }
    }
}
