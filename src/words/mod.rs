//! Every sentence the app says, in message files beside this module.
//!
//! One YAML file a subject, all languages of a message together, so that a translator sees what is
//! missing. Keys are read by `say`; a missing message shows its key, and a test fails on it.

mod numbers;

pub use numbers::{decimal, figure, typed};

use std::borrow::Cow;

/// A language the app speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
}

impl Language {
    /// The BCP 47 tag.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
        }
    }
}

/// The message under a key.
pub fn say(language: Language, key: &str) -> Cow<'static, str> {
    rust_i18n::t!(key, locale = language.tag()).into_owned().into()
}

/// The message under a key, with `%{name}` places filled in.
pub fn say_with(language: Language, key: &str, places: &[(&str, &str)]) -> String {
    let (names, values): (Vec<&str>, Vec<String>) =
        places.iter().map(|(name, value)| (*name, (*value).to_owned())).unzip();
    rust_i18n::replace_patterns(&say(language, key), &names, &values)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_in_a_message_are_filled() {
        assert_eq!(say(Language::English, "app.name"), "Beatwalk");
        assert_eq!(
            say_with(Language::English, "app.beat_of", &[("beat", "3"), ("beats", "12")]),
            "Beat 3 of 12"
        );
    }
}
