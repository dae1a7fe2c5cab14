//! The class desk: readings of every version are pooled, a class is compared with itself.

use beatwalk::inquiry::{Entry, LeftOut, Measured, People};
use beatwalk::report::{PoolEntry, entries_of_saved, pool_csv};
use std::path::Path;

fn saved(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/saved").join(name);
    std::fs::read_to_string(path).unwrap()
}

fn compared(entries: &[PoolEntry], measured: Measured) -> Vec<Entry> {
    let one = |entry: &PoolEntry| Entry {
        code: entry.code.clone(),
        condition: entry.condition.clone(),
        value: entry.value(measured),
    };
    entries.iter().map(one).collect()
}

#[test]
fn readings_of_every_version_lie_side_by_side() {
    let mut entries = Vec::new();
    for version in 1..=3 {
        let text = saved(&format!("version-{version}.beatwalk.json"));
        let mut found = entries_of_saved("Q01-rest.beatwalk.json", &text).unwrap();
        assert_eq!(found.len(), 1, "version {version}");
        entries.append(&mut found);
    }
    for entry in &entries {
        assert!(entry.counted > 0 && entry.seconds > 1.0, "{entry:?}");
    }
    assert_eq!(pool_csv(&entries).lines().count(), 4);
}

#[test]
fn what_is_damaged_or_newer_is_refused_with_what_to_do() {
    let whole = saved("version-3.beatwalk.json");
    let half = whole.get(..whole.len() / 2).unwrap().to_owned();
    let newer = whole.replacen("\"version\": 3", "\"version\": 99", 1);
    for text in [half, newer, "{\"beatwalk\": \"holiday\", \"version\": 3}".to_owned()] {
        let error = entries_of_saved("x.beatwalk.json", &text).unwrap_err();
        let language = beatwalk::words::Language::English;
        assert!(!error.said().in_words(language).is_empty());
        assert!(!error.remedy().in_words(language).is_empty());
    }
}

#[test]
fn duplicates_and_missing_partners_are_named() {
    let text = saved("version-3.beatwalk.json");
    let entry = |code: &str, condition: &str| {
        let found = entries_of_saved("x-y.beatwalk.json", &text).unwrap().remove(0);
        PoolEntry { code: code.to_owned(), condition: condition.to_owned(), ..found }
    };
    let entries = [
        entry("A", "rest"),
        entry("A", "rest"),
        entry("A", "stairs"),
        entry("B", "rest"),
        entry("C", "rest"),
        entry("C", "stairs"),
    ];
    let conditions = ["rest", "stairs"].map(str::to_owned);
    let [rate, ..] = Measured::ALL;
    let people = People::of(&conditions, &compared(&entries, rate)).unwrap();
    let told = |wanted: fn(&LeftOut) -> bool| people.left_out.iter().any(wanted);
    assert!(told(|it| matches!(it, LeftOut::Duplicate { code, .. } if code == "A")));
    assert!(told(|it| matches!(it, LeftOut::Missing { code, .. } if code == "B")));
    assert_eq!(people.against_first[0].differences.len(), 1, "C alone is a pair");
}
