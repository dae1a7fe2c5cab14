//! What leaves the app: saved readings that open again, tables, and the report.
//!
//! The recording is invented: the beat of the worked example `intervals-01` (PR 140, QRS 88, QT 360,
//! RR 800 ms), over and over. Golden tables are in `tests/golden`; after a wanted change run once with
//! `BEATWALK_REWRITE=1` and look at them.

use super::golden::assert_golden;
use beatwalk::analysis::{
    Beat, Corrected, Intervals, Measurement, Polarity, Reading, Standing, WhySetAside,
};
use beatwalk::lesson::{Command, Evidence, Grip, Lesson, ResultsTable, Session, Step};
use beatwalk::report::{
    Orientation, Report, SavedError, SavedReading, SavedRecording, SavedWork, landmarks_csv,
    results_csv,
};
use beatwalk::signal::{
    BeatCode, Calibration, Hole, HoleCause, Landmark, Landmarks, Mark, MarkKind, Recording,
    SampleIndex, SampleRate, SampleSpan, VoltageUnit,
};
use beatwalk::words::{Language, Phrase};
use proptest::prelude::*;
use std::path::Path;

/// Where the points lie, in samples of 1 ms from the start of a beat.
const PLACES: [(Landmark, usize); 11] = [
    (Landmark::POnset, 100),
    (Landmark::PPeak, 150),
    (Landmark::PEnd, 198),
    (Landmark::QrsOnset, 240),
    (Landmark::Q, 255),
    (Landmark::R, 278),
    (Landmark::S, 300),
    (Landmark::QrsEnd, 328),
    (Landmark::TOnset, 420),
    (Landmark::TPeak, 520),
    (Landmark::TEnd, 600),
];

fn recording() -> Recording {
    Recording {
        name: "lead I".to_owned(),
        rate: SampleRate::new(1000.0).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: (0..4000).map(|i| (i as f32 / 100.0).sin()).collect(),
        holes: vec![Hole { span: SampleSpan::new(3900, 3950), cause: HoleCause::NoValue }],
        marks: vec![Mark {
            at: SampleIndex::new(278),
            kind: MarkKind::Beat(BeatCode('N')),
            text: "first".to_owned(),
        }],
    }
}

/// Four beats; the last is set aside, and its Q can't be measured.
fn reading() -> Reading {
    let mut beats: Vec<Beat> = (0..4)
        .map(|number| {
            let mut landmarks = Landmarks::default();
            for (landmark, at) in PLACES {
                landmarks.set(landmark, Some(SampleIndex::new(number * 800 + at)));
            }
            let r = SampleIndex::new(number * 800 + 278);
            Beat { landmarks, ..Beat::at(r) }
        })
        .collect();
    beats[3].standing = Standing::SetAside(WhySetAside::OtherShape);
    beats[3].landmarks.set(Landmark::Q, None);
    Reading {
        polarity: Polarity::Upright,
        found: beats.iter().map(|beat| beat.r).collect(),
        beats,
        unusable: Vec::new(),
        corrected: Corrected::default(),
        median: None,
        intervals: Intervals {
            pr_ms: Measurement::of(&[140.0, 140.0, 140.0], 0.82),
            qrs_ms: Measurement::of(&[88.0, 88.0, 88.0], 0.82),
            qt_ms: None,
            rr_ms: Measurement::of(&[800.0, 800.0], 0.82),
            rate_bpm: Measurement::rate_of(&[800.0, 800.0], 0.82),
        },
        findings: Vec::new(),
    }
}

/// A student who reads the second beat: R right, PR a little long, Q overlooked, T not yet placed.
fn session() -> Session {
    let (recording, reading) = (recording(), reading());
    let evidence = Evidence { recording: &recording, reading: &reading };
    let mut lesson = Lesson::default();
    let mark =
        |landmark, at| Command::Place { landmark, at: SampleIndex::new(at), grip: Grip::Fresh };
    for command in [
        Command::ChooseBeat(SampleIndex::new(1078)),
        mark(Landmark::R, 1079),
        Command::Check(Landmark::R),
        Command::NotHere(Landmark::Q),
        Command::Check(Landmark::Q),
        mark(Landmark::POnset, 880),
        Command::Check(Landmark::POnset),
        mark(Landmark::POnset, 890),
        Command::Check(Landmark::POnset),
        Command::Reveal(Landmark::POnset),
        mark(Landmark::QrsOnset, 1042),
        mark(Landmark::QrsEnd, 1300),
        Command::GoTo(Step::Place(Landmark::QrsEnd)),
    ] {
        lesson.apply(command, evidence).unwrap();
    }
    lesson.session().clone()
}

fn work() -> SavedWork {
    let mut work = SavedWork::default();
    work.student = "=7b".to_owned();
    work.remark = "sat still, \"breathed\" slowly".to_owned();
    work.session = session();
    work
}

fn saved() -> SavedReading {
    SavedReading::new(work(), SavedRecording::new("rest, sitting.csv", recording()))
}

/// The report on a reading, on the recording as the settings take it.
fn report_on(saved: &SavedReading, notes: &[Phrase]) -> Report {
    let recording = saved.work.settings.prepare(&saved.recording.recording);
    let reading = reading();
    let evidence = Evidence { recording: &recording, reading: &reading };
    Report::of(&saved.work, &saved.recording.file, evidence, notes, Language::English)
}

#[test]
fn the_tables() {
    let (recording, reading) = (recording(), reading());
    let evidence = Evidence { recording: &recording, reading: &reading };
    let results = ResultsTable::of(&session(), evidence);
    let saved = saved();
    assert_golden("results.csv", &results_csv(&saved.work, &saved.recording.file, &results));
    assert_golden("landmarks.csv", &landmarks_csv(&saved.recording.file, evidence));
}

#[test]
fn the_report() {
    let saved = saved();
    let notes = ["12 missing samples were bridged.".into()];
    let report = report_on(&saved, &notes);
    assert_golden("report.txt", &format!("{report:#?}\n"));
    let empty = report_on(&SavedReading::new(SavedWork::default(), saved.recording), &[]);
    assert_eq!(empty.figures, None);
    assert!(empty.results.iter().all(|line| line.own == "–" && line.computed == "–"));
}

/// A kept document of an earlier version.
fn kept(name: &str) -> SavedReading {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/saved").join(name);
    SavedReading::from_json(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The same work with everything set that version 2 added: the second half, in millivolts.
fn version_2() -> SavedReading {
    let mut work = work();
    let tap = Mark { at: SampleIndex::new(1000), kind: MarkKind::Note, text: "tap".to_owned() };
    work.settings.add_mark(tap);
    work.settings.calibration = Some(Calibration::new(204.8, 512.0).unwrap());
    work.use_part(Some(SampleSpan::new(800, 4000)), 4000);
    let counts = Recording { unit: VoltageUnit::Counts, ..recording() };
    let notes = vec!["Two single samples were bridged.".into()];
    SavedReading::new(work, SavedRecording::new("rest, sitting.csv", counts).with_notes(notes))
}

/// The same with what version 3 added: notes that follow the language, and beats corrected by hand.
fn version_3() -> SavedReading {
    let mut saved = version_2();
    saved.work.settings.beats.take_away(SampleIndex::new(3478));
    let gap = Phrase::message("repairs.text.gap");
    let notes = vec![gap.with("rows", 250_usize).with("seconds", Phrase::number(1.0, 3))];
    let recording = saved.recording.clone().with_notes(notes);
    SavedReading::new(saved.work, recording)
}

#[test]
fn earlier_versions_are_opened_for_ever() {
    assert_eq!(kept("version-1.beatwalk.json"), saved());
    assert_eq!(kept("version-2.beatwalk.json"), version_2());
    assert_eq!(kept("version-3.beatwalk.json"), version_3());
}

#[test]
fn a_part_and_a_scale_are_said_in_the_report() {
    let report = report_on(&version_2(), &[]);
    let fact = |label: &str| {
        let found = report.facts.iter().find(|(name, _)| name == label);
        found.map(|(_, value)| value.clone()).unwrap_or_default()
    };
    assert!(fact("Part used").starts_with("0.8 s to 4 s"), "{}", fact("Part used"));
    assert_eq!(fact("Notes"), "0.2 s tap");
    assert!(fact("Scale to millivolts").contains("1 mV is 204.8 units"));
    assert_eq!((fact("Heights"), fact("Length")), ("in millivolts".into(), "3.2 s".into()));
}

#[test]
fn answers_move_with_the_part_or_are_let_go() {
    let (samples, mut work) = (recording().samples.len(), work());
    let r = |work: &SavedWork| work.session.mark(Landmark::R).map(SampleIndex::get);
    work.use_part(Some(SampleSpan::new(800, 4000)), samples);
    assert_eq!((r(&work), work.session.beat()), (Some(279), Some(SampleIndex::new(278))));
    assert_eq!(work.session.mark(Landmark::QrsEnd), Some(SampleIndex::new(500)));
    // Cut through the beat: its R stays, P onset at 880 to 890 goes with all its tries.
    work.use_part(Some(SampleSpan::new(1000, 4000)), samples);
    assert_eq!((r(&work), work.session.placement(Landmark::POnset)), (Some(79), None));
    work.use_part(Some(SampleSpan::new(7, 7)), samples);
    assert_eq!(work.settings.part, Some(SampleSpan::new(1000, 4000)), "no samples, no part");
    work.use_part(None, samples);
    assert_eq!((r(&work), work.settings.part), (Some(1079), None));
    work.use_part(Some(SampleSpan::new(0, 900)), samples);
    assert_eq!((work.session.beat(), work.session.step()), (None, Step::ChooseBeat));
    assert!(work.fits(&saved().recording).is_ok());
}

#[test]
fn work_is_worth_keeping_once_something_was_done() {
    let with = |change: fn(&mut SavedWork)| {
        let mut work = SavedWork::default();
        change(&mut work);
        work.is_worth_keeping()
    };
    assert!(!with(|_| ()) && !with(|work| work.student = "7b".to_owned()));
    assert!(with(|work| work.remark = "sat still".to_owned()));
    assert!(with(|work| work.settings.orientation = Orientation::TurnedOver));
    assert!(with(|work| work.session = session()));
}

#[test]
fn work_is_held_against_the_part() {
    let mut late = work();
    late.settings.part = Some(SampleSpan::new(0, 1079));
    let misfit = late.fits(&saved().recording);
    assert!(matches!(misfit, Err(SavedError::OtherRecording(_))), "R at 1079 of 1079 samples");
    late.settings.part = Some(SampleSpan::new(0, 4001));
    assert!(matches!(late.fits(&saved().recording), Err(SavedError::Misplaced { .. })));
}

#[test]
fn the_work_comes_first_and_can_be_read_by_a_person() {
    let json = saved().to_json().unwrap();
    let at = |what: &str| json.find(what).unwrap_or_else(|| panic!("no {what} in {json}"));
    assert!(at("\"beatwalk\": \"reading\"") < at("\"version\": 3"));
    assert!(at("\"student\": \"=7b\"") < at("\"landmark\": \"r\""));
    assert!(at("\"landmark\": \"r\"") < at("\"samples_base64_f32_le\""));
}

#[test]
fn what_a_later_version_added_is_kept() {
    let mut json: serde_json::Value = serde_json::from_str(&saved().to_json().unwrap()).unwrap();
    let later = serde_json::json!({ "mood": ["calm", 7] });
    for place in ["", "/work", "/work/settings", "/work/session", "/recording"] {
        json.pointer_mut(place).unwrap()["added_later"] = later.clone();
    }
    let opened = SavedReading::from_json(&json.to_string()).unwrap();
    let written: serde_json::Value = serde_json::from_str(&opened.to_json().unwrap()).unwrap();
    assert_eq!(written, json);
}

#[test]
fn each_fault_is_named() {
    let whole: serde_json::Value = serde_json::from_str(&saved().to_json().unwrap()).unwrap();
    let with = |place: &str, value: serde_json::Value| {
        let mut json = whole.clone();
        *json.pointer_mut(place).unwrap() = value;
        let error = SavedReading::from_json(&json.to_string()).unwrap_err();
        assert!(!error.remedy().to_string().is_empty());
        error.to_string()
    };
    let faults = [
        SavedReading::from_json("not json").unwrap_err().to_string(),
        SavedReading::from_json("{\"type\": \"other\"}").unwrap_err().to_string(),
        with("/beatwalk", "work".into()),
        with("/version", 4.into()),
        with("/version", (-1).into()),
        with("/recording/rate_hz", 0.into()),
        with("/recording/sample_count", 3999.into()),
        with("/recording/samples_base64_f32_le", "%%%".into()),
        with("/recording/holes/0/span/end", 3800.into()),
        with("/recording/holes/0/span/end", 4001.into()),
        with("/recording/marks/0/at", 4000.into()),
        with("/work/session/beat", 4000.into()),
        with("/work/session/work/0/placements/0/answer/at", 9999.into()),
        with("/work/session/work/0/placements/0/landmark", "z".into()),
    ];
    assert_golden("saved_errors.txt", &(faults.join("\n") + "\n"));
}

#[test]
fn a_sample_that_is_no_number_is_refused() {
    let mut broken = recording();
    let mut samples = broken.samples.to_vec();
    samples[17] = f32::NAN;
    broken.samples = samples.into();
    let json = SavedRecording::new("a.csv", broken).to_json().unwrap();
    assert_eq!(SavedRecording::from_json(&json), Err(SavedError::NotANumber { sample: 17 }));
}

#[test]
fn turning_over_changes_the_sign_and_nothing_else() {
    let turned = Orientation::TurnedOver.of(&recording());
    assert_eq!(turned.samples[100], -recording().samples[100]);
    assert_eq!(Orientation::TurnedOver.of(&turned), recording());
}

fn any_recording() -> impl Strategy<Value = Recording> {
    let samples = proptest::collection::vec(-1.0e6f32..1.0e6, 20..400);
    (".{0,12}", 1.0f64..5000.0, samples, any::<bool>(), ".{0,8}").prop_map(
        |(name, hz, samples, broken, text)| {
            let middle = samples.len() / 2;
            let hole = Hole { span: SampleSpan::new(middle, middle + 3), cause: HoleCause::NoRows };
            Recording {
                name,
                rate: SampleRate::new(hz).unwrap(),
                unit: VoltageUnit::Counts,
                holes: if broken { vec![hole] } else { Vec::new() },
                marks: vec![Mark { at: SampleIndex::new(middle), kind: MarkKind::Note, text }],
                samples: samples.into(),
            }
        },
    )
}

fn any_command() -> impl Strategy<Value = Command> {
    let landmark = || (0usize..11).prop_map(|which| Landmark::ALL[which]);
    let sample = || (0usize..4100).prop_map(SampleIndex::new);
    prop_oneof![
        sample().prop_map(Command::ChooseBeat),
        (landmark(), sample(), any::<bool>()).prop_map(|(landmark, at, held)| Command::Place {
            landmark,
            at,
            grip: if held { Grip::Held } else { Grip::Fresh },
        }),
        landmark().prop_map(Command::NotHere),
        landmark().prop_map(Command::TakeAway),
        landmark().prop_map(Command::Check),
        landmark().prop_map(Command::Reveal),
        (0usize..13).prop_map(|step| Command::GoTo(Step::ALL[step])),
        Just(Command::Next),
        Just(Command::Back),
        Just(Command::Undo),
        Just(Command::Redo),
    ]
}

/// A lesson after some commands, refused ones among them.
fn lesson_after(commands: &[Command]) -> Lesson {
    let (recording, reading) = (recording(), reading());
    let evidence = Evidence { recording: &recording, reading: &reading };
    let mut lesson = Lesson::default();
    for &command in commands {
        let before = lesson.clone();
        if lesson.apply(command, evidence).is_err() {
            assert_eq!(lesson, before, "a refused {command:?} has changed something");
        }
    }
    lesson
}

proptest! {
    #[test]
    fn a_recording_is_opened_as_it_was_saved(recording in any_recording(), file in ".{0,20}") {
        let saved = SavedRecording::new(file, recording);
        prop_assert_eq!(SavedRecording::from_json(&saved.to_json().unwrap()).unwrap(), saved);
    }

    #[test]
    fn any_work_is_opened_as_it_was_saved(
        commands in proptest::collection::vec(any_command(), 0..60), student in ".{0,10}",
    ) {
        let session = lesson_after(&commands).session().clone();
        let mut work = work();
        work.student = student;
        work.session = session;
        prop_assert_eq!(SavedWork::from_json(&work.to_json().unwrap()).unwrap(), work);
    }

    #[test]
    fn taking_everything_back_leaves_no_mark_and_doing_it_again_brings_all_back(
        commands in proptest::collection::vec(any_command(), 0..60),
    ) {
        let (recording, reading) = (recording(), reading());
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = lesson_after(&commands);
        while lesson.can_redo() {
            lesson.apply(Command::Redo, evidence).unwrap();
        }
        let all = lesson.session().clone();
        while lesson.can_undo() {
            lesson.apply(Command::Undo, evidence).unwrap();
        }
        prop_assert_eq!(lesson.session().beat(), None);
        let answers = lesson.session().work().iter().flat_map(|work| &work.placements);
        prop_assert_eq!(answers.filter(|placement| placement.answer.is_some()).count(), 0);
        while lesson.can_redo() {
            lesson.apply(Command::Redo, evidence).unwrap();
        }
        prop_assert_eq!(lesson.session().work(), all.work());
        prop_assert_eq!(lesson.session().beat(), all.beat());
    }

    #[test]
    fn a_damaged_document_is_refused_or_keeps_every_promise(
        at in any::<prop::sample::Index>(), byte in any::<u8>(), cut in any::<bool>(),
        set in any::<bool>(),
    ) {
        let small = Recording { samples: vec![0.5; 3960].into(), ..recording() };
        let mut work = if set { version_2().work } else { work() };
        work.use_part(work.settings.part, small.samples.len());
        let saved = SavedReading::new(work, SavedRecording::new("a.csv", small));
        let mut bytes = saved.to_json().unwrap().into_bytes();
        // Where a document is most delicate: the text around the samples.
        let place = at.index(bytes.len());
        if cut {
            bytes.truncate(place);
        } else {
            bytes[place] = byte;
        }
        if let Ok(opened) = SavedReading::from_json(&String::from_utf8_lossy(&bytes)) {
            let recording = &opened.recording.recording;
            prop_assert!(recording.samples.iter().all(|sample| sample.is_finite()));
            let inside = |end: SampleIndex| end.get() <= recording.samples.len();
            prop_assert!(recording.holes.iter().all(|hole| inside(hole.span.end())));
            let taken = opened.work.settings.prepare(recording);
            prop_assert!(taken.samples.iter().all(|sample| sample.is_finite()));
            prop_assert!(opened.work.session.fits(taken.samples.len()).is_ok());
            // Everything after opening has to work with it.
            report_on(&opened, &[]);
        }
    }
}
