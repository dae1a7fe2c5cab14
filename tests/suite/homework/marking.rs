//! Marking against known answers.

use super::{assignment, place, rate, rest_saved};
use beatwalk::homework::{
    Answered, Ask, Assignment, Feedback, Homework, Marker, Marks, Origin, Seal, Sheet, TaskState,
    Verdict, doubled, marks_csv,
};
use beatwalk::inquiry::Measured;
use beatwalk::signal::SampleSpan;
use beatwalk::words::Language;

/// What a student does.
#[derive(Clone, Copy)]
pub(super) struct Student {
    /// How many of the five points are right; `None` leaves them all out.
    pub(super) points: Option<usize>,
    /// How far the rate is off, /min; `None` leaves it out.
    pub(super) rate_off: Option<f64>,
    pub(super) count: &'static str,
    pub(super) choice: Option<usize>,
    pub(super) text: &'static str,
}

/// A student, and what the hand-in earns by itself.
type Case = (Student, f64, usize);

/// Thirty students: 1 point a right point, 2 for the rate within 2 a minute, 1 for "3", 1 for the second choice;
/// a text waits for the teacher.
fn class() -> Vec<Case> {
    let mut class = Vec::new();
    for points in [None, Some(0), Some(1), Some(3), Some(5)] {
        for (rate_off, of_rate) in [(Some(0.0), 2.0), (Some(1.9), 2.0), (Some(-2.6), 0.0)] {
            for (count, of_count, choice, of_choice, text, open) in [
                ("3,0", 1.0, Some(1), 1.0, "It is electrical.", 1),
                ("4", 0.0, Some(2), 0.0, "", 0),
            ] {
                let total = points.unwrap_or(0) as f64 + of_rate + of_count + of_choice;
                class.push((Student { points, rate_off, count, choice, text }, total, open));
            }
        }
    }
    class
}

pub(super) fn done(assignment: &Assignment, name: &str, student: Student) -> Homework {
    let mut homework = Homework::of(&assignment.for_students());
    homework.student = name.to_owned();
    if let Some(right) = student.points {
        place(&mut homework, right);
    }
    let mut answer = |key: &str, answered| homework.answers.insert(key.to_owned(), answered);
    if let Some(off) = student.rate_off {
        answer("2", Answered::Number(format!("{:.2}", rate() + off).replace('.', ",")));
    }
    answer("3", Answered::Number(student.count.to_owned()));
    student.choice.map(|choice| answer("4", Answered::Choice(choice)));
    answer("5", Answered::Text(student.text.to_owned()));
    homework
}

pub(super) const BEST: Student = Student {
    points: Some(5),
    rate_off: Some(0.0),
    count: "3",
    choice: Some(1),
    text: "Depolarisation comes first.",
};

pub(super) fn handed_in(homework: &Homework) -> String {
    homework.hand_in("2026-11-25T18:00".to_owned()).unwrap()
}

pub(super) fn sheet(marker: &mut Marker, text: &str) -> Sheet {
    marker.mark("q.json", text, &mut ()).outcome.unwrap()
}

#[test]
fn thirty_students_are_marked_as_by_hand() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let marks = Marks::of(&assignment);
    let class = class();
    assert_eq!(class.len(), 30);
    let mut sheets = Vec::new();
    for (number, (student, total, open)) in class.into_iter().enumerate() {
        let name = format!("Q{number:02}");
        let sheet = sheet(&mut marker, &handed_in(&done(&assignment, &name, student)));
        let found = marks.total(&sheet);
        assert_eq!((found.earned, found.of, found.open), (total, 12.0, open), "{name}: {sheet:?}");
        assert_eq!((&sheet.origin, sheet.seal), (&Origin::This, Seal::Whole));
        sheets.push(sheet);
    }
    assert_eq!(doubled(&sheets), vec![None; 30]);
    let csv = marks_csv(&assignment, &sheets, &marks);
    assert_eq!(csv.lines().count(), 31);
}

#[test]
fn points_move_with_the_part() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let mut homework = done(&assignment, "Q01", BEST);
    let work = homework.works.get_mut("a").unwrap();
    work.use_part(Some(SampleSpan::new(250, 3500)), super::REST.0.samples.len());
    let all = work.session.placements().filter(|one| one.answer.is_some()).count();
    assert_eq!(all, 5);
    assert_eq!(sheet(&mut marker, &handed_in(&homework)).lines[0].verdict, Verdict::Right);
    // On a beat that nobody knows, nothing was placed.
    let work = homework.works.get_mut("a").unwrap();
    let far = work.session.moved(-100, super::REST.0.samples.len());
    work.session = far;
    let sheet = sheet(&mut marker, &handed_in(&homework));
    assert_eq!((sheet.lines[0].verdict, sheet.lines[0].earned), (Verdict::Missing, Some(0.0)));
    assert!(!sheet.lines[0].notes.is_empty());
}

#[test]
fn the_students_own_recording_is_the_reference() {
    let mut assignment = assignment();
    for task in &mut assignment.tasks {
        if let Ask::Points { material, .. } | Ask::Measure { material, .. } = &mut task.ask {
            *material = "own".to_owned();
        }
    }
    let mut marker = Marker::new(assignment.clone());
    let mut homework = done(&assignment, "Q01", BEST);
    let work = homework.works["a"].clone();
    homework.works.insert("own".to_owned(), work);
    let without = sheet(&mut marker, &handed_in(&homework));
    assert_eq!(without.lines[0].verdict, Verdict::Missing);
    assert_eq!(without.lines[1].verdict, Verdict::NoReference);
    homework.own.insert("own".to_owned(), rest_saved());
    let with = sheet(&mut marker, &handed_in(&homework));
    assert_eq!(with.lines[0].verdict, Verdict::Right);
    assert_eq!(with.lines[1].verdict, Verdict::Right);
    assert!((with.lines[1].reference.unwrap() - rate()).abs() < 1e-9);
}

#[test]
fn what_is_done_and_what_is_left() {
    let assignment = assignment();
    let states = |homework: &Homework| {
        assignment.tasks.iter().map(|task| homework.state(&assignment, task)).collect::<Vec<_>>()
    };
    let mut homework = Homework::of(&assignment);
    assert_eq!(states(&homework), [TaskState::Untouched; 5]);
    homework.answers.insert("2".to_owned(), Answered::Number("about 70".to_owned()));
    homework.answers.insert("4".to_owned(), Answered::Choice(9));
    homework.answers.insert("5".to_owned(), Answered::Text(" \n".to_owned()));
    assert_eq!(
        states(&homework)[1..],
        [TaskState::Begun, TaskState::Untouched, TaskState::Untouched, TaskState::Untouched]
    );
    assert_eq!(homework.left(&assignment).len(), 5);
    assert!(done(&assignment, "", BEST).left(&assignment).is_empty());
    assert!(homework.fits(&assignment).is_ok());
    // What is no number to us may be one to a person.
    let mut marker = Marker::new(assignment.clone());
    let line = sheet(&mut marker, &handed_in(&homework)).lines[1].clone();
    assert_eq!((line.verdict, line.earned), (Verdict::ForTeacher, None));
    homework.answers.insert("2".to_owned(), Answered::Number(format!("{:.1}/min", rate())));
    let line = sheet(&mut marker, &handed_in(&homework)).lines[1].clone();
    assert_eq!((line.verdict, line.earned), (Verdict::Right, Some(2.0)));
}

#[test]
fn the_teacher_has_the_last_word() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let sheet = sheet(&mut marker, &handed_in(&done(&assignment, "=cmd()", BEST)));
    let mut marks = Marks::of(&assignment);
    marks.give(&sheet, "5", Some(2.5));
    marks.give(&sheet, "1", Some(f64::NAN));
    marks.give(&sheet, "1", Some(-1.0));
    marks.give(&sheet, "4", Some(0.0));
    marks.comment_on(&sheet, "5", "=HYPERLINK(\"x\")");
    assert_eq!((marks.total(&sheet).earned, marks.total(&sheet).open), (10.5, 0));
    let kept = Marks::from_json(&marks.to_json().unwrap()).unwrap();
    assert_eq!(kept, marks);
    let csv = marks_csv(&assignment, std::slice::from_ref(&sheet), &marks);
    let row = csv.lines().nth(1).unwrap();
    assert!(row.starts_with("'=cmd(),q.json,this,whole,2026-11-25T18:00,"), "{row}");
    assert!(row.ends_with(",2.50,\"'=HYPERLINK(\"\"x\"\")\""), "{row}");
    for language in Language::ALL {
        let feedback = Feedback::of(&assignment, &sheet, &marks, language);
        assert_eq!((feedback.rows.len(), feedback.notes.len()), (5, 0));
        let rate = &feedback.rows[1];
        assert!(rate.answer.ends_with("\u{a0}/min") && rate.expected.ends_with("\u{a0}/min"));
        assert!(feedback.rows.iter().all(|row| !row.verdict.contains("homework.")));
    }
    marks.give(&sheet, "5", None);
    assert_eq!(marks.total(&sheet).open, 1);
    let open = Feedback::of(&assignment, &sheet, &marks, Language::English);
    assert_eq!(open.notes.len(), 1);
}

#[test]
fn help_and_time_come_along() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let mut homework = done(&assignment, "Q01", BEST);
    homework.seconds.insert("1".to_owned(), 90.0);
    homework.seconds.insert("a".to_owned(), 30.0);
    homework.seconds.insert("2".to_owned(), -5.0);
    let sheet = sheet(&mut marker, &handed_in(&homework));
    assert_eq!((sheet.seconds, sheet.lines[0].seconds), (Some(120.0), Some(90.0)));
    assert_eq!((sheet.lines[1].seconds, sheet.help_used.checks), (None, 0));
}

#[test]
fn every_quantity_can_be_asked_for() {
    let mut assignment = assignment();
    for measured in Measured::ALL {
        if let Ask::Measure { measured: asked, .. } = &mut assignment.tasks[1].ask {
            *asked = measured;
        }
        let again = Assignment::from_json(&assignment.to_json().unwrap()).unwrap();
        assert_eq!(again, assignment);
        let mut marker = Marker::new(again);
        let line = sheet(&mut marker, &handed_in(&done(&assignment, "", BEST))).lines[1].clone();
        assert!(line.reference.is_some(), "{measured:?}: {line:?}");
    }
    let unknown = assignment.to_json().unwrap().replacen("\"r_height\"", "\"weight\"", 1);
    assert!(Assignment::from_json(&unknown).is_err());
}
