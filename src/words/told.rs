//! Messages that are handed over while the app runs, one document for each language.
//!
//! Natively all languages are compiled in. In the browser that would be a fifth of the program, and a class
//! reads one of them: the page fetches the language it speaks before it shows anything, and the others after.

use super::Language;
use std::collections::HashMap;
use std::sync::OnceLock;

/// The messages of one language, by their keys.
type Messages = HashMap<String, String>;

static TOLD: [OnceLock<Messages>; Language::ALL.len()] =
    [const { OnceLock::new() }; Language::ALL.len()];

/// Takes in the messages of a language: an object of texts by their keys. What is known stays.
///
/// # Errors
/// What is wrong with the document.
pub fn learn(language: Language, json: &str) -> Result<(), serde_json::Error> {
    let messages = serde_json::from_str(json)?;
    if let Some(told) = TOLD.get(language as usize) {
        let _ = told.set(messages);
    }
    Ok(())
}

/// Whether the messages of a language were handed over.
pub fn is_learnt(language: Language) -> bool {
    TOLD.get(language as usize).is_some_and(|told| told.get().is_some())
}

/// A message that was handed over, in another language when it is missing in this one.
pub(super) fn message(language: Language, key: &str) -> Option<&'static str> {
    let languages = std::iter::once(language).chain(Language::ALL);
    languages
        .filter_map(|language| TOLD.get(language as usize)?.get())
        .find_map(|messages| messages.get(key))
        .map(String::as_str)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_object_of_texts_is_refused() {
        for json in ["", "[]", "{\"app.name\":1}", "{\"app.name\":\"Beat"] {
            assert!(learn(Language::Spanish, json).is_err(), "{json}");
        }
        assert!(!is_learnt(Language::Spanish));
        assert_eq!(message(Language::Spanish, "app.name"), None);
    }
}
