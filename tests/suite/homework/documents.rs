//! The documents of homework: what is kept, what a student sees, what is refused, and what was written once.

use super::{assignment, place, rest_saved};
use beatwalk::homework::{
    Answered, Ask, Assignment, HandIn, Homework, Marker, Marks, Seal, SetFault, Task, Tolerance,
};
use beatwalk::report::{SavedError, SavedRecording};
use beatwalk::signal::Recording;
use beatwalk::words::Language;
use serde_json::{Value, json};
use std::path::Path;
use std::sync::LazyLock;

/// An assignment, and a hand-in of it.
pub(super) static WORKED: LazyLock<(Assignment, String)> = LazyLock::new(|| {
    let assignment = assignment();
    let mut homework = Homework::of(&assignment);
    place(&mut homework, 3);
    homework.answers.insert("2".to_owned(), Answered::Number("70".to_owned()));
    (assignment, homework.hand_in("now".to_owned()).unwrap())
});

pub(super) fn same_value(one: &str, other: &str) -> bool {
    let value = |text| serde_json::from_str::<Value>(text).unwrap();
    value(one) == value(other)
}

#[test]
fn what_a_later_version_added_is_kept_at_every_level() {
    let (assignment, hand_in) = &*WORKED;
    let mut marks = Marks::of(assignment);
    let sheet = Marker::new(assignment.clone()).mark("x", hand_in, &mut ()).outcome.unwrap();
    marks.give(&sheet, "5", Some(1.0));
    let places: [(&str, String, &[&str]); 3] = [
        (
            "assignment",
            assignment.to_json().unwrap(),
            &[
                "",
                "/help",
                "/tasks/0",
                "/tasks/0/ask",
                "/tasks/3/ask",
                "/materials/0",
                "/materials/0/given",
                "/materials/0/given/settings",
                "/materials/0/given/recording",
                "/materials/1",
            ],
        ),
        ("hand_in", hand_in.clone(), &["", "/works/a", "/works/a/settings", "/works/a/session"]),
        ("marks", marks.to_json().unwrap(), &["", "/hand_ins/~"]),
    ];
    for (kind, text, places) in places {
        for place in places {
            let mut value: Value = serde_json::from_str(&text).unwrap();
            let place = place.replace('~', &sheet.content);
            let level = value.pointer_mut(&place).unwrap_or_else(|| panic!("{place} in {text}"));
            level["of_tomorrow"] = json!({"kept": [1, 2.5]});
            let later = value.to_string();
            let again = match kind {
                "assignment" => Assignment::from_json(&later).unwrap().to_json().unwrap(),
                "marks" => Marks::from_json(&later).unwrap().to_json().unwrap(),
                _ => HandIn::from_json(&later).unwrap().homework.hand_in("now".into()).unwrap(),
            };
            let again: Value = serde_json::from_str(&again).unwrap();
            let kept = again.pointer(&place).map(|level| &level["of_tomorrow"]);
            assert_eq!(kept, Some(&json!({"kept": [1, 2.5]})), "{kind} {place}");
        }
    }
}

#[test]
fn a_student_sees_no_answers_and_the_fingerprint_sees_every_change() {
    let teacher = assignment();
    let students = teacher.for_students();
    let text = students.to_json().unwrap();
    for hidden in ["\"right\"", "\"value\"", "\"guide\"", "Electrical, and before it."] {
        assert!(!text.contains(hidden), "{hidden}");
    }
    assert_eq!(students.fingerprint(), teacher.fingerprint());
    let mut right = teacher.clone();
    right.tasks[3] = Task::new(
        "4",
        "What does T show?",
        1.0,
        match right.tasks[3].ask.clone() {
            Ask::Choice { options, .. } => Ask::Choice { options, right: Some(0) },
            other => other,
        },
    );
    assert_eq!(right.fingerprint(), teacher.fingerprint(), "an answer is not what was given out");
    let changes: [fn(&mut Assignment); 6] = [
        |one| one.title.push('!'),
        |one| one.tasks[0].points += 1.0,
        |one| one.tasks.swap(0, 1),
        |one| one.help.worked_answers = false,
        |one| one.materials[0].label.clear(),
        |one| {
            let given = one.materials[0].given.as_mut().unwrap();
            let mut samples = given.recording.recording.samples.to_vec();
            samples[7] += 1.0e-3;
            given.recording.recording.samples = samples.into();
        },
    ];
    for change in changes {
        let mut changed = teacher.clone();
        change(&mut changed);
        assert_ne!(changed.fingerprint(), teacher.fingerprint());
    }
}

#[test]
fn what_must_be_mended_is_named() {
    assert_eq!(assignment().problems(), []);
    let mut bad = assignment();
    bad.title = " ".to_owned();
    bad.materials[1].key = "a".to_owned();
    bad.tasks[4].key = "1".to_owned();
    bad.tasks[0].ask = Ask::Points { material: "z".to_owned(), landmarks: Vec::new() };
    bad.tasks[0].points = f64::NAN;
    bad.tasks[1].text.clear();
    bad.tasks[2].ask =
        Ask::Number { value: None, unit: String::new(), tolerance: Tolerance::Percent(-1.0) };
    bad.tasks[3].ask = Ask::Choice { options: vec!["one".to_owned()], right: Some(1) };
    let found: Vec<_> = bad.problems().iter().map(|one| (one.task, one.fault)).collect();
    assert_eq!(
        found,
        [
            (None, SetFault::NoTitle),
            (None, SetFault::MaterialKey),
            (None, SetFault::TaskKey),
            (Some(0), SetFault::Points),
            (Some(0), SetFault::UnknownMaterial),
            (Some(0), SetFault::NoLandmark),
            (Some(1), SetFault::NoText),
            (Some(2), SetFault::NoValue),
            (Some(2), SetFault::Tolerance),
            (Some(3), SetFault::FewOptions),
            (Some(3), SetFault::NoRightOption),
        ]
    );
    let none = Assignment::default().problems();
    assert_eq!(
        none.iter().map(|one| one.fault).collect::<Vec<_>>(),
        [SetFault::NoTitle, SetFault::NoTask]
    );
    for problem in bad.problems() {
        for language in Language::ALL {
            let said = problem.fault.said().in_words(language);
            assert!(said.ends_with('.') && !said.contains("homework."), "{said}");
        }
    }
}

#[test]
fn a_recording_that_does_not_fit_its_settings_is_refused() {
    let text = assignment().to_json().unwrap();
    let value: Value = serde_json::from_str(&text).unwrap();
    let with = |place: &str, wrong: Value| {
        let mut value = value.clone();
        *value.pointer_mut(place).unwrap() = wrong;
        Assignment::from_json(&value.to_string())
    };
    let part = with("/materials/0/given/settings", json!({"part": {"start": 0, "end": 999_999}}));
    assert!(matches!(part, Err(SavedError::Misplaced { .. })), "{part:?}");
    let count = with("/materials/0/given/recording/sample_count", json!(5));
    assert!(matches!(count, Err(SavedError::SampleCount { .. })), "{count:?}");
    assert!(matches!(with("/version", json!(4)), Err(SavedError::Newer { found: 4 })));
    let kind = with("/beatwalk", json!("homework"));
    assert!(matches!(kind, Err(SavedError::SomethingElse { .. })), "{kind:?}");
    // Marks of the student outside of their own recording.
    let mut homework = Homework::of(&assignment());
    place(&mut homework, 5);
    let work = homework.works["a"].clone();
    homework.works.insert("own".to_owned(), work);
    let short = Recording { samples: vec![0.0; 10].into(), ..rest_saved().recording };
    homework.own.insert("own".to_owned(), SavedRecording::new("short.csv", short));
    assert!(homework.fits(&assignment()).is_err());
    let refused = HandIn::from_json(&homework.hand_in(String::new()).unwrap());
    assert!(matches!(refused, Err(SavedError::OtherRecording(_))), "{refused:?}");
}

#[test]
fn a_person_can_read_a_hand_in() {
    let (_, text) = &*WORKED;
    let place = |what: &str| text.find(what).unwrap_or_else(|| panic!("{what} in {text}"));
    let order = [
        "\"beatwalk\": \"hand_in\"",
        "\"seal\"",
        "\"student\"",
        "\"answers\"",
        "\"works\"",
        "\"own\"",
    ]
    .map(place);
    assert!(order.is_sorted(), "{order:?}");
}

#[test]
fn a_name_of_a_megabyte_is_cut_where_it_is_shown() {
    let (assignment, _) = &*WORKED;
    let mut homework = Homework::of(assignment);
    homework.student = "\u{202e}x".repeat(1_000_000);
    homework.answers.insert("5".to_owned(), Answered::Text("<b>\0".repeat(300_000)));
    let text = homework.hand_in(String::new()).unwrap();
    assert_eq!(HandIn::from_json(&text).unwrap().homework.student, homework.student);
    let sheet = Marker::new(assignment.clone()).mark("x", &text, &mut ()).outcome.unwrap();
    assert!(sheet.student.len() < 200 && !sheet.student.contains('\u{202e}'));
    let said = sheet.lines[4].answer.to_string();
    assert!(said.len() < 70_000 && said.starts_with("<b>"), "{}", said.len());
}

/// Kept documents of this version. A file there is never written anew.
#[test]
fn what_was_written_once_is_opened_for_ever() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/saved");
    let kept = |kind: &str| {
        std::fs::read_to_string(folder.join(format!("{kind}-version-3.beatwalk.json"))).unwrap()
    };
    let same = |kind: &str, written: String| {
        assert!(same_value(&written, &kept(kind)), "{kind} is not what it was");
    };
    let assignment = Assignment::from_json(&kept("assignment")).unwrap();
    same("assignment", assignment.to_json().unwrap());
    assert_eq!(assignment.problems(), []);
    let homework = Homework::from_json(&kept("homework")).unwrap();
    same("homework", homework.to_json().unwrap());
    assert_eq!(homework.fingerprint, assignment.fingerprint());
    let hand_in = HandIn::from_json(&kept("hand_in")).unwrap();
    assert_eq!(hand_in.seal, Seal::Whole);
    let again = hand_in.homework.hand_in(hand_in.homework.handed_in.clone()).unwrap();
    same("hand_in", again);
    let marks = Marks::from_json(&kept("marks")).unwrap();
    same("marks", marks.to_json().unwrap());
    let sheet = Marker::new(assignment).mark("x", &kept("hand_in"), &mut ()).outcome.unwrap();
    let total = marks.total(&sheet);
    assert_eq!((total.earned, total.of, total.open), (9.5, 12.0, 0), "{sheet:?}");
}
