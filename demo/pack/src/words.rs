//! Writes the messages of each language into a file of their own and names the files in the page.
//!
//! A class reads one language: the page fetches that one before it shows anything (`src/ui/browser/messages.rs`).
//! The name holds a piece of the file's hash, so that a page never gets the words of another version.

use crate::policy::hash;
use std::collections::BTreeMap;

/// Where the message files are.
const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../src/words");

/// The name of each file and what stands in it.
pub(crate) fn files() -> Result<Vec<(String, String)>, String> {
    let languages = rust_i18n_support::try_load_locales(FOLDER, |_| false, true)?;
    if languages.is_empty() {
        return Err(format!("there are no messages in {FOLDER}"));
    }
    languages.into_iter().map(|(tag, messages)| file(&tag, &messages)).collect()
}

fn file(tag: &str, messages: &BTreeMap<String, String>) -> Result<(String, String), String> {
    let text = serde_json::to_string(messages).map_err(|fault| fault.to_string())?;
    let piece: String = hash(text.as_bytes())
        .trim_start_matches("sha256-")
        .chars()
        .filter(char::is_ascii_alphanumeric)
        .take(16)
        .collect();
    Ok((format!("words-{tag}-{piece}.json"), text))
}

/// The page with a link to each of the files.
pub(crate) fn named_in(html: &str, files: &[(String, String)]) -> Result<String, String> {
    let links = files.iter().map(|(name, _)| {
        let tag = name.split('-').nth(1).unwrap_or_default();
        format!("<link rel=\"words\" id=\"words-{tag}\" href=\"./{name}\" />\n")
    });
    let (head, rest) = html.split_once("</head>").ok_or("the page has no head")?;
    Ok(format!("{head}{}</head>{rest}", links.collect::<String>()))
}

/// The messages of a link as they stand in the page of one file: no message ends the element.
pub(crate) fn inside(id: &str, text: &str) -> String {
    let text = text.replace('<', "\\u003c");
    format!("<script type=\"application/json\" id=\"{id}\">{text}</script>\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_language_has_its_file_and_link() {
        let files = files().unwrap();
        assert!(files.len() > 1 && files[0].0.starts_with("words-en-"), "{}", files[0].0);
        assert!(files[0].1.contains("\"app.name\":\"Beatwalk\""));
        let page = named_in("<head></head>", &files).unwrap();
        assert!(page.contains(&format!("id=\"words-en\" href=\"./{}\"", files[0].0)), "{page}");
        assert!(named_in("<body>", &files).is_err());
    }

    #[test]
    fn a_message_cannot_end_its_element() {
        assert!(!inside("words-en", "{\"a\":\"</script>\"}").contains("\"</script"));
    }
}
