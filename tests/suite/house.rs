//! Reads the sources and fails on an import against the arrows: dependencies point one way.

use std::fs;
use std::path::{Path, PathBuf};

/// A folder of `src` and what of the crate it may use. `words` uses nothing; whatever speaks uses it.
const MAY_USE: [(&str, &[&str]); 10] = [
    ("signal", &["words"]),
    ("words", &[]),
    ("formats", &["signal", "words"]),
    ("synth", &["signal", "words"]),
    ("analysis", &["signal", "words"]),
    ("lesson", &["signal", "words", "analysis"]),
    ("inquiry", &["signal", "words", "analysis", "lesson"]),
    ("chart", &["signal", "words", "analysis", "lesson", "inquiry"]),
    ("report", &["signal", "words", "analysis", "lesson", "inquiry", "chart"]),
    ("homework", &["signal", "words", "analysis", "lesson", "inquiry", "report"]),
];

/// Inside the app: the worker knows nothing of the page.
const APP_MAY_USE: [(&str, &[&str]); 2] = [("worker", &[]), ("ui", &["worker"])];

/// Words that only the browser's side may say.
const WEB: [&str; 6] = ["leptos", "web_sys", "js_sys", "wasm_bindgen", "gloo_file", "idb::"];

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

/// The first name after each `crate::` in a source.
fn crate_names(source: &str) -> impl Iterator<Item = &str> {
    source.split("crate::").skip(1).map(|rest| {
        rest.split(|letter: char| !(letter.is_alphanumeric() || letter == '_')).next().unwrap_or("")
    })
}

/// Imports that go against the arrows, as sentences.
fn wrong_imports(folders: &[(&str, &[&str])]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (folder, may_use) in folders {
        for path in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(folder)) {
            let source = fs::read_to_string(&path).unwrap();
            let modules = folders.iter().map(|(name, _)| *name);
            for name in crate_names(&source) {
                let inside = name == *folder || may_use.contains(&name);
                if modules.clone().any(|module| module == name) && !inside {
                    wrong.push(format!("{} uses crate::{name}", path.display()));
                }
            }
        }
    }
    wrong
}

#[test]
fn dependencies_point_one_way() {
    assert_eq!(wrong_imports(&MAY_USE), Vec::<String>::new());
    assert_eq!(wrong_imports(&APP_MAY_USE), Vec::<String>::new());
}

#[test]
fn every_folder_of_the_core_has_its_arrows() {
    let library = include_str!("../../src/lib.rs");
    let declared =
        library.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'));
    let mut declared: Vec<&str> = declared.collect();
    let mut known: Vec<&str> = MAY_USE.iter().map(|(folder, _)| *folder).collect();
    declared.sort_unstable();
    known.sort_unstable();
    assert_eq!(declared, known);
}

#[test]
fn the_core_knows_no_browser() {
    for (folder, _) in MAY_USE {
        for path in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(folder)) {
            let source = fs::read_to_string(&path).unwrap();
            let code = source.lines().filter(|line| !line.trim_start().starts_with("//"));
            for line in code {
                for word in WEB {
                    assert!(!line.contains(word), "{} says {word}: {line}", path.display());
                }
            }
        }
    }
}

#[test]
fn a_wrong_import_would_be_seen() {
    let names: Vec<&str> =
        crate_names("use crate::formats::open;\nlet it = crate::analysis::read;").collect();
    assert_eq!(names, ["formats", "analysis"]);
}
