//! How often a curve of recovery is refused, how near its time constant comes, and how often the stated
//! intervals hold the truth, on invented beats: `tests/data/accuracy/recovery.md` is computed anew.

use super::accuracy::assert_table;
use super::inquiry_recovery::{RESTING, RISE, bare, base, beats, pace};
use beatwalk::analysis::{Beat, BeatSeries};
use beatwalk::inquiry::{RateCourse, recovery_curve};
use beatwalk::signal::Seconds;
use beatwalk::synth::Random;
use std::fmt::Write;

/// Recordings for each line of the table.
const TRIALS: u64 = 60;
/// Wavering: its name, the spread of RR in ms by a random process that breathing is part of, and a drift of the
/// rate: its standard deviation, 1/min, which forgets itself over [`FORGETS`].
const WAVERING: [(&str, f64, f64); 4] =
    [("quiet", 10.0, 0.0), ("usual", 28.0, 0.0), ("strong", 55.0, 0.0), ("drift", 14.0, 2.0)];
/// After so many seconds 37 % of a drift is left.
const FORGETS: f64 = 20.0;

/// Beats whose rate also drifts: a first-order process beside the pace.
fn drifting(beats: Vec<Beat>, drift: f64, random: &mut Random) -> Vec<Beat> {
    let (mut off, mut moved) = (drift * random.normal(), 0.0);
    let Some(mut before) = beats.first().map(|beat| beat.r) else { return beats };
    let mut later = Vec::with_capacity(beats.len());
    for beat in beats {
        let rr = beat.r.minus(before) as f64 / 250.0;
        before = beat.r;
        // RR = 60 / rate, so a rate higher by `off` shortens RR by off·RR²/60.
        moved -= off * rr * rr / 60.0;
        later.push(Beat::at(beat.r.offset((moved * 250.0).round() as isize)));
        let kept = (-rr / FORGETS).exp();
        off = off * kept + drift * (1.0 - kept * kept).sqrt() * random.normal();
    }
    later
}

#[derive(Default)]
struct Trials {
    given: u32,
    tau: f64,
    half_width: f64,
    tau_held: u32,
    resting_held: u32,
}

fn trials(seconds: f64, tau: f64, (spread, drift): (f64, f64)) -> Trials {
    let recording = bare(250.0, 0.1);
    let mut trials = Trials::default();
    for seed in 0..TRIALS {
        let random = &mut Random::new(seed + 1000);
        let beats = beats(&pace(base(tau), spread, 0.0), seconds, random);
        let beats = if drift > 0.0 { drifting(beats, drift, random) } else { beats };
        let course = RateCourse::of(BeatSeries::new(&recording, &beats, &[]), Seconds::new(0.0));
        let Ok(fit) = recovery_curve(&course.counted()) else { continue };
        let found = fit.time_constant.estimate;
        trials.given += 1;
        trials.tau += found.value;
        trials.half_width += found.half_width();
        trials.tau_held += u32::from(found.holds(tau));
        trials.resting_held += u32::from(fit.resting.estimate.holds(RESTING));
    }
    trials
}

#[test]
fn the_time_constant_is_found_within_what_is_stated() {
    let mut table = format!(
        "# Curves of recovery\n\n{RESTING} + {RISE} · exp(−t/τ) a minute, {TRIALS} invented recordings a line, made \
         anew by tests/suite/inquiry_curves.rs.\nRR wavers by a random process of 0.1 and 0.25 Hz, breathing: \
         quiet 10 ms (SD), usual 28, strong 55; drift: 14, and the\nrate drifts by 2 a minute (SD) with a memory \
         of {FORGETS} s. A refusal gives no number; mean τ, its mean half\ninterval (95 %) and how often the \
         intervals hold the truth are over the others.\n\n\
         | wavering | followed, s | τ, s | refused | mean τ | ± | holds τ, % | holds resting, % |\n\
         |---|---|---|---|---|---|---|---|\n"
    );
    let mut sums = Vec::new();
    for (name, spread, drift) in WAVERING {
        let (mut held, mut given) = (0, 0);
        for seconds in [30.0, 60.0, 120.0, 240.0] {
            for tau in [20.0, 40.0, 80.0] {
                let found = trials(seconds, tau, (spread, drift));
                let n = f64::from(found.given);
                let refused = TRIALS as u32 - found.given;
                let line = if found.given == 0 {
                    "– | – | – | –".to_owned()
                } else {
                    let percent = |held: u32| (100.0 * f64::from(held) / n).round();
                    format!(
                        "{:.1} | {:.1} | {} | {}",
                        found.tau / n,
                        found.half_width / n,
                        percent(found.tau_held),
                        percent(found.resting_held)
                    )
                };
                writeln!(table, "| {name} | {seconds} | {tau} | {refused} | {line} |").unwrap();
                held += found.tau_held;
                given += found.given;
            }
        }
        let percent = 100.0 * f64::from(held) / f64::from(given);
        sums.push(format!("{name}: {held} of {given} intervals hold τ ({percent:.1} %)."));
    }
    writeln!(table, "\n{}", sums.join("\n")).unwrap();
    assert_table("recovery.md", &table);
}
