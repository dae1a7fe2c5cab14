//! Every message that the sources ask for by name exists.

use beatwalk::words::{Language, say};
use std::fs;
use std::path::{Path, PathBuf};

/// The subjects of the message files.
const SUBJECTS: [&str; 33] = [
    "beats.",
    "app.",
    "page.",
    "demo.",
    "chart.",
    "lesson.",
    "landmarks.",
    "cycle.",
    "cautions.",
    "prepare.",
    "heart.",
    "results.",
    "faults.",
    "repairs.",
    "by_hand.",
    "findings.",
    "cleaning.",
    "rhythm.",
    "report.",
    "ranges.",
    "quantities.",
    "questions.",
    "choosing.",
    "check.",
    "recovery.",
    "conditions.",
    "bench.",
    "class.",
    "breathing.",
    "reflex.",
    "homework.",
    "tasks.",
    "hand_ins.",
];

fn sources(folder: &Path, ending: &str) -> Vec<PathBuf> {
    fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .flat_map(|path| if path.is_dir() { sources(&path, ending) } else { vec![path] })
        .filter(|path| path.extension().is_some_and(|its| its == ending))
        .collect()
}

/// The texts in quotes that look like the name of a message; names that are put together are left to
/// the tests of those who put them together.
fn keys(source: &str) -> impl Iterator<Item = &str> {
    let is_name = |text: &&str| {
        text.chars()
            .all(|sign| sign.is_ascii_lowercase() || sign.is_ascii_digit() || "._".contains(sign))
    };
    source
        .split('"')
        .filter(|text| {
            SUBJECTS.iter().any(|subject| text.starts_with(subject) && text.len() > subject.len())
        })
        .filter(is_name)
        .filter(|text| !text.ends_with('.') && !text.ends_with(".rs"))
}

#[test]
fn every_message_asked_for_exists() {
    let mut asked = 0;
    for path in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), "rs") {
        let source = fs::read_to_string(&path).unwrap();
        for key in keys(&source) {
            asked += 1;
            let said = say(Language::English, key);
            assert!(!said.ends_with(key), "{}: there is no message {key}", path.display());
        }
    }
    assert!(asked > 150, "only {asked} messages were looked for");
}

/// The places of a message, in order.
fn places(message: &str) -> Vec<&str> {
    let mut places: Vec<&str> =
        message.split("%{").skip(1).filter_map(|rest| rest.split('}').next()).collect();
    places.sort_unstable();
    places
}

#[test]
fn every_message_is_there_in_every_language() {
    let mut said = 0;
    for path in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/words"), "yml") {
        let text = fs::read_to_string(&path).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        for (number, line) in lines.iter().enumerate() {
            let Some((indent, english)) = line.split_once("en: ") else { continue };
            if !indent.trim().is_empty() {
                continue;
            }
            said += 1;
            let at = || format!("{}, line {}: {english}", path.display(), number + 1);
            for (below, language) in Language::ALL.iter().enumerate().skip(1) {
                let tag = format!("{indent}{}: ", language.tag());
                let other = lines.get(number + below).and_then(|line| line.strip_prefix(&tag));
                let other = other.unwrap_or_else(|| panic!("not in {}: {}", language.tag(), at()));
                assert_eq!(places(english), places(other), "{}", at());
            }
        }
    }
    assert!(said > 900, "only {said} messages were looked at");
}

#[test]
fn a_message_that_is_missing_shows_its_name() {
    assert!(say(Language::English, "page.no_such_message").ends_with("page.no_such_message"));
}
