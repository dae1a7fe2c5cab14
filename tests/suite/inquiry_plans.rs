//! How breaths and taps are found in the recording at hand: as chosen, or by what it offers.

use beatwalk::analysis::read;
use beatwalk::inquiry::{BreathingPlan, NoBreathing, NoReflex, ReflexPlan, TapPlan, ToldBy};
use beatwalk::lesson::Evidence;
use beatwalk::signal::{Mark, MarkKind, Recording, SampleIndex};
use beatwalk::synth::Demo;

#[test]
fn marks_of_breaths_are_taken_where_they_are_offered() {
    let mut recording = Demo::Resting.recording().unwrap();
    let reading = read(&recording, &mut |_| {});
    let told = |plan: BreathingPlan, recording: &Recording| {
        let evidence = Evidence { recording, reading: &reading };
        plan.find(evidence, &[]).map(|found| found.told_by)
    };
    assert_eq!(told(BreathingPlan::Marks, &recording), Err(NoBreathing::NoMarks));
    recording.marks = (0..7)
        .map(|breath| Mark {
            at: SampleIndex::new(100 + 1000 * breath),
            kind: MarkKind::Note,
            text: "in".to_owned(),
        })
        .collect();
    assert_eq!(told(BreathingPlan::AsOffered, &recording), Ok(ToldBy::Marks));
    assert_eq!(told(BreathingPlan::Marks, &recording), Ok(ToldBy::Marks));
}

#[test]
fn the_taps_of_the_invented_knee_are_found_by_its_marks() {
    let recording = Demo::KneeReflex.recording().unwrap();
    let found = ReflexPlan::default().find(&recording, &[]).unwrap();
    let latency = found.latency_ms.unwrap();
    assert!(latency.n >= 3 && (latency.mean - 17.8).abs() < 1.5, "{latency:?}");
    let unmarked = Recording { marks: Vec::new(), ..recording };
    let marks = ReflexPlan { taps: TapPlan::Marks, ..ReflexPlan::default() };
    assert_eq!(marks.find(&unmarked, &[]).err(), Some(NoReflex::NoMarks));
    let channel = ReflexPlan { taps: TapPlan::Channel(3), ..marks };
    assert_eq!(channel.find(&unmarked, &[]).err(), Some(NoReflex::FlatChannel));
}
