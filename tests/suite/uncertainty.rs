//! How often the true interval lies within the stated uncertainty.
//!
//! Intervals are invented: the true one of each beat is normal around a known middle, its two ends lie
//! anywhere between samples and are rounded to the nearest one, as a perfect reader would mark them. What
//! `measure` states must then hold the known middle about 95 times in 100 (k = 2), whatever the rate of
//! sampling, the scatter and the number of beats. `tests/data/accuracy/uncertainty.md` is computed anew.

use super::accuracy::assert_table;
use beatwalk::analysis::{Beat, BeatSeries, Intervals, measure};
use beatwalk::signal::{Landmark, Landmarks, Recording, SampleIndex, SampleRate, VoltageUnit};
use beatwalk::synth::Random;
use std::fmt::Write;

/// Recordings for each line of the table.
const TRIALS: u32 = 2000;
/// The middle of the true intervals, ms; no whole number of samples. It is moved by up to 10 ms from
/// one recording to the next, so that no place between samples is favoured.
const PR: f64 = 153.7;
const RR: f64 = 812.3;
/// How much RR scatters, ms.
const RR_SCATTER: f64 = 40.0;

/// Beats whose PR scatters by so much around `pr`; one more R ends the last RR.
fn measured(
    random: &mut Random,
    rate: SampleRate,
    beats: usize,
    scatter: f64,
    pr: f64,
) -> Intervals {
    let sample = |ms: f64| SampleIndex::new((ms * rate.hz() / 1000.0).round() as usize);
    let mut at = 1000.0 + random.unit() * 100.0;
    let mut found = Vec::new();
    for number in 0..=beats {
        let mut landmarks = Landmarks::default();
        if number < beats {
            let this = scatter.mul_add(random.normal(), pr);
            landmarks.set(Landmark::POnset, Some(sample(at - this)));
            landmarks.set(Landmark::QrsOnset, Some(sample(at)));
        }
        found.push(Beat { landmarks, ..Beat::at(sample(at)) });
        at += RR_SCATTER.mul_add(random.normal(), RR);
    }
    let recording = Recording {
        name: String::new(),
        rate,
        unit: VoltageUnit::Millivolt,
        samples: Vec::new().into(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    measure(BeatSeries::new(&recording, &found, &[]))
}

/// What came of the trials of one line.
#[derive(Default)]
struct Trials {
    held: u32,
    stated: f64,
    squares: f64,
    rate_held: u32,
}

fn trials(hz: f64, beats: usize, scatter: f64) -> Trials {
    let rate = SampleRate::new(hz).unwrap();
    let mut random = Random::new((hz * 1000.0 + scatter * 100.0) as u64 + beats as u64);
    let mut trials = Trials::default();
    for _ in 0..TRIALS {
        let pr = PR + random.between(-10.0, 10.0);
        let found = measured(&mut random, rate, beats, scatter, pr);
        let (pr_ms, rate_bpm) = (found.pr_ms.unwrap(), found.rate_bpm.unwrap());
        let off = pr_ms.value - pr;
        trials.held += u32::from(off.abs() <= pr_ms.expanded_uncertainty);
        trials.stated += pr_ms.expanded_uncertainty / f64::from(TRIALS);
        trials.squares += off * off / f64::from(TRIALS);
        let off = rate_bpm.value - 60_000.0 / RR;
        trials.rate_held += u32::from(off.abs() <= rate_bpm.expanded_uncertainty);
    }
    trials
}

#[test]
fn the_stated_uncertainty_holds_the_true_interval() {
    let mut table = String::from(
        "# How often the stated uncertainty holds the true value\n\n\
         Made by `tests/suite/uncertainty.rs`: 2000 invented recordings a line, marks rounded to samples.\n\
         Stated: the mean expanded uncertainty (k = 2) of the median PR. Twice the error: two standard\n\
         deviations of what the median was really off by. Held: how often it was off by no more than\n\
         stated; 95 is meant. The rate is that of the mean RR, which scatters by 40 ms from beat to beat.\n\
         One beat states what the gap between samples does and cannot know the scatter, so that line\n\
         has none.\n\n\
         | samples a second | beats | scatter ms | stated ms | twice the error ms | held % | rate held % |\n\
         |---|---|---|---|---|---|---|\n",
    );
    for hz in [100.0, 250.0, 1000.0] {
        for (beats, scatters) in [
            (1, &[0.0][..]),
            (2, &[0.0, 5.0]),
            (5, &[0.0, 5.0]),
            (12, &[0.0, 5.0]),
            (60, &[0.0, 5.0, 15.0]),
        ] {
            for &scatter in scatters {
                let trials = trials(hz, beats, scatter);
                let percent = |held: u32| f64::from(held) * 100.0 / f64::from(TRIALS);
                let (held, rate_held) = (percent(trials.held), percent(trials.rate_held));
                let twice = 2.0 * trials.squares.sqrt();
                // A single RR can't know its scatter either.
                let rate = if beats > 1 { format!("{rate_held:.1}") } else { "–".to_owned() };
                let _ = writeln!(
                    table,
                    "| {hz} | {beats} | {scatter} | {:.1} | {twice:.1} | {held:.1} | {rate} |",
                    trials.stated
                );
                assert!(held >= 90.0, "{hz} Hz, {beats} beats, {scatter} ms: {held} %");
                assert!(beats == 1 || rate_held >= 90.0, "rate, {beats} beats: {rate_held} %");
            }
        }
    }
    assert_table("uncertainty.md", &table);
}
