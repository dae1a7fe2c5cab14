use super::*;
use crate::lesson::{Command, Evidence, Grip, Lesson, example};
use crate::signal::{Landmark, Landmarks, Milliseconds, SampleIndex, SampleRate};
use crate::words::Language;
use proptest::prelude::*;

/// The worked beat: P 0 to 98, QRS 140 to 228, T 320 to 500 ms, the next P after 800 ms.
fn worked() -> CyclePoints {
    let mut known = Landmarks::default();
    for (landmark, at) in example::PLACES {
        known.set(landmark, Some(SampleIndex::new(at)));
    }
    let following = Following { here: SampleIndex::new(100), next: SampleIndex::new(900) };
    CyclePoints { known, following: Some(following), rate: SampleRate::new(1000.0).unwrap() }
}

fn without(mut points: CyclePoints, landmarks: &[Landmark]) -> CyclePoints {
    for landmark in landmarks {
        points.known.set(*landmark, None);
    }
    points
}

fn ends<P: Copy>(row: &[Stretch<P>]) -> Vec<(Option<P>, f64, f64)> {
    row.iter().map(|it| (it.phase, it.start.milliseconds(), it.end.milliseconds())).collect()
}

#[test]
fn the_worked_beat_has_all_of_its_electrical_phases() {
    let timeline = Timeline::of(&worked()).unwrap();
    let phases = ElectricalPhase::ALL.map(Some);
    let times = [(0.0, 98.0), (98.0, 140.0), (140.0, 228.0), (228.0, 320.0), (320.0, 500.0)];
    let expected: Vec<_> = phases
        .into_iter()
        .zip(times.into_iter().chain([(500.0, 800.0)]))
        .map(|(phase, (start, end))| (phase, start, end))
        .collect();
    assert_eq!(ends(timeline.electrical()), expected);
    assert_eq!(timeline.gaps(), []);
    assert_eq!(timeline.rate().unwrap().per_minute(), 75.0);
    assert_eq!(timeline.samples(), 100..901);
}

/// At 75 a minute ejection lasts from 131 - 30 = 101 to 546 - 157.5 = 388.5 ms after QRS onset.
#[test]
fn the_worked_beat_moves_at_typical_delays() {
    let timeline = Timeline::of(&worked()).unwrap();
    let row = ends(timeline.mechanical().unwrap());
    assert_eq!(
        row,
        [
            (Some(MechanicalPhase::Filling), 0.0, 25.0),
            (Some(MechanicalPhase::AtrialSystole), 25.0, 125.0),
            (Some(MechanicalPhase::EndOfFilling), 125.0, 200.0),
            (Some(MechanicalPhase::IsovolumetricContraction), 200.0, 241.0),
            (Some(MechanicalPhase::Ejection), 241.0, 528.5),
            (Some(MechanicalPhase::IsovolumetricRelaxation), 528.5, 598.5),
            (Some(MechanicalPhase::Filling), 598.5, 800.0),
        ]
    );
}

#[test]
fn the_heart_moves_after_it_is_told_to() {
    let timeline = Timeline::of(&worked()).unwrap();
    let first = |wanted: MechanicalPhase| {
        let row = timeline.mechanical().unwrap();
        row.iter().find(|it| it.phase == Some(wanted)).unwrap().start
    };
    let point = |landmark| timeline.time_of(landmark).unwrap();
    assert!(first(MechanicalPhase::AtrialSystole) > point(Landmark::POnset));
    assert!(first(MechanicalPhase::IsovolumetricContraction) > point(Landmark::R));
    assert!(first(MechanicalPhase::Ejection) > point(Landmark::QrsEnd));
    assert!(first(MechanicalPhase::IsovolumetricRelaxation) > point(Landmark::TEnd));
}

#[test]
fn the_signal_goes_down_the_path_in_its_order() {
    let timeline = Timeline::of(&worked()).unwrap();
    let path = [10, 60, 100, 130, 145, 180, 220, 250, 400, 600, 790]
        .map(|at| timeline.at(Milliseconds::new(at.into())).conduction.unwrap());
    assert_eq!(
        path,
        [
            Conduction::Atria,
            Conduction::AtriaAndAvNode,
            Conduction::AvNode,
            Conduction::Bundle,
            Conduction::Septum,
            Conduction::Walls,
            Conduction::Base,
            Conduction::Plateau,
            Conduction::Repolarising,
            Conduction::Rest,
            Conduction::SinusNode,
        ]
    );
}

#[test]
fn a_phase_without_its_points_is_not_shown_and_says_what_it_waits_for() {
    let timeline = Timeline::of(&without(worked(), &[Landmark::TOnset, Landmark::PEnd])).unwrap();
    let gaps: Vec<_> = timeline.gaps().iter().map(|gap| (gap.phase, &*gap.waits_for)).collect();
    assert_eq!(
        gaps,
        [
            (ElectricalPhase::AtrialDepolarisation, &[Landmark::PEnd][..]),
            (ElectricalPhase::AvDelay, &[Landmark::PEnd][..]),
            (ElectricalPhase::Plateau, &[Landmark::TOnset][..]),
            (ElectricalPhase::VentricularRepolarisation, &[Landmark::TOnset][..]),
        ]
    );
    let between = timeline.at(Milliseconds::new(250.0));
    assert_eq!((between.electrical, between.conduction), (None, None));
    assert_eq!(between.mechanical, Some(MechanicalPhase::Ejection));
    // At a point that is known, so is what happens there.
    let t_peak = timeline.at(timeline.time_of(Landmark::TPeak).unwrap());
    assert_eq!(t_peak.electrical, Some(ElectricalPhase::VentricularRepolarisation));
}

#[test]
fn a_single_point_tells_what_happens_there_and_nothing_else() {
    let others: Vec<_> = Landmark::ALL.into_iter().filter(|it| *it != Landmark::R).collect();
    let timeline = Timeline::of(&without(worked(), &others)).unwrap();
    assert_eq!(timeline.mechanical(), Err(Unmoved::NoQrsOnset));
    let at_r = timeline.at(Milliseconds::new(0.0));
    assert_eq!(at_r.conduction, Some(Conduction::Walls));
    assert_eq!(at_r.mechanical, Some(MechanicalPhase::EndOfFilling));
    let later = timeline.at(Milliseconds::new(30.0));
    assert_eq!((later.electrical, later.mechanical), (None, None));
    assert_eq!(timeline.gaps().len(), 6);
    assert!(Timeline::of(&without(worked(), &Landmark::ALL)).is_none());
}

#[test]
fn the_last_beat_has_no_rest_and_does_not_move() {
    let timeline = Timeline::of(&CyclePoints { following: None, ..worked() }).unwrap();
    assert_eq!(timeline.length().milliseconds(), 500.0);
    assert_eq!(timeline.mechanical(), Err(Unmoved::NoRate));
    assert_eq!(timeline.gaps(), [Gap { phase: ElectricalPhase::Rest, waits_for: Vec::new() }]);
}

#[test]
fn typical_delays_are_not_used_beyond_rest() {
    let following = Following { here: SampleIndex::new(100), next: SampleIndex::new(500) };
    let timeline = Timeline::of(&CyclePoints { following: Some(following), ..worked() }).unwrap();
    assert_eq!(timeline.mechanical(), Err(Unmoved::NotAtRest));
    assert_eq!(timeline.at(Milliseconds::new(0.0)).mechanical, None);
}

/// What is typical at a point agrees with what is reckoned for a beat whose points are all known.
#[test]
fn a_still_picture_agrees_with_the_moving_one() {
    let timeline = Timeline::of(&worked()).unwrap();
    for landmark in Landmark::ALL {
        let moment = timeline.at(timeline.time_of(landmark).unwrap());
        assert_eq!(
            moment.mechanical,
            Some(MechanicalPhase::typically_at(landmark)),
            "{landmark:?}"
        );
        assert_eq!(moment.electrical, Some(ElectricalPhase::at(landmark)), "{landmark:?}");
    }
}

#[test]
fn only_settled_points_are_used() {
    let (recording, reading) = example::of_beats(4);
    let evidence = Evidence { recording: &recording, reading: &reading };
    let mut lesson = Lesson::default();
    lesson.apply(Command::ChooseBeat(reading.beats[1].r), evidence).unwrap();
    assert_eq!(CyclePoints::settled(lesson.session(), evidence), None);
    let mut place = |landmark, at| {
        let at = SampleIndex::new(at);
        lesson.apply(Command::Place { landmark, at, grip: Grip::Fresh }, evidence).unwrap();
        lesson.apply(Command::Check(landmark), evidence).unwrap();
        CyclePoints::settled(lesson.session(), evidence)
    };
    // Right to the sample and two off; far off, it is not settled.
    assert_eq!(place(Landmark::R, 1078).unwrap().known.at(Landmark::R).unwrap().get(), 1078);
    let known = place(Landmark::QrsOnset, 1042).unwrap().known;
    assert_eq!(known.at(Landmark::QrsOnset).unwrap().get(), 1042);
    let points = place(Landmark::TPeak, 1100).unwrap();
    assert_eq!(points.known.at(Landmark::TPeak), None);
    let following = points.following.unwrap();
    assert_eq!(following.next.minus(following.here), 800);
}

#[test]
fn steps_go_round_the_cycle_and_back() {
    let timeline = Timeline::of(&worked()).unwrap();
    let turns = timeline.turns();
    // 11 points, 6 of which begin an electrical phase, and 6 turns of the muscle after the start.
    assert_eq!(turns.len(), 16);
    for (one, next) in turns.iter().zip(turns.iter().cycle().skip(1)) {
        assert_eq!(timeline.turn_after(*one), *next);
        assert_eq!(timeline.turn_before(*next), *one);
    }
}

#[test]
fn what_goes_on_is_said_in_each_language() {
    let complete = Timeline::of(&worked()).unwrap();
    let torn = Timeline::of(&without(worked(), &[Landmark::QrsOnset])).unwrap();
    let expect_said = |said: String| {
        assert!(!said.contains("heart.") && !said.contains("%{"), "{said}");
    };
    for language in Language::ALL {
        for timeline in [&complete, &torn] {
            for at in 0..800 {
                let at = Milliseconds::new(at.into());
                expect_said(timeline.at(at).words(at, timeline, language));
            }
            timeline.gaps().iter().for_each(|gap| expect_said(gap.words(language)));
        }
        for time in TypicalTime::ALL {
            let rate = complete.rate().unwrap();
            expect_said(time.words(rate, language) + &time.source(language));
        }
    }
}

/// Points anywhere, in any order, some missing, at any rate of sampling, with or without a next beat.
fn any_points() -> impl Strategy<Value = CyclePoints> {
    let points = prop::collection::vec(prop::option::weighted(0.8, 0_usize..1000), 11);
    (points, prop::option::of((0_usize..1000, 0_usize..2000)), 50.0..4000.0_f64).prop_map(
        |(points, following, rate)| {
            let mut known = Landmarks::default();
            for (landmark, at) in Landmark::ALL.into_iter().zip(points) {
                known.set(landmark, at.map(SampleIndex::new));
            }
            let following = following.map(|(here, next)| Following {
                here: SampleIndex::new(here),
                next: SampleIndex::new(next),
            });
            CyclePoints { known, following, rate: SampleRate::new(rate).unwrap() }
        },
    )
}

/// Points in their order, as on a trace.
fn ordered_points() -> impl Strategy<Value = CyclePoints> {
    any_points().prop_map(|points| {
        let mut places: Vec<_> = points.known.iter().map(|(_, at)| at).collect();
        places.sort_unstable();
        let mut known = Landmarks::default();
        for ((landmark, _), at) in points.known.iter().zip(places) {
            known.set(landmark, Some(at));
        }
        CyclePoints { known, ..points }
    })
}

/// A row starts at 0, goes on without hole or overlap, and ends with the cycle.
fn expect_whole<P: Copy + std::fmt::Debug>(row: &[Stretch<P>], length: Milliseconds) {
    let mut reached = Milliseconds::new(0.0);
    for stretch in row {
        assert_eq!(stretch.start, reached, "{row:?}");
        assert!(stretch.start < stretch.end, "{row:?}");
        reached = stretch.end;
    }
    assert_eq!(reached, length, "{row:?}");
}

proptest! {
    #[test]
    fn rows_are_ordered_whole_and_never_overlap(points in any_points()) {
        if let Some(timeline) = Timeline::of(&points) {
            let length = timeline.length();
            expect_whole(timeline.electrical(), length);
            let phases: Vec<_> = timeline
                .electrical()
                .iter()
                .filter_map(|it| it.phase)
                .map(|phase| phase as usize)
                .collect();
            prop_assert!(phases.is_sorted_by(|one, next| one < next), "{:?}", phases);
            if let Ok(row) = timeline.mechanical() {
                expect_whole(row, length);
            }
        }
    }

    #[test]
    fn every_phase_is_shown_or_says_what_it_waits_for(points in ordered_points()) {
        if let Some(timeline) = Timeline::of(&points) {
            for phase in ElectricalPhase::ALL {
                let shown = timeline.electrical().iter().any(|it| it.phase == Some(phase));
                let gap = timeline.gaps().iter().any(|gap| gap.phase == phase);
                let (from, to) = (phase.begins_at(), phase.ends_at());
                let empty = timeline.time_of(from) == to.map_or(Some(timeline.length()), |to| timeline.time_of(to));
                prop_assert!(shown != gap || (empty && !shown), "{:?}", phase);
            }
        }
    }

    #[test]
    fn every_moment_can_be_asked_for(points in any_points(), at in prop::num::f64::ANY) {
        if let Some(timeline) = Timeline::of(&points) {
            let moment = timeline.at(Milliseconds::new(at));
            prop_assert_eq!(moment.electrical.is_some(), moment.conduction.is_some());
            let turns = timeline.turns();
            prop_assert!(turns.is_sorted());
            prop_assert!(turns.iter().all(|turn| *turn <= timeline.length()));
        }
    }
}
