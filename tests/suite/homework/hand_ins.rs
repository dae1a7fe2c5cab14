//! Hand-ins that are not as they should be: spoilt, foreign, altered, doubled, or made to choose the answer.

use super::marking::{BEST, Student, done, handed_in, sheet};
use super::{assignment, rate};
use beatwalk::analysis::{Cleaning, Smoother, SmootherKind, Window};
use beatwalk::homework::{
    Doubled, FaultKind, Homework, Marked, Marker, Origin, Seal, Sheet, Verdict, doubled,
};
use beatwalk::report::{Orientation, Settings};
use beatwalk::signal::SampleSpan;

#[test]
fn a_bad_file_spoils_only_itself() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let good = handed_in(&done(&assignment, "Q01", BEST));
    let half = &good[..good.len() / 2];
    let newer = good.replacen("\"version\": 3", "\"version\": 99", 1);
    let homework = done(&assignment, "Q01", BEST).to_json().unwrap();
    let faults = [
        ("", FaultKind::Empty),
        (" \n", FaultKind::Empty),
        (half, FaultKind::Damaged),
        ("[1, 2", FaultKind::Damaged),
        ("{}", FaultKind::NotAHandIn),
        (&homework, FaultKind::NotAHandIn),
        (&newer, FaultKind::Newer),
    ];
    for (text, kind) in faults {
        let Marked { outcome, .. } = marker.mark("bad.json", text, &mut ());
        let fault = outcome.unwrap_err();
        assert_eq!(fault.kind, kind, "{fault:?}");
        for said in [&fault.said, &fault.remedy] {
            assert!(!said.to_string().contains("homework."), "there is no message {said}");
        }
        assert!(sheet(&mut marker, &good).lines.iter().any(|line| line.earned == Some(5.0)));
    }
}

#[test]
fn foreign_altered_empty_and_doubled_hand_ins_are_told_apart() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let good = handed_in(&done(&assignment, "Q01", BEST));
    let mut sheets = vec![sheet(&mut marker, &good)];

    let altered = sheet(&mut marker, &good.replacen("\"number\": \"3\"", "\"number\": \"4\"", 1));
    assert_eq!((altered.seal, altered.origin), (Seal::Broken, Origin::This));
    let start = good.find("  \"seal\"").unwrap();
    let end = start + good[start..].find('\n').unwrap() + 1;
    let unsealed = sheet(&mut marker, &(good[..start].to_owned() + &good[end..]));
    assert_eq!(unsealed.seal, Seal::Missing);
    let rewrapped = good.replace('\n', "\r\n").replace("  ", "\t");
    assert_eq!(sheet(&mut marker, &rewrapped).seal, Seal::Whole);

    let mut other = assignment.clone();
    other.title = "After the stairs".to_owned();
    let foreign = handed_in(&done(&other, "Q02", BEST));
    let unmarked = sheet(&mut marker, &foreign);
    assert_eq!(unmarked.origin, Origin::Other { title: "After the stairs".to_owned() });
    assert!(unmarked.lines.is_empty() && !unmarked.is_empty());
    marker.takes_others = true;
    assert_eq!(sheet(&mut marker, &foreign).lines.len(), 5);

    let empty = Homework::of(&assignment);
    assert!(sheet(&mut marker, &handed_in(&empty)).is_empty());
    assert!(!sheets[0].is_empty());

    let second = Student { count: "4", ..BEST };
    for text in [good.clone(), handed_in(&done(&assignment, " q01", second))] {
        sheets.push(sheet(&mut marker, &text));
    }
    assert_eq!(doubled(&sheets), [None, Some(Doubled::Copy(0)), Some(Doubled::Student(0))]);
}

#[test]
fn students_can_not_choose_the_answer() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let right = |sheet: &Sheet| {
        let verdicts: Vec<Verdict> = sheet.lines.iter().map(|line| line.verdict).collect();
        (verdicts[0], verdicts[1])
    };
    let with = |change: &dyn Fn(&mut Settings), rate_off| {
        let student = Student { rate_off: Some(rate_off), ..BEST };
        let mut homework = done(&assignment, "Q01", student);
        change(&mut homework.works.get_mut("a").unwrap().settings);
        handed_in(&homework)
    };
    // Every second beat taken away would halve the rate.
    let edits = |settings: &mut Settings| {
        for beat in super::REST.1.beats.iter().step_by(2) {
            settings.beats.take_away(beat.r);
        }
    };
    let halved = sheet(&mut marker, &with(&edits, -rate() / 2.0));
    assert_eq!(right(&halved), (Verdict::Right, Verdict::Wrong));
    assert!(!halved.lines[1].notes.is_empty(), "the teacher is told of the corrections");
    assert_eq!(right(&sheet(&mut marker, &with(&edits, 0.0))), (Verdict::Right, Verdict::Right));
    // Quietening and turning over move nothing.
    let quiet = |settings: &mut Settings| {
        let smoother = Smoother { kind: SmootherKind::Mean, window: Window::new(15).unwrap() };
        settings.cleaning = Cleaning { smoother: Some(smoother), ..Cleaning::default() };
        settings.orientation = Orientation::TurnedOver;
    };
    assert_eq!(right(&sheet(&mut marker, &with(&quiet, 0.0))).1, Verdict::Right);
    // A part without a beat gives no reference, and no marks by itself.
    let none = |settings: &mut Settings| settings.part = Some(SampleSpan::new(0, 3700));
    let part = sheet(&mut marker, &with(&none, 0.0));
    assert_eq!(part.lines[1].verdict, Verdict::Right);
    let nothing = |settings: &mut Settings| settings.part = Some(SampleSpan::new(3740, 3750));
    let nothing = sheet(&mut marker, &with(&nothing, 0.0));
    assert_eq!(nothing.lines[0].verdict, Verdict::Missing, "its marks lie outside of its part");
    assert_eq!(nothing.lines[1].earned, None);
}

#[test]
fn a_sample_far_out_is_no_answer() {
    let assignment = assignment();
    let mut marker = Marker::new(assignment.clone());
    let text = handed_in(&done(&assignment, "Q01", BEST));
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let beat = value["works"]["a"]["session"]["beat"].as_u64().unwrap();
    let far = text.replace(&format!("\"beat\": {beat}"), "\"beat\": 18446744073709551615");
    let sheet = sheet(&mut marker, &far);
    assert_eq!(sheet.lines[0].verdict, Verdict::Missing);
}
