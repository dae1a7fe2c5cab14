//! A sentence as a room may read it: without what was taken from a file, which may name somebody.
//!
//! Every text with a letter in it came from a file or is its name, and goes; numbers, messages and units
//! stay. A file is called so, and anything else becomes dots.

use super::Phrase;

impl Phrase {
    /// The same without the names in it.
    #[must_use]
    pub fn nameless(&self) -> Self {
        self.nameless_at("")
    }

    fn nameless_at(&self, place: &str) -> Self {
        match self {
            Self::Text(text) if place == "unit" || !text.contains(char::is_alphabetic) => {
                self.clone()
            }
            Self::Text(_) => match place {
                "file" | "files" | "opened" => Self::message("app.nameless.file"),
                "header" => Self::message("app.nameless.header"),
                "member" | "members" => Self::message("app.nameless.member"),
                _ => "…".into(),
            },
            Self::Number { .. } => self.clone(),
            Self::Message { key, places } => {
                let places = places.iter();
                let told = places.map(|(name, said)| (name.clone(), said.nameless_at(name)));
                Self::Message { key: key.clone(), places: told.collect() }
            }
            // Names of the same kind say the same once they are gone: once is enough.
            Self::List { list, between } => {
                let mut list: Vec<Self> = list.iter().map(|said| said.nameless_at(place)).collect();
                list.dedup();
                Self::List { list, between: between.clone() }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;

    #[test]
    fn names_go_and_numbers_stay() {
        let fault = Phrase::message("faults.text.no_numbers")
            .with("line", 3_usize)
            .with("says", "Grace Hopper")
            .with("file", "grace.csv");
        let said = fault.nameless().in_words(Language::English);
        assert_eq!(said, "no row of numbers was found; line 3 says \"…\": the file");
        let files = ["grace.dat", "hopper.dat"].map(str::to_owned);
        let drop = Phrase::message("faults.remedy.wfdb.together")
            .with("files", Phrase::names(&files))
            .with("header", "grace.hea");
        for language in Language::ALL {
            let said = drop.nameless().in_words(language);
            assert!(!said.contains("grace") && !said.contains("hopper"), "{said}");
            assert!(said.len() > 20 && !said.contains("faults"), "{said}");
        }
    }

    #[test]
    fn a_sentence_that_was_saved_whole_is_not_shown() {
        assert_eq!(Phrase::from("grace.csv was cut off").nameless(), "…".into());
        let number = Phrase::message("app.beat_of").with("beat", 1_usize).with("beats", 12_usize);
        assert_eq!(number.nameless(), number);
    }
}
