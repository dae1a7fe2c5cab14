//! The ready assignments in `demo/assignments/`: three of them in two languages, in the class of the invented
//! recordings. `BEATWALK_REWRITE=1` writes them anew.
//!
//! Tolerances of intervals are the limits of their two points in CSE 1985 (two standard deviations, as in
//! `lesson/tolerance.rs`), added in squares and rounded up: PR 12.1, QRS 13.3, QT 31.3 ms. Statements and their
//! sources: waves, AV node and filling after `OpenStax`, Anatomy and Physiology 2e; swapped arms Rosen 2014; hum, wander and
//! tremor as in `words/findings.yml`.

mod sets;
mod writer;

use super::cut;
use beatwalk::analysis::read;
use beatwalk::homework::{Answered, Ask, Assignment, Homework, Marker, Verdict};
use beatwalk::inquiry::{Measured, Stretch};
use beatwalk::lesson::{Evidence, Quantity};
use beatwalk::report::EXTENSION;
use beatwalk::synth::Demo;
use beatwalk::words::Language;
use sets::{one_beat_at_rest, rest_and_stairs, what_is_wrong};

/// A ready assignment in a language.
type Make = fn(Language) -> Assignment;

const READY: [(&str, Make); 3] = [
    ("one-beat-at-rest", one_beat_at_rest),
    ("rest-and-stairs", rest_and_stairs),
    ("what-is-wrong", what_is_wrong),
];

#[test]
fn the_ready_assignments_are_these_and_can_be_given_out() {
    for (name, make) in READY {
        for language in Language::ALL {
            let assignment = make(language);
            assert_eq!(assignment.problems(), [], "{name}");
            let file = format!("../demo/assignments/{name}-{}{EXTENSION}", language.tag());
            crate::golden::assert_kept(&file, &(assignment.to_json().unwrap() + "\n"));
        }
    }
    let [rest, stairs, wrong] = READY.map(|(_, make)| make(Language::Spanish).tasks.len());
    assert_eq!((rest, stairs, wrong), (8, 7, 5));
}

#[test]
fn everything_that_is_measured_in_them_has_a_reference() {
    for (name, make) in READY {
        let assignment = make(Language::English);
        let homework = Homework::of(&assignment);
        let mut answered = homework;
        for task in &assignment.tasks {
            answered.answers.insert(task.key.clone(), Answered::Number("1".to_owned()));
        }
        let text = answered.hand_in(String::new()).unwrap();
        let sheet = Marker::new(assignment.clone()).mark("x", &text, &mut ()).outcome.unwrap();
        for (line, task) in sheet.lines.iter().zip(&assignment.tasks) {
            if matches!(task.ask, Ask::Measure { .. }) {
                assert_eq!(line.verdict, Verdict::Wrong, "{name} {}: {line:?}", task.text);
                println!("{name} {}: {:?}", task.text, line.reference);
            }
        }
    }
}

#[test]
fn tp_gives_most_of_the_time_in_the_recordings_that_are_given() {
    let parts = |demo| {
        let recording = cut(demo, 15.0);
        let reading = read(&recording, &mut ());
        let stretch = Stretch::whole(Evidence { recording: &recording, reading: &reading });
        let of = |quantity| Measured::Of(quantity).of(&stretch).unwrap();
        let [rr, pr, qrs, qt] = [Quantity::Rr, Quantity::Pr, Quantity::Qrs, Quantity::Qt].map(of);
        // From the end of T to the next P, by what is left of RR.
        [pr, qrs, qt, rr - pr - qt]
    };
    let (rest, after) = (parts(Demo::Resting), parts(Demo::AfterStairs));
    let shorter: Vec<f64> = rest.iter().zip(after).map(|(rest, after)| rest - after).collect();
    println!("{rest:?} {after:?}");
    assert!(shorter[..3].iter().all(|part| *part < shorter[3]), "PR, QRS, QT, TP: {shorter:?}");
}
