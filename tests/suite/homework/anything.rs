//! Any document, any text, any JSON: opened as it was written, or refused; never a panic.

use super::documents::{WORKED, same_value};
use beatwalk::homework::{
    Answered, Ask, Assignment, HandIn, Homework, Marker, Marks, Material, Seal, Sheet, Task,
    Tolerance, marks_csv,
};
use beatwalk::inquiry::Measured;
use beatwalk::report::{SavedRecording, Settings};
use beatwalk::signal::{Calibration, Landmark, Recording, SampleRate, SampleSpan, VoltageUnit};
use beatwalk::words::Language;
use proptest::collection::{btree_map, vec};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Texts as they may come: markup, marks that turn a line around, control signs, anything.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        ".{0,12}",
        any::<String>(),
        Just("<img src=x onerror=alert(1)>&amp;\"'".to_owned()),
        Just("\u{202e}gnp.txt\u{2066}\u{200f}".to_owned()),
        Just("\0\u{7}\u{1b}[2J\u{85}\r".to_owned()),
        Just("=HYPERLINK(\"http://x\")".to_owned()),
        Just("{\"beatwalk\": \"marks\"}\\u0000".to_owned()),
    ]
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![-1.0e9..1.0e9, Just(0.0), Just(-0.0), Just(f64::MIN_POSITIVE), Just(f64::MAX)]
}

fn any_tolerance() -> impl Strategy<Value = Tolerance> {
    (any_number(), any::<bool>()).prop_map(|(amount, percent)| {
        if percent { Tolerance::Percent(amount) } else { Tolerance::Within(amount) }
    })
}

fn any_ask() -> impl Strategy<Value = Ask> {
    let landmarks = vec((0usize..11).prop_map(|which| Landmark::ALL[which]), 0..4);
    let measured = (0..Measured::ALL.len()).prop_map(|which| Measured::ALL[which]);
    prop_oneof![
        ("[ab]", landmarks).prop_map(|(material, landmarks)| Ask::Points { material, landmarks }),
        ("[ab]", measured, any_tolerance()).prop_map(|(material, measured, tolerance)| {
            Ask::Measure { material, measured, tolerance }
        }),
        (proptest::option::of(any_number()), any_text(), any_tolerance())
            .prop_map(|(value, unit, tolerance)| Ask::Number { value, unit, tolerance }),
        (vec(any_text(), 0..4), proptest::option::of(0usize..5))
            .prop_map(|(options, right)| Ask::Choice { options, right }),
        proptest::option::of(any_text()).prop_map(|guide| Ask::Text { guide }),
    ]
}

fn any_saved() -> impl Strategy<Value = SavedRecording> {
    (any_text(), any_text(), vec(-1.0e6f32..1.0e6, 1..40)).prop_map(|(file, name, samples)| {
        SavedRecording::new(
            file,
            Recording {
                name,
                rate: SampleRate::new(250.0).unwrap(),
                unit: VoltageUnit::Counts,
                samples: samples.into(),
                holes: Vec::new(),
                marks: Vec::new(),
            },
        )
    })
}

fn any_assignment() -> impl Strategy<Value = Assignment> {
    let task = ("[1-4]{1,2}", any_text(), any_number(), any_ask());
    let task = task.prop_map(|(key, text, points, ask)| Task::new(key, text, points, ask));
    let given = (any_text(), any_saved()).prop_map(|(label, saved)| {
        let mut settings = Settings::default();
        settings.calibration = Some(Calibration::new(100.0, 512.0).unwrap());
        settings.part = Some(SampleSpan::new(0, saved.recording.samples.len()));
        Material::given("a", label, saved, settings)
    });
    let own = any_text().prop_map(|label| Material::own("b", label));
    let help = (any::<bool>(), any::<bool>(), any::<bool>());
    let words = (any_text(), any_text(), any_text(), proptest::option::of(0usize..2));
    (words, help, vec(task, 0..5), given, own).prop_map(|(words, help, tasks, given, own)| {
        let (title, instructions, due, language) = words;
        let mut assignment = Assignment::default();
        assignment.title = title;
        assignment.instructions = instructions;
        assignment.due = due;
        assignment.language = language.map(|which| Language::ALL[which]);
        (assignment.help.verdicts, assignment.help.worked_answers, assignment.help.questions) =
            help;
        assignment.materials = vec![given, own];
        assignment.tasks = tasks;
        assignment
    })
}

fn any_homework() -> impl Strategy<Value = (Assignment, Homework)> {
    let answered = prop_oneof![
        any_text().prop_map(Answered::Number),
        any::<usize>().prop_map(Answered::Choice),
        any_text().prop_map(Answered::Text),
    ];
    let answers = btree_map("[1-4]{1,2}", answered, 0..5);
    let seconds = btree_map("[1-4ab]", 0.0f64..1.0e6, 0..3);
    (any_assignment(), any_text(), answers, seconds, proptest::option::of(any_saved())).prop_map(
        |(assignment, student, answers, seconds, own)| {
            let mut homework = Homework::of(&assignment.for_students());
            homework.student = student;
            homework.answers = answers;
            homework.seconds = seconds;
            homework.own.extend(own.map(|own| ("b".to_owned(), own)));
            (assignment, homework)
        },
    )
}

/// JSON of any shape, also with the label of our documents on it.
fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any_number().prop_map(Value::from),
        ".{0,6}".prop_map(Value::from),
    ];
    let name = prop_oneof![
        Just("answers"),
        Just("works"),
        Just("own"),
        Just("seal"),
        Just("tasks"),
        Just("title"),
        Just("materials"),
        Just("fingerprint"),
        Just("hand_ins"),
        Just("seconds"),
        Just("ask"),
        Just("kind"),
        Just("key"),
        Just("points"),
        Just("text"),
        Just("session"),
    ];
    let fields = move |value| btree_map(name.clone().prop_map(str::to_owned), value, 0..6);
    let nested = leaf.prop_recursive(4, 40, 6, move |inner| {
        prop_oneof![
            vec(inner.clone(), 0..4).prop_map(Value::from),
            fields(inner).prop_map(|fields| Value::Object(fields.into_iter().collect())),
        ]
    });
    (nested, 0usize..5).prop_map(|(mut value, kind)| {
        let kinds = ["assignment", "homework", "hand_in", "marks"];
        if let (Some(kind), Value::Object(fields)) = (kinds.get(kind), &mut value) {
            fields.insert("beatwalk".to_owned(), json!(kind));
            fields.insert("version".to_owned(), json!(3));
        }
        value
    })
}

proptest! {
    #[test]
    fn every_document_is_opened_as_it_was_written((assignment, homework) in any_homework()) {
        let again = Assignment::from_json(&assignment.to_json().unwrap()).unwrap();
        prop_assert_eq!(&again, &assignment);
        let students = assignment.for_students();
        prop_assert_eq!(students.fingerprint(), assignment.fingerprint());
        let copied = Assignment::from_json(&students.to_json().unwrap()).unwrap();
        prop_assert_eq!(copied.fingerprint(), assignment.fingerprint());

        let mut kept = Homework::from_json(&homework.to_json().unwrap()).unwrap();
        prop_assert!(kept.own.is_empty());
        kept.own = homework.own.clone();
        prop_assert_eq!(&kept, &homework);

        let text = homework.hand_in("now".to_owned()).unwrap();
        let opened = HandIn::from_json(&text).unwrap();
        prop_assert_eq!(opened.seal, Seal::Whole);
        kept.handed_in = "now".to_owned();
        prop_assert_eq!(&opened.homework, &kept);

        let mut marker = Marker::new(assignment.clone());
        let sheet = marker.mark("x", &text, &mut ()).outcome.unwrap();
        prop_assert_eq!(sheet.lines.len(), assignment.tasks.len());
        let wire = serde_json::to_string(&sheet).unwrap();
        prop_assert_eq!(&serde_json::from_str::<Sheet>(&wire).unwrap(), &sheet);
        let mut marks = Marks::of(&assignment);
        for line in &sheet.lines {
            marks.give(&sheet, &line.key, Some(line.of / 3.0));
            marks.comment_on(&sheet, &line.key, &homework.student);
        }
        prop_assert_eq!(&Marks::from_json(&marks.to_json().unwrap()).unwrap(), &marks);
        let csv = marks_csv(&assignment, &[sheet], &marks);
        let rows = csv::Reader::from_reader(csv.as_bytes()).into_records().count();
        prop_assert_eq!(rows, 1);
    }

    #[test]
    fn any_text_at_all_is_answered(text in any_text(), value in any_json()) {
        for text in [text, value.to_string()] {
            let _ = (Assignment::from_json(&text), Homework::from_json(&text));
            let _ = (HandIn::from_json(&text), Marks::from_json(&text));
            let mut marker = Marker::new(Assignment::default());
            prop_assert!(marker.mark("x", &text, &mut ()).outcome.is_err());
        }
    }

    #[test]
    fn a_spoilt_hand_in_is_refused_or_marked(
        at in any::<prop::sample::Index>(), byte in any::<u8>(), cut in any::<bool>(),
    ) {
        let (assignment, good) = &*WORKED;
        let mut bytes = good.clone().into_bytes();
        // Where it is most delicate: before the samples.
        let place = at.index(bytes.len());
        if cut {
            bytes.truncate(place);
        } else {
            bytes[place] = byte;
        }
        let text = String::from_utf8_lossy(&bytes);
        let mut marker = Marker::new(assignment.clone());
        if let Ok(sheet) = marker.mark("x", &text, &mut ()).outcome {
            prop_assert!(sheet.seal != Seal::Whole || text == *good || same_value(&text, good));
        }
    }
}
