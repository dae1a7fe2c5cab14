//! The schemas of our documents (`src/report/saved/schema`): every kept document and every fresh one obeys its own,
//! and what breaks the form does not.

use super::{assignment, place, rest_saved};
use beatwalk::homework::{Answered, Homework, Marker, Marks};
use beatwalk::inquiry::{Investigation, Role};
use beatwalk::lesson::{Command, Evidence, Lesson};
use beatwalk::report::{
    InquirySheet, Orientation, SavedInquiry, SavedReading, SavedRecording, SavedWork,
};
use beatwalk::signal::{Calibration, Landmark};
use jsonschema::{Registry, Validator};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// The kinds of documents.
const KINDS: [&str; 8] =
    ["work", "recording", "reading", "investigation", "assignment", "homework", "hand_in", "marks"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn schema(name: &str) -> Value {
    let file = format!("{}.schema.json", name.replace('_', "-"));
    let text = std::fs::read_to_string(root().join("src/report/saved/schema").join(file)).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn validator(kind: &str) -> Validator {
    let parts = schema("parts");
    let at = parts["$id"].as_str().unwrap().to_owned();
    let registry = Registry::new().add(at, parts).unwrap().prepare().unwrap();
    jsonschema::options().with_registry(&registry).build(&schema(kind)).unwrap()
}

fn assert_obeys(validator: &Validator, text: &str, what: &str) {
    let value: Value = serde_json::from_str(text).unwrap();
    let faults: Vec<String> = validator
        .iter_errors(&value)
        .map(|fault| format!("{fault} at {}", fault.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{what}: {faults:#?}");
}

/// Work in which as much as possible is set.
fn full_work() -> SavedWork {
    let mut homework = Homework::of(&assignment());
    place(&mut homework, 3);
    let mut work = homework.works["a"].clone();
    let (recording, reading) = &*super::REST;
    let evidence = Evidence { recording, reading };
    let mut lesson = Lesson::resume(work.session.clone());
    for landmark in super::POINTS {
        lesson.apply(Command::Check(landmark), evidence).unwrap();
    }
    lesson.apply(Command::NotHere(Landmark::Q), evidence).unwrap();
    lesson.apply(Command::Check(Landmark::Q), evidence).unwrap();
    work.session = lesson.session().clone();
    work.student = "Q03".to_owned();
    work.settings.calibration = Some(Calibration::new(204.8, 512.0).unwrap());
    work.settings.orientation = Orientation::TurnedOver;
    work.settings.cleaning.drift = true;
    work.settings.beats.take_away(reading.beats[1].r);
    work
}

/// A document of each kind as it is written today.
fn fresh() -> [(&'static str, String); 8] {
    let work = full_work();
    let reading = SavedReading::new(work.clone(), rest_saved());
    let sheet = InquirySheet::of(Investigation::Recovery);
    let readings = [(Role::Rest, reading.clone())].into();
    let assignment = assignment();
    let mut homework = Homework::of(&assignment.for_students());
    homework.works.insert("a".to_owned(), work);
    homework.answers.insert("2".to_owned(), Answered::Number("64,5".to_owned()));
    homework.answers.insert("4".to_owned(), Answered::Choice(1));
    homework.answers.insert("5".to_owned(), Answered::Text("Electrical.".to_owned()));
    homework.own.insert("own".to_owned(), rest_saved());
    homework.seconds.insert("1".to_owned(), 12.5);
    let hand_in = homework.hand_in("2026-11-25T18:00".to_owned()).unwrap();
    let sheet_of = Marker::new(assignment.clone()).mark("x", &hand_in, &mut ()).outcome.unwrap();
    let mut marks = Marks::of(&assignment);
    marks.give(&sheet_of, "5", Some(2.0));
    marks.comment_on(&sheet_of, "5", "Good.");
    [
        ("work", reading.work.to_json().unwrap()),
        ("recording", reading.recording.to_json().unwrap()),
        ("reading", reading.to_json().unwrap()),
        ("investigation", SavedInquiry::new(sheet, readings).to_json().unwrap()),
        ("assignment", assignment.to_json().unwrap()),
        ("homework", homework.to_json().unwrap()),
        ("hand_in", hand_in),
        ("marks", marks.to_json().unwrap()),
    ]
}

#[test]
fn every_document_obeys_its_schema_and_no_other() {
    let validators = KINDS.map(validator);
    for (kind, text) in fresh() {
        let value: Value = serde_json::from_str(&text).unwrap();
        for (other, validator) in KINDS.iter().zip(&validators) {
            if *other == kind {
                assert_obeys(validator, &text, kind);
            } else {
                assert!(!validator.is_valid(&value), "a {kind} passes for a {other}");
            }
        }
    }
}

#[test]
fn kept_documents_of_every_version_obey_it() {
    let folder = |name: &str| -> Vec<PathBuf> {
        std::fs::read_dir(root().join(name)).unwrap().map(|entry| entry.unwrap().path()).collect()
    };
    let mut seen = 0;
    for path in [folder("tests/data/saved"), folder("demo/assignments")].concat() {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if !name.ends_with(".json") {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let value: Value = serde_json::from_str(&text).unwrap();
        assert_obeys(&validator(value["beatwalk"].as_str().unwrap()), &text, &name);
        seen += 1;
    }
    assert!(seen >= 13, "{seen}");
}

#[test]
fn unknown_fields_are_allowed_and_wrong_ones_are_not() {
    let [_, _, (_, reading), _, (_, assignment), ..] = fresh();
    for (kind, text, place, value, obeys) in [
        ("reading", &reading, "/work/settings/weather", json!("rain"), true),
        ("reading", &reading, "/weather", json!([1]), true),
        ("reading", &reading, "/recording/rate_hz", json!(0), false),
        ("reading", &reading, "/recording/sample_count", json!(-1), false),
        ("reading", &reading, "/version", json!(4), false),
        ("reading", &reading, "/work/session/step", json!("dance"), false),
        ("assignment", &assignment, "/tasks/0/ask/hue", json!(1), true),
        ("assignment", &assignment, "/tasks/0/ask/kind", json!("dance"), false),
        ("assignment", &assignment, "/tasks/1/ask/measured", json!("weight"), false),
        ("assignment", &assignment, "/tasks/1/points", json!("two"), false),
        ("assignment", &assignment, "/materials", json!(null), false),
    ] {
        let mut changed: Value = serde_json::from_str(text).unwrap();
        let (level, name) = place.rsplit_once('/').unwrap();
        changed.pointer_mut(level).unwrap()[name] = value;
        assert_eq!(validator(kind).is_valid(&changed), obeys, "{kind} {place}");
    }
}

#[test]
fn earlier_versions_are_opened_and_written_in_the_present_one() {
    for version in 1..=3 {
        let name = format!("tests/data/saved/version-{version}.beatwalk.json");
        let reading = SavedReading::from_json(&std::fs::read_to_string(root().join(name)).unwrap());
        let reading = reading.unwrap();
        let again = reading.to_json().unwrap();
        assert!(again.contains("\"version\": 3"), "version {version}");
        assert_eq!(SavedReading::from_json(&again).as_ref(), Ok(&reading));
        assert_obeys(&validator("reading"), &again, "a reading written anew");
        // Its two parts stand alone too.
        let work = reading.work.to_json().unwrap();
        assert_eq!(SavedWork::from_json(&work).as_ref(), Ok(&reading.work));
        let recording = reading.recording.to_json().unwrap();
        assert_eq!(SavedRecording::from_json(&recording).as_ref(), Ok(&reading.recording));
    }
}
