//! A sentence as data: which message, and what fills its places. It is put into words only when it is
//! shown, so that what a reader noted in the worker, or an earlier day saved, follows the language of
//! the page.

use super::{Language, decimal, say, say_with};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::fmt;

/// The most items of a list that are named.
const NAMED: usize = 6;

/// Something to say in any language.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Phrase {
    /// What is the same in every language: a name, a whole number, a sentence an earlier version saved.
    Text(String),
    /// A number with so many decimals.
    Number {
        /// The number.
        number: f64,
        /// How many decimals are shown.
        decimals: usize,
    },
    /// A message.
    Message {
        /// Its key in the message files.
        key: Cow<'static, str>,
        /// What fills its places, by their names.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        places: Vec<(Cow<'static, str>, Phrase)>,
    },
    /// The first few of a list, and how many more there are.
    List {
        /// The items.
        list: Vec<Phrase>,
        /// What stands between two of them.
        between: Cow<'static, str>,
    },
}

impl Phrase {
    /// A message without places, or with all of them still empty.
    pub const fn message(key: &'static str) -> Self {
        Self::Message { key: Cow::Borrowed(key), places: Vec::new() }
    }

    /// A number with so many decimals. What is not finite, and would not survive being saved, is a dash.
    pub fn number(number: f64, decimals: usize) -> Self {
        if number.is_finite() { Self::Number { number, decimals } } else { "–".into() }
    }

    /// A number with as many decimals as it has, at most nine.
    pub fn exact(number: f64) -> Self {
        let written = format!("{number}");
        let decimals = written.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        Self::number(number, decimals.min(9))
    }

    /// Names, one after the other.
    pub fn names(names: &[String]) -> Self {
        Self::list(names.iter().map(Self::from), ", ")
    }

    /// Sentences, one after the other.
    pub fn sentences(list: &[Self]) -> Self {
        Self::list(list.iter().cloned(), "; ")
    }

    fn list(list: impl Iterator<Item = Self>, between: &'static str) -> Self {
        Self::List { list: list.collect(), between: between.into() }
    }

    /// The message with one of its places filled; anything else has no places and stays as it is.
    #[must_use]
    pub fn with(mut self, place: &'static str, said: impl Into<Self>) -> Self {
        if let Self::Message { places, .. } = &mut self {
            places.push((place.into(), said.into()));
        }
        self
    }

    /// In the words of a language.
    pub fn in_words(&self, language: Language) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Number { number, decimals } => decimal(language, *number, *decimals),
            Self::Message { key, places } if places.is_empty() => say(language, key).into_owned(),
            Self::Message { key, places } => {
                let said: Vec<(&str, String)> =
                    places.iter().map(|(name, said)| (&**name, said.in_words(language))).collect();
                let places: Vec<(&str, &str)> =
                    said.iter().map(|(name, said)| (*name, &**said)).collect();
                say_with(language, key, &places)
            }
            Self::List { list, between } => {
                let mut named: Vec<String> =
                    list.iter().take(NAMED).map(|said| said.in_words(language)).collect();
                let more = list.len() - named.len();
                if more > 0 {
                    named.push(say_with(language, "app.and_more", &[("more", &more.to_string())]));
                }
                named.join(between)
            }
        }
    }
}

impl From<&str> for Phrase {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<&&'static str> for Phrase {
    fn from(text: &&'static str) -> Self {
        Self::from(*text)
    }
}

impl From<&String> for Phrase {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}

impl From<&Self> for Phrase {
    fn from(said: &Self) -> Self {
        said.clone()
    }
}

macro_rules! whole_numbers {
    ($($number:ty)*) => {$(
        impl From<&$number> for Phrase {
            fn from(number: &$number) -> Self {
                Self::from(*number)
            }
        }
        impl From<$number> for Phrase {
            fn from(number: $number) -> Self {
                Self::Text(number.to_string())
            }
        }
    )*};
}
whole_numbers!(usize u64 u32 u16 i32);

/// A message whose places are filled by variables of the same names.
macro_rules! phrase {
    ($key:literal $(, $place:ident)* $(,)?) => {
        $crate::words::Phrase::message($key)$(.with(stringify!($place), $place))*
    };
}
pub(crate) use phrase;

impl fmt::Display for Phrase {
    /// In English, for logs and where there is no page.
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.in_words(Language::English))
    }
}

/// Shows types by what they have `said`, in English.
macro_rules! shown_as_said {
    ($($type:ty),*) => {$(
        impl std::fmt::Display for $type {
            fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.said().fmt(formatter)
            }
        }
    )*};
}
pub(crate) use shown_as_said;

/// Makes errors of types by what they have `said`.
macro_rules! errors_as_said {
    ($($type:ty),*) => {$(
        $crate::words::shown_as_said!($type);
        impl std::error::Error for $type {}
    )*};
}
pub(crate) use errors_as_said;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_in_the_language() {
        let said = Phrase::message("rhythm.ms").with("value", Phrase::number(-0.25, 2));
        assert_eq!(said.in_words(Language::English), "\u{2212}0.25 ms");
        assert_eq!(said.in_words(Language::Spanish), "\u{2212}0,25 ms");
    }

    #[test]
    fn a_long_list_is_cut() {
        let names: Vec<String> = (1..=8).map(|number| number.to_string()).collect();
        let words = |names| Phrase::names(names).in_words(Language::English);
        assert_eq!(words(&names), "1, 2, 3, 4, 5, 6, and 2 more");
        assert_eq!(words(&names[..2]), "1, 2");
    }

    #[test]
    fn what_is_saved_is_read_again() {
        let list = Phrase::sentences(&[Phrase::exact(0.5), Phrase::message("app.name")]);
        let said = Phrase::message("app.beat_of").with("beat", list).with("beats", 12_usize);
        let json = serde_json::to_string(&said).unwrap();
        assert_eq!(serde_json::from_str::<Phrase>(&json).unwrap(), said);
        assert_eq!(serde_json::from_str::<Phrase>("\"as before\"").unwrap(), "as before".into());
    }

    #[test]
    fn no_number_is_a_dash() {
        assert_eq!(Phrase::number(f64::NAN, 2), "–".into());
    }
}
