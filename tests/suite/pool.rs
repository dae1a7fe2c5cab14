//! The class desk: readings of every version are pooled, a class is compared with itself.

use beatwalk::inquiry::{Entry, Investigation, LeftOut, Measured, People, RecoveryPlan, Role};
use beatwalk::report::{
    InquirySheet, PoolEntry, SavedInquiry, SavedReading, SavedRecording, SavedWork,
    entries_of_saved, pool_csv,
};
use beatwalk::signal::SampleIndex;
use beatwalk::synth::Demo;
use beatwalk::words::Language;
use std::path::Path;

fn kept(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/saved").join(name);
    std::fs::read_to_string(path).unwrap()
}

fn saved(demo: Demo, student: &str) -> SavedReading {
    let mut work = SavedWork::default();
    work.student = student.to_owned();
    let recording = demo.recording().unwrap();
    SavedReading::new(work, SavedRecording::new(demo.file_name(), recording))
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
        let text = kept(&format!("version-{version}.beatwalk.json"));
        let mut found = entries_of_saved("Q01-rest.beatwalk.json", &text).unwrap();
        assert_eq!(found.len(), 1, "version {version}");
        entries.append(&mut found);
    }
    assert!(entries.iter().all(|entry| entry.seconds > 1.0), "{entries:?}");
    assert_eq!(pool_csv(&entries).lines().count(), 4);
}

#[test]
fn a_reading_gives_one_entry_under_its_own_code() {
    let text = saved(Demo::Resting, " K7 ").to_json().unwrap();
    let entries = entries_of_saved("hand-in 12.beatwalk.json", &text).unwrap();
    let [entry] = &entries[..] else { panic!("{entries:?}") };
    assert_eq!((&*entry.code, &*entry.condition), ("K7", "12"));
    let [rate, ..] = Measured::ALL;
    let rate = entry.value(rate).unwrap();
    assert!((62.0..66.0).contains(&rate), "{rate}");
    assert!(entry.counted > 25 && (entry.seconds - 30.0).abs() < 0.1);
}

#[test]
fn a_recovery_gives_rest_and_recovery() {
    let mut sheet = InquirySheet::of(Investigation::Recovery);
    sheet.recovery =
        RecoveryPlan { exercise_until: Some(SampleIndex::new(5000)), ..RecoveryPlan::default() };
    let readings = [(Role::Recovery, saved(Demo::AfterStairs, ""))].into();
    let text = SavedInquiry::new(sheet, readings).to_json().unwrap();
    let entries = entries_of_saved("Q03-stairs.beatwalk.json", &text).unwrap();
    let told: Vec<(&str, &str)> =
        entries.iter().map(|entry| (&*entry.code, &*entry.condition)).collect();
    assert_eq!(told, [("Q03", "rest"), ("Q03", "recovery")]);
}

#[test]
fn what_is_damaged_or_newer_is_refused_with_what_to_do() {
    let whole = kept("version-3.beatwalk.json");
    let half = whole.get(..whole.len() / 2).unwrap().to_owned();
    let newer = whole.replacen("\"version\": 3", "\"version\": 99", 1);
    for text in [half, newer, "{\"beatwalk\": \"holiday\", \"version\": 3}".to_owned()] {
        let error = entries_of_saved("x.beatwalk.json", &text).unwrap_err();
        assert!(!error.said().in_words(Language::English).is_empty());
        assert!(!error.remedy().in_words(Language::English).is_empty());
    }
}

#[test]
fn duplicates_and_missing_partners_are_named() {
    let text = saved(Demo::Resting, "").to_json().unwrap();
    let found = entries_of_saved("x-y.beatwalk.json", &text).unwrap().remove(0);
    let entry = |code: &str, condition: &str| PoolEntry {
        code: code.to_owned(),
        condition: condition.to_owned(),
        ..found.clone()
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
