//! The stretch reflex on recordings whose latency is known. All of them are invented: no open recording of a tap
//! and its EMG was at hand.
//!
//! `tests/data/accuracy/reflex.md` is computed anew: latency by noise and rate of sampling, and how often a muscle
//! that did not answer is taken for one that did.

use super::accuracy::assert_table;
use super::inquiry_recovery::bare;
use beatwalk::inquiry::{
    ReflexSettings, Reflexes, WhyNoResponse, likely_tap_mark, taps_in_channel, taps_marked,
};
use beatwalk::signal::{Millivolts, Recording, SampleRate, Seconds};
use beatwalk::synth::{Demo, Random, Reflex, Tap};
use std::fmt::Write;

const TRIALS: u64 = 40;
const TAPS: [f64; 6] = [0.6, 1.45, 2.4, 3.3, 4.17, 5.06];

/// Soleus: 30.97 ms in the mean, a burst of 11.05 ms (Chon 1996, Kim 1997).
const ANKLE: Reflex =
    Reflex { latency: Seconds::new(0.031), length: Seconds::new(0.011_05), ..Reflex::KNEE };

fn record(reflex: &Reflex, hz: f64, seed: u64) -> (Recording, Vec<Tap>) {
    let random = &mut Random::new(4000 + seed);
    let rate = SampleRate::new(hz).unwrap();
    let late = random.between(0.0, 0.01);
    let taps = TAPS.map(|tap| Seconds::new(tap + late));
    let (voltage, answered) = reflex.record(&taps, rate, rate.count(Seconds::new(6.0)), random);
    (Recording { samples: voltage.into(), ..bare(hz, 0.0) }, answered)
}

/// Taps as a column of the file has them: at the nearest sample.
fn taps(recording: &Recording, answered: &[Tap]) -> Vec<Seconds> {
    let rate = recording.rate;
    answered.iter().map(|tap| rate.time_of(rate.nearest(tap.at))).collect()
}

#[test]
fn latency_is_known_as_well_as_stated() {
    let mut table = String::from(
        "# The stretch reflex\n\nMade anew by tests/suite/reflex_accuracy.rs; all recordings are invented.\n\n\
         ## Latency\n\nSix taps in each of 40 recordings a line, marked at the nearest sample, usual settings. A burst of \
         1.5 mV from peak to\npeak; noise is the spread of the EMG at rest. Error: onset less the moment at which the burst \
         leaves zero. Stated: the mean\nuncertainty (k = 2). Holds: how often the error is no larger; 95 is meant. Mean \
         holds: how often the 95 % interval of\nthe mean of six holds the true one.\n\n| muscle | noise, mV | samples/s | answered, % | \
         mean error, ms | SD, ms | stated, ms | holds, % | mean holds, % |\n|---|---|---|---|---|---|---|---|---|\n",
    );
    let mut missed = Vec::new();
    for (name, muscle) in [("knee", Reflex::KNEE), ("ankle", ANKLE)] {
        for noise in [0.002, 0.008, 0.03, 0.1] {
            for hz in [1000.0, 2000.0, 4000.0] {
                let reflex = Reflex { resting_noise: Millivolts::new(noise), ..muscle };
                let (line, is_met) = trials(&reflex, hz);
                if !is_met && noise < 0.05 {
                    missed.push(format!("{name}, {noise} mV, {hz} Hz: {line}"));
                }
                writeln!(table, "| {name} | {noise} | {hz} | {line}").unwrap();
            }
        }
    }
    table.push_str(
        "\n## Muscles that did not answer\n\nThe same without any burst: how many taps in a hundred were still given an \
         answer, by k and the hold.\n\n| window | k | hold, ms | 1000/s | 2000/s | 4000/s |\n|---|---|---|---|---|---|\n",
    );
    for (name, usual) in
        [("reflex", ReflexSettings::REFLEX), ("voluntary", ReflexSettings::VOLUNTARY)]
    {
        for deviations in [2.0, 3.0, 4.0] {
            let settings = ReflexSettings { deviations, ..usual };
            let hold = settings.hold.milliseconds();
            let percent = [1000.0, 2000.0, 4000.0].map(|hz| false_answers(settings, hz));
            let [a, b, c] = percent.map(|percent| format!("{percent:.1}"));
            writeln!(table, "| {name} | {deviations} | {hold} | {a} | {b} | {c} |").unwrap();
        }
        let percent = false_answers(usual, 2000.0);
        if percent > 5.0 {
            missed.push(format!("{name}: {percent} % of silent taps have an answer"));
        }
    }
    assert_table("reflex.md", &table);
    assert_eq!(missed, Vec::<String>::new());
}

fn trials(reflex: &Reflex, hz: f64) -> (String, bool) {
    let (mut errors, mut stated, mut held, mut means, mut mean_held) = (Vec::new(), 0.0, 0, 0, 0);
    for seed in 0..TRIALS {
        let (recording, answered) = record(reflex, hz, seed);
        let found =
            Reflexes::of(&recording, &taps(&recording, &answered), ReflexSettings::REFLEX).unwrap();
        for (tap, truth) in found.taps.iter().zip(&answered) {
            let Ok(answer) = tap.response else { continue };
            let right = (truth.burst - truth.at).to_milliseconds().milliseconds();
            let error = answer.latency.milliseconds() - right;
            errors.push(error);
            stated += answer.latency_uncertainty.milliseconds();
            held += u32::from(error.abs() <= answer.latency_uncertainty.milliseconds());
        }
        if let Some(interval) = found.mean_latency() {
            means += 1;
            mean_held += u32::from(interval.holds(reflex.latency.to_milliseconds().milliseconds()));
        }
    }
    let n = errors.len() as f64;
    let mean = errors.iter().sum::<f64>() / n;
    let deviation = (errors.iter().map(|e| (e - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
    let answered = 100.0 * n / (TRIALS as usize * TAPS.len()) as f64;
    let (held, mean_held) =
        (100.0 * f64::from(held) / n, 100.0 * f64::from(mean_held) / f64::from(means.max(1)));
    let line = format!(
        "{answered:.0} | {mean:.2} | {deviation:.2} | {:.2} | {held:.0} | {mean_held:.0} |",
        stated / n
    );
    // 95 of 100 are meant. A burst that rises slowly out of more noise hides for longer than can be told.
    let least = if reflex.resting_noise.millivolts() < 0.01 { 95.0 } else { 85.0 };
    (line, answered > 97.0 && held >= least)
}

fn false_answers(settings: ReflexSettings, hz: f64) -> f64 {
    let still = Reflex { height: Millivolts::new(0.0), ..Reflex::KNEE };
    let mut answers = 0;
    for seed in 0..TRIALS {
        let (recording, answered) = record(&still, hz, 90 + seed);
        let found = Reflexes::of(&recording, &taps(&recording, &answered), settings).unwrap();
        answers += found.responses().count();
    }
    100.0 * answers as f64 / (TRIALS as usize * TAPS.len()) as f64
}

/// The invented knee, through its marks.
#[test]
fn demo_reflex_has_four_answers() {
    let recording = Demo::KneeReflex.recording().unwrap();
    let text = likely_tap_mark(&recording).unwrap();
    let taps = taps_marked(&recording, &text).unwrap();
    let found = Reflexes::of(&recording, &taps, ReflexSettings::REFLEX).unwrap();
    let latency = found.latency_ms.unwrap();
    assert_eq!((latency.n, found.silent(), found.left_out()), (4, 0, 0));
    assert!((latency.mean - 17.8).abs() < 1.0, "{latency:?}");
    let duration = found.duration_ms.unwrap().mean;
    assert!((15.0..=23.0).contains(&duration), "{duration} ms");
}

/// A tap sensor sampled slower than the EMG, both from one start.
#[test]
fn a_channel_of_another_rate_marks_the_taps() {
    let (recording, answered) = record(&Reflex::KNEE, 2000.0, 1);
    let sensor = SampleRate::new(500.0).unwrap();
    let mut force = vec![0.02_f32; 3000];
    for tap in &answered {
        force[(tap.at.seconds() * 500.0).ceil() as usize..][..10].fill(4.0);
    }
    let channel = Recording { rate: sensor, samples: force.into(), ..bare(500.0, 0.0) };
    let taps = taps_in_channel(&channel).unwrap();
    let found = Reflexes::of(&recording, &taps, ReflexSettings::REFLEX).unwrap();
    assert_eq!(found.responses().count(), 6);
    let latency = found.latency_ms.unwrap();
    assert!((latency.mean - 17.8).abs() < 1.5, "{latency:?}");
    let why = |taps: &[Seconds]| {
        let found = Reflexes::of(&recording, taps, ReflexSettings::REFLEX).unwrap();
        found.taps.iter().map(|tap| tap.response.err()).collect::<Vec<_>>()
    };
    let twice = [taps[0], taps[0] + Seconds::new(0.04), taps[2]];
    let [other, one] = [2, 1].map(|number| Some(WhyNoResponse::Overlaps(number)));
    assert_eq!(why(&twice), [other, one, None]);
}
