//! Drawings of the investigations, compared byte for byte with the files in `tests/golden` as those of
//! `charts.rs` are. All recordings are invented.

use super::golden::assert_golden;
use super::inquiry_recovery::{bare, base, beats, pace, reading_of};
use beatwalk::analysis::{Standing, WhySetAside, read};
use beatwalk::chart::{
    GroupsScene, Look, OverlayScene, Palette, SvgText, draw_groups, draw_overlay, draw_recovery,
    to_svg,
};
use beatwalk::inquiry::{
    Entry, Measured, People, Recovery, Stretch, groups_summary, overlay_summary,
};
use beatwalk::lesson::{Evidence, Quantity};
use beatwalk::signal::{BeatsPerMinute, Recording, SampleIndex, Seconds};
use beatwalk::synth::{Base, Demo, Random};
use beatwalk::words::Language;

const LIGHT: Look<'_> =
    Look { palette: &Palette::LIGHT, scale: 2.0, px_per_mm: None, language: Language::English };
const PROJECTOR: Look<'_> = Look { palette: &Palette::PROJECTOR, ..LIGHT };

/// One long file: a minute and a half of rest, the mark, four minutes of recovery with two odd beats.
fn long_file() -> (Recording, Vec<beatwalk::analysis::Beat>, SampleIndex) {
    let random = &mut Random::new(11);
    let rest = pace(Base::Steady(BeatsPerMinute::new(68.0)), 15.0, 15.0);
    let rest = beats(&rest, 90.0, random);
    let mut fall = beats(&pace(base(48.0), 14.0, 10.0), 240.0, random);
    for place in [41, 150] {
        fall[place].standing = Standing::SetAside(WhySetAside::Early);
        fall[place].r = fall[place].r.offset(-35);
    }
    let mark = SampleIndex::new(22_500);
    let later = fall.into_iter().map(|mut beat| {
        beat.r = beat.r.offset(22_500);
        beat
    });
    (bare(250.0, 330.0), rest.into_iter().chain(later).collect(), mark)
}

fn recovery_svg(found: &Recovery, look: &Look<'_>, size: (u32, u32)) -> String {
    let description = found.summary(look.language);
    let text = SvgText { title: "Recovery", description: &description };
    to_svg(size, look.scale as u32, text, |area| draw_recovery(area, found, look)).unwrap()
}

#[test]
fn a_recovery_with_its_curve_and_residuals() {
    let (recording, beats, mark) = long_file();
    let reading = reading_of(beats);
    let evidence = Evidence { recording: &recording, reading: &reading };
    let (rest, after) = (Stretch::before(evidence, mark), Stretch::after(evidence, mark));
    let found = Recovery::of(&rest, &after, Seconds::new(0.0));
    assert!(found.curve.is_ok());
    assert_golden("recovery.svg", &recovery_svg(&found, &LIGHT, (900, 460)));
    assert_golden("recovery_projector.svg", &recovery_svg(&found, &PROJECTOR, (1200, 680)));
    let spanish = Look { language: Language::Spanish, ..LIGHT };
    let narrow = recovery_svg(&found, &spanish, (380, 320));
    assert!(narrow.contains("Segundos después del ejercicio"));
    assert_golden("recovery_narrow.svg", &narrow);
}

#[test]
fn a_recovery_without_a_curve_is_still_drawn() {
    let random = &mut Random::new(2);
    let short = beats(&pace(base(60.0), 10.0, 10.0), 18.0, random);
    let recording = bare(250.0, 18.0);
    let (reading, nothing) = (reading_of(short), reading_of(Vec::new()));
    let of = |reading| Stretch::whole(Evidence { recording: &recording, reading });
    let found = Recovery::of(&of(&nothing), &of(&reading), Seconds::new(0.0));
    let svg = recovery_svg(&found, &LIGHT, (600, 300));
    assert!(svg.contains("too short for a curve") && !svg.contains("Off the curve"));
    let empty = Recovery::of(&of(&nothing), &of(&nothing), Seconds::new(0.0));
    assert!(recovery_svg(&empty, &LIGHT, (600, 300)).contains("no beat of recovery counts"));
    // No room is no reason to panic.
    recovery_svg(&found, &LIGHT, (1, 1));
}

#[test]
fn rest_and_recovery_lie_over_each_other() {
    let (rest, after) =
        (Demo::Resting.recording().unwrap(), Demo::AfterStairs.recording().unwrap());
    let (rest_reading, reading) = (read(&rest, &mut ()), read(&after, &mut ()));
    let rest = Stretch::whole(Evidence { recording: &rest, reading: &rest_reading });
    let after = Stretch::whole(Evidence { recording: &after, reading: &reading });
    let found = Recovery::of(&rest, &after, Seconds::new(0.0));
    let (rest, recovery) = (found.rest_beat.unwrap(), found.recovery_beat.unwrap());
    for (look, name, size) in
        [(LIGHT, "overlay.svg", (720, 400)), (PROJECTOR, "overlay_projector.svg", (1100, 620))]
    {
        let description = overlay_summary(&rest, &recovery, look.language);
        let text = SvgText { title: "Overlay", description: &description };
        let scene = OverlayScene { rest: &rest, recovery: &recovery };
        let svg = to_svg(size, 2, text, |area| draw_overlay(area, &scene, &look)).unwrap();
        assert_golden(name, &svg);
    }
}

/// Twelve invented people; one goes down, one lies far up; a thirteenth has no partner.
fn class() -> People {
    let lying = [58.0, 61.0, 64.0, 66.0, 67.0, 69.0, 70.0, 71.0, 73.0, 76.0, 79.0, 99.0];
    let rise = [14.0, 9.0, 17.0, 12.0, -3.0, 21.0, 11.0, 16.0, 8.0, 13.0, 19.0, 5.0];
    let entry = |person: usize, condition: &str, value: f64| Entry {
        code: format!("q{person:02}"),
        condition: condition.to_owned(),
        value: Some(value),
    };
    let mut entries: Vec<Entry> = Vec::new();
    for (person, (lying, rise)) in lying.into_iter().zip(rise).enumerate() {
        entries.push(entry(person, "lying", lying));
        entries.push(entry(person, "standing", lying + rise));
    }
    entries.push(entry(99, "standing", 88.0));
    People::of(&["lying", "standing"].map(str::to_owned), &entries).unwrap()
}

#[test]
fn people_in_two_conditions() {
    let people = class();
    let measured = Measured::Of(Quantity::Rate);
    let values: Vec<Vec<f64>> = (0..2).map(|condition| people.values(condition)).collect();
    let lines: Vec<Vec<Option<f64>>> =
        people.people.iter().map(|person| person.values.clone()).collect();
    for (look, name, size) in
        [(LIGHT, "groups.svg", (620, 420)), (PROJECTOR, "groups_projector.svg", (1100, 640))]
    {
        let scene = GroupsScene {
            names: &people.conditions,
            values: &values,
            lines: &lines,
            measured: "Heart rate (/min)",
        };
        let description = groups_summary(measured, &people.conditions, &values, look.language);
        let text = SvgText { title: "Conditions", description: &description };
        let svg = to_svg(size, 2, text, |area| draw_groups(area, &scene, &look)).unwrap();
        assert_golden(name, &svg);
    }
    assert_eq!(people.outlying().len(), 1, "{:?}", people.outlying());
}

/// The beats of one person have no lines: they are not paired.
#[test]
fn beats_of_one_person_in_three_conditions() {
    let names = ["lying", "sitting", "standing"].map(str::to_owned);
    let random = &mut Random::new(4);
    let values: Vec<Vec<f64>> = [(880.0, 45.0), (800.0, 40.0), (690.0, 30.0)]
        .into_iter()
        .map(|(middle, spread): (f64, f64)| {
            (0..70).map(|_| (middle + spread * random.normal()).round()).collect()
        })
        .collect();
    let scene = GroupsScene { names: &names, values: &values, lines: &[], measured: "RR (ms)" };
    let text = SvgText { title: "Beats", description: "" };
    let svg = to_svg((620, 420), 2, text, |area| draw_groups(area, &scene, &LIGHT)).unwrap();
    assert_golden("groups_beats.svg", &svg);
    let wild = [vec![f64::MAX, f64::MIN, f64::NAN], vec![f64::INFINITY], Vec::new()];
    let wild = GroupsScene { values: &wild, ..scene };
    to_svg((300, 200), 2, text, |area| draw_groups(area, &wild, &LIGHT)).unwrap();
    let empty = GroupsScene { names: &[], values: &[], lines: &[], measured: "" };
    to_svg((40, 30), 2, text, |area| draw_groups(area, &empty, &LIGHT)).unwrap();
}
