//! Wherever RR intervals are told, they are the same ones.
//!
//! A stretch of noise or a lost electrode parts the beats as a hole does: in the averages, in the rhythm,
//! in the results and the cycle of one beat, with calipers, and in the tables that leave the app.

use super::invented::{Shape, even, trace};
use beatwalk::analysis::{FindingKind, Reading, WhyLeftOut, read, rhythm};
use beatwalk::lesson::{
    Command, Evidence, HandRule, Lesson, NoHandRate, Quantity, ResultsTable, rate_by_hand,
};
use beatwalk::report::{SavedWork, results_csv};
use beatwalk::signal::{Recording, SampleSpan};

const HZ: f64 = 250.0;

/// Twenty seconds of beats, 0.8 s apart, in which something is done to seconds 8 to 11.
fn spoilt(with: fn(usize, f32) -> f32) -> Recording {
    let shape = Shape::ordinary(0.8);
    let whole = trace(&even(0.8, 20.0, |_| shape.clone()), 20.0, HZ, 0.01, true);
    let samples = whole
        .samples
        .iter()
        .enumerate()
        .map(|(at, &value)| if (2000..2750).contains(&at) { with(at, value) } else { value });
    Recording { samples: samples.collect(), ..whole }
}

/// Beats cannot be told from this: several millivolts, up and down at another pace each time.
fn noise(at: usize, value: f32) -> f32 {
    let phase = at as f32;
    value + 4.0 * (phase * 0.9).sin() * (phase * 0.37).cos() + 3.0 * (phase * phase * 0.013).sin()
}

/// What the analysis counts is what everything else shows.
fn assert_same_everywhere(recording: &Recording, reading: &Reading) {
    let evidence = Evidence { recording, reading };
    let found = rhythm(evidence.series());
    let averaged = reading.intervals.rr_ms.unwrap();
    assert_eq!(found.variability.unwrap().n, averaged.n);
    let rate = found.variability.unwrap().mean_rate().per_minute();
    assert!((rate - reading.intervals.rate_bpm.unwrap().value).abs() < 1e-9);
    let gap = found.intervals.iter().position(|rr| rr.left_out == Some(WhyLeftOut::Hole)).unwrap();
    let (before, after) = (reading.beats[gap].r, reading.beats[gap + 1].r);

    let mut lesson = Lesson::default();
    lesson.apply(Command::ChooseBeat(before), evidence).unwrap();
    let results = ResultsTable::of(lesson.session(), evidence);
    let row = results.rows.iter().find(|row| row.quantity == Quantity::Rr).unwrap();
    assert_eq!((row.computed, row.all_beats), (None, Some(averaged)));
    let csv = results_csv(&SavedWork::default(), "a.csv", &results);
    let line = csv.lines().find(|line| line.contains(",rr,ms,")).unwrap();
    assert!(line.starts_with(&format!(",a.csv,rr,ms,,,,,{:.2},", averaged.value)), "{line}");

    let legs = SampleSpan::new(before.get(), after.get());
    let by_hand = rate_by_hand(HandRule::LargeBoxes, evidence.series(), legs);
    assert_eq!(by_hand, Err(NoHandRate::NotOnBeats));
}

#[test]
fn noise_parts_the_beats_everywhere() {
    let recording = spoilt(noise);
    let reading = read(&recording, &mut ());
    assert_eq!(reading.findings[0].kind, FindingKind::Noisy);
    assert!(recording.holes.is_empty(), "nothing is missing, it is only of no use");
    assert_same_everywhere(&recording, &reading);
}

#[test]
fn a_lost_electrode_parts_them_too() {
    let recording = spoilt(|_, _| 0.0);
    let reading = read(&recording, &mut ());
    assert_eq!(reading.findings[0].kind, FindingKind::Flat);
    assert_same_everywhere(&recording, &reading);
}
