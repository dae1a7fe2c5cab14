use super::*;
use crate::analysis::{Beat, Standing, WhySetAside};
use crate::inquiry::invented;
use crate::lesson::{Evidence, example};
use crate::signal::SampleIndex;
use proptest::prelude::*;

/// 30 s at 100 Hz: breaths of 5 s, RR 800 ± 60 ms by the sine of the breath.
fn breathing() -> (Recording, crate::analysis::Reading) {
    let (_, mut reading) = example::of_beats(0);
    let mut at = 0.2;
    while at < 30.0 {
        reading.beats.push(Beat::at(SampleIndex::new((at * 100.0_f64).round() as usize)));
        at += 0.8 - 0.06 * (std::f64::consts::TAU * at / 5.0).sin();
    }
    (invented::flat(100.0, 30.0), reading)
}

fn of(
    recording: &Recording,
    reading: &crate::analysis::Reading,
    source: BreathSource<'_>,
) -> Result<Breathing, NoBreathing> {
    Breathing::of(&Stretch::whole(Evidence { recording, reading }), source)
}

const EACH_FIVE: Paced =
    Paced { from: Seconds::new(0.0), inward: Seconds::new(2.5), outward: Seconds::new(2.5) };

#[test]
fn breaths_by_a_timer_have_their_size() {
    let (recording, reading) = breathing();
    let found = of(&recording, &reading, BreathSource::Timer(EACH_FIVE)).unwrap();
    // The first breath starts before the first beat, the last ends after the last.
    let why: Vec<_> = found.breaths.iter().map(|one| one.1.err()).collect();
    let beyond = Some(WhyNoSwing::NotRecorded);
    assert_eq!(why, [beyond, None, None, None, None, beyond]);
    assert_eq!((found.rr_ms.n, found.breaths_per_minute()), (4, 12.0));
    assert!((100.0..=130.0).contains(&found.rr_ms.mean), "{:?}", found.rr_ms);
    assert!(found.mean_rr().unwrap().holds(115.0), "{:?}", found.rr_ms);
    assert!((6.0..6.6).contains(&found.beats_per_breath) && found.part_seen() > 0.95);
    assert!((found.ratio() - 0.86 / 0.74).abs() < 0.03, "{}", found.ratio());
}

#[test]
fn a_beat_set_aside_takes_its_breath_and_too_many_take_all() {
    let (recording, mut reading) = breathing();
    let aside = Standing::SetAside(WhySetAside::Early);
    reading.beats[9].standing = aside;
    let found = of(&recording, &reading, BreathSource::Timer(EACH_FIVE)).unwrap();
    assert_eq!((found.rr_ms.n, found.intervals_left_out), (3, 2));
    let left: Vec<_> = found.breaths.iter().filter_map(|one| one.1.err()).collect();
    assert!(left.iter().any(|why| matches!(why, WhyNoSwing::LeftOut(_))), "{left:?}");
    reading.beats.iter_mut().step_by(5).for_each(|beat| beat.standing = aside);
    let refused = of(&recording, &reading, BreathSource::Timer(EACH_FIVE)).unwrap_err();
    assert!(matches!(refused, NoBreathing::Irregular { .. }), "{refused:?}");
}

#[test]
fn what_is_missing_is_said() {
    let (mut recording, reading) = breathing();
    let marks = BreathMarks { start: "in".to_owned(), out: Some("out".to_owned()) };
    let by_marks = BreathSource::Marks(&marks);
    assert_eq!(of(&recording, &reading, by_marks), Err(NoBreathing::NoMarks));
    recording.marks = invented::marks(&recording, &[(5.0, "in"), (7.5, "out"), (10.0, "in")]);
    let few = NoBreathing::TooFewBreaths { found: 1, needed: 3, left_out: 0 };
    assert_eq!(of(&recording, &reading, by_marks), Err(few));
    // The second of five breaths has no mark for breathing out.
    let moments: Vec<(f64, &str)> = (1..6)
        .flat_map(|n| [(5.0 * f64::from(n), "in"), (5.0 * f64::from(n) + 2.5, "out")])
        .filter(|&one| one != (12.5, "out"))
        .collect();
    recording.marks = invented::marks(&recording, &moments);
    let found = of(&recording, &reading, by_marks).unwrap();
    assert_eq!(found.breaths[1].1, Err(WhyNoSwing::MarkMissing));
    assert_eq!(found.rr_ms.n, 3);
    let (none, empty) = example::of_beats(0);
    assert_eq!(of(&none, &empty, BreathSource::Estimate), Err(NoBreathing::NoBeats));
    let flat = invented::flat(25.0, 30.0);
    let by_channel = BreathSource::Channel(&flat);
    assert_eq!(of(&recording, &reading, by_channel), Err(NoBreathing::FlatChannel));
    assert_eq!(of(&recording, &reading, BreathSource::Estimate), Err(NoBreathing::NotClear));
}

#[test]
fn a_part_has_its_own_breaths_only() {
    let (recording, reading) = breathing();
    let evidence = Evidence { recording: &recording, reading: &reading };
    let part = Stretch::between(evidence, crate::signal::SampleSpan::new(400, 2200));
    let found = Breathing::of(&part, BreathSource::Timer(EACH_FIVE)).unwrap();
    assert_eq!(found.breaths.len(), 3);
}

proptest! {
    #[test]
    fn no_samples_and_no_marks_make_it_panic(
        samples in proptest::collection::vec(
            prop_oneof![-1.0f32..1.0, Just(f32::MAX), Just(f32::MIN)], 0..3000,
        ),
        gaps in proptest::collection::vec(1usize..300, 0..40),
        marks in proptest::collection::vec((0.0f64..40.0, "in|out|x"), 0..20),
        hz in 20.0f64..400.0,
        paced in (any::<f64>(), any::<f64>(), any::<f64>()),
    ) {
        let (_, mut reading) = example::of_beats(0);
        let mut at = 0;
        for gap in gaps {
            at += gap;
            reading.beats.push(Beat::at(SampleIndex::new(at)));
        }
        let mut recording = invented::of(hz, samples);
        let moments: Vec<(f64, &str)> = marks.iter().map(|(at, text)| (*at, &**text)).collect();
        recording.marks = invented::marks(&recording, &moments);
        let [from, inward, outward] = [paced.0, paced.1, paced.2].map(Seconds::new);
        let marks = BreathMarks { start: "in".to_owned(), out: Some("out".to_owned()) };
        for source in [
            BreathSource::Marks(&marks),
            BreathSource::Timer(Paced { from, inward, outward }),
            BreathSource::Channel(&recording),
            BreathSource::Estimate,
        ] {
            if let Ok(found) = of(&recording, &reading, source) {
                prop_assert!(found.counted().all(|(_, swing)| swing.rr_ms() >= 0.0));
                prop_assert!(found.rr_ms.n >= FEWEST_BREATHS);
            }
        }
    }
}
