//! Homework through the front door: its documents, their marking, the ready assignments.

mod anything;
mod documents;
mod hand_ins;
mod marking;
mod ready;
mod schemas;

use beatwalk::analysis::{Reading, read};
use beatwalk::homework::{Ask, Assignment, Homework, Material, Task, Tolerance};
use beatwalk::inquiry::Measured;
use beatwalk::lesson::{Command, Evidence, Grip, Lesson, Quantity, suggest_beat};
use beatwalk::report::{SavedRecording, Settings};
use beatwalk::signal::{Landmark, Recording, SampleIndex, SampleSpan, Seconds};
use beatwalk::synth::Demo;
use std::sync::LazyLock;

/// The start of an invented recording of the class, and what is found in it.
static REST: LazyLock<(Recording, Reading)> = LazyLock::new(|| {
    let recording = cut(Demo::Resting, 15.0);
    let reading = read(&recording, &mut ());
    (recording, reading)
});

/// The points of the first task.
const POINTS: [Landmark; 5] =
    [Landmark::POnset, Landmark::QrsOnset, Landmark::R, Landmark::QrsEnd, Landmark::TEnd];

/// So many seconds of an invented recording.
fn cut(demo: Demo, seconds: f64) -> Recording {
    let whole = demo.recording().unwrap();
    let samples = whole.rate.count(Seconds::new(seconds)).min(whole.samples.len());
    whole.part(SampleSpan::new(0, samples))
}

fn rest_saved() -> SavedRecording {
    SavedRecording::new(Demo::Resting.file_name(), REST.0.clone())
}

/// One task of each kind, 5, 2, 1, 1 and 3 points.
fn assignment() -> Assignment {
    let mut assignment = Assignment::default();
    assignment.title = "A heartbeat at rest".to_owned();
    assignment.instructions = "Read the recording of Q03.\nTake your time.".to_owned();
    assignment.due = "Friday".to_owned();
    let given = Material::given("a", "Q03 at rest", rest_saved(), Settings::default());
    assignment.materials = vec![given, Material::own("own", "Your own recording")];
    let on = |material: &str| material.to_owned();
    let rate = Measured::Of(Quantity::Rate);
    let options = ["the atria fill", "the ventricles repolarise", "the valves shut"];
    assignment.tasks = vec![
        Task::new(
            "1",
            "Place these points.",
            5.0,
            Ask::Points { material: on("a"), landmarks: POINTS.to_vec() },
        ),
        Task::new(
            "2",
            "How fast does the heart beat?",
            2.0,
            Ask::Measure { material: on("a"), measured: rate, tolerance: Tolerance::Within(2.0) },
        ),
        Task::new(
            "3",
            "How many electrodes are there?",
            1.0,
            Ask::Number {
                value: Some(3.0),
                unit: String::new(),
                tolerance: Tolerance::Within(0.0),
            },
        ),
        Task::new(
            "4",
            "What does T show?",
            1.0,
            Ask::Choice { options: options.map(str::to_owned).to_vec(), right: Some(1) },
        ),
        Task::new(
            "5",
            "Why is P no contraction?",
            3.0,
            Ask::Text { guide: Some("Electrical, and before it.".to_owned()) },
        ),
    ];
    assignment
}

/// The rate at rest, as the analysis finds it.
fn rate() -> f64 {
    REST.1.intervals.rate_bpm.unwrap().value
}

/// Places the first so many of the points where they were found, and the others a second away.
fn place(homework: &mut Homework, right: usize) {
    let (recording, reading) = &*REST;
    let evidence = Evidence { recording, reading };
    let beat = &reading.beats[suggest_beat(recording, reading).unwrap()];
    let mut lesson = Lesson::default();
    lesson.apply(Command::ChooseBeat(beat.r), evidence).unwrap();
    for (place, landmark) in POINTS.into_iter().enumerate() {
        let found = beat.landmarks.at(landmark).unwrap();
        let off = if place < right { 0 } else { recording.rate.count(Seconds::new(1.0)) };
        let at = SampleIndex::new(found.get() + off);
        lesson.apply(Command::Place { landmark, at, grip: Grip::Fresh }, evidence).unwrap();
    }
    homework.works.get_mut("a").unwrap().session = lesson.session().clone();
}
