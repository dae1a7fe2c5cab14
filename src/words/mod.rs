//! Every sentence the app says, in message files beside this module.
//!
//! One YAML file a subject, all languages of a message together, so that a translator sees what is
//! missing. Keys are read by `say`; a missing message shows its key, and a test fails on it.

mod nameless;
mod numbers;
mod phrase;
mod told;

pub use numbers::{decimal, figure, typed, with_uncertainty};
pub use phrase::Phrase;
pub(crate) use phrase::{errors_as_said, phrase, shown_as_said};
pub use told::{is_learnt, learn};

use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A language the app speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish, with the decimal comma.
    Spanish,
}

impl Language {
    /// All of them, as they are offered.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// The BCP 47 tag.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// The language of a BCP 47 tag such as `es-MX`; English for one that the app does not speak.
    pub fn of_tag(tag: &str) -> Self {
        let primary = tag.split('-').next().unwrap_or_default();
        Self::ALL
            .into_iter()
            .find(|language| language.tag().eq_ignore_ascii_case(primary))
            .unwrap_or_default()
    }

    /// What those who speak it call it.
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Español",
        }
    }

    /// What stands between whole and part of a number: comma or point, as CLDR has it for the tag.
    pub const fn decimal_mark(self) -> &'static str {
        match self {
            Self::English => ".",
            Self::Spanish => ",",
        }
    }
}

/// The message under a key.
pub fn say(language: Language, key: &str) -> Cow<'static, str> {
    told::message(language, key).map_or_else(|| compiled_in(language, key), Cow::Borrowed)
}

/// The messages under some keys, in their order.
pub fn say_all(language: Language, keys: &[&str]) -> Vec<String> {
    keys.iter().map(|key| say(language, key).into_owned()).collect()
}

#[cfg(not(target_arch = "wasm32"))]
fn compiled_in(language: Language, key: &str) -> Cow<'static, str> {
    rust_i18n::t!(key, locale = language.tag()).into_owned().into()
}

/// In a browser nothing is: the page hands the messages over, see [`learn`].
#[cfg(target_arch = "wasm32")]
fn compiled_in(_: Language, key: &str) -> Cow<'static, str> {
    key.to_owned().into()
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
    fn a_tag_names_its_language() {
        let languages = ["es", "ES-mx", "en-GB", "fr", "est", ""].map(Language::of_tag);
        let [spanish, english] = [Language::Spanish, Language::English];
        assert_eq!(languages, [spanish, spanish, english, english, english, english]);
    }

    #[test]
    fn places_in_a_message_are_filled() {
        assert_eq!(say(Language::English, "app.name"), "Beatwalk");
        assert_eq!(
            say_with(Language::English, "app.beat_of", &[("beat", "3"), ("beats", "12")]),
            "Beat 3 of 12"
        );
    }
}
