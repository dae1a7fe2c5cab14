//! A cycle in words.

use super::{Gap, Moment, Timeline, Unmoved};
use crate::signal::{BeatsPerMinute, Milliseconds};
use crate::words::{Language, decimal, say, say_with};
use std::borrow::Cow;

impl Moment {
    /// What goes on electrically.
    pub fn electrical_words(&self, language: Language) -> Cow<'static, str> {
        match self.electrical {
            Some(phase) => phase.words(language),
            None => say(language, "heart.electrical.unknown"),
        }
    }

    /// What goes on mechanically, or why that is not told.
    pub fn mechanical_words(&self, timeline: &Timeline, language: Language) -> Cow<'static, str> {
        match (self.mechanical, timeline.mechanical()) {
            (Some(phase), _) => phase.words(language),
            (None, Err(why)) => why.words(timeline.rate(), language).into(),
            (None, Ok(_)) => say(language, "heart.mechanical.unknown"),
        }
    }

    /// All of it in one text, with the time from the start of the cycle.
    pub fn words(&self, at: Milliseconds, timeline: &Timeline, language: Language) -> String {
        let time = decimal(language, at.milliseconds(), 0);
        let electrical = self.electrical_words(language);
        let mechanical = self.mechanical_words(timeline, language);
        let places = [("ms", &*time), ("electrical", &*electrical), ("mechanical", &*mechanical)];
        say_with(language, "heart.at", &places)
    }
}

impl Gap {
    /// What is not shown, and what it waits for.
    pub fn words(&self, language: Language) -> String {
        let part = self.phase.letters();
        if self.waits_for.is_empty() {
            return say_with(language, "heart.gap.next", &[("part", part)]);
        }
        let names = self.waits_for.iter().map(|landmark| {
            say(language, &format!("landmarks.{}.name", landmark.key())).into_owned()
        });
        let points = names.collect::<Vec<_>>().join(", ");
        say_with(language, "heart.gap.points", &[("part", part), ("points", &points)])
    }
}

impl Unmoved {
    /// Why no movement is shown at a rate.
    pub fn words(self, rate: Option<BeatsPerMinute>, language: Language) -> String {
        let key = match self {
            Self::NoQrsOnset => "heart.unmoved.no_qrs_onset",
            Self::NoRate => "heart.unmoved.no_rate",
            Self::NotAtRest => "heart.unmoved.not_at_rest",
        };
        let rate = rate.map(|rate| decimal(language, rate.per_minute(), 0)).unwrap_or_default();
        say_with(language, key, &[("rate", &rate)])
    }
}
