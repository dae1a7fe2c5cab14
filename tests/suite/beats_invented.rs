//! Beats found in invented traces of every rate, sampling rate and shape a class may meet.
//!
//! The table in `tests/data/accuracy/beats_invented.md` is computed anew and must come out the same.
//! Truth is known ([`super::invented`]); scored as EC57 has it ([`super::ec57`]), so a beat counts when it
//! lies within 150 ms; at a fast rate that is more than half an interval, and the count decides.
//!
//! Where all beats of a trace are missed at a fast rate, P, a broad QRS and T leave no rest between them
//! and the trace is called noise. Low beats that follow within 360 ms probably fall to the rule against
//! T waves (Pan & Tompkins 1985); that was not looked into case by case.

use super::accuracy::assert_table;
use super::ec57::Score;
use super::invented::{Beats, Shape, bell, even, trace};
use beatwalk::analysis::read;
use beatwalk::signal::Recording;
use std::fmt::Write;

const SECONDS: f64 = 20.0;
/// Beats a minute.
const RATES: [f64; 9] = [25.0, 40.0, 60.0, 80.0, 100.0, 130.0, 160.0, 200.0, 240.0];
/// Samples a second.
const SAMPLING: [f64; 8] = [100.0, 125.0, 200.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0];
/// White noise, mV.
const NOISE: f64 = 0.006;

/// A shape of trace and how it is made at an interval in s.
type Case = (&'static str, fn(f64) -> Beats);

const CASES: [Case; 12] = [
    ("ordinary", |rr| even(rr, SECONDS, |_| Shape::ordinary(rr))),
    ("T taller than R", |rr| {
        even(rr, SECONDS, |_| {
            let ordinary = Shape::ordinary(rr);
            let t = ordinary.t.map(|t| bell(t.middle, t.spread, 1.4));
            Shape { t, ..ordinary }
        })
    }),
    ("small R, 0.15 mV", |rr| {
        even(rr, SECONDS, |_| {
            let ordinary = Shape::ordinary(rr);
            let qrs =
                ordinary.qrs.iter().map(|one| bell(one.middle, one.spread, 0.15 * one.height));
            let p = ordinary.p.map(|p| bell(p.middle, p.spread, 0.06));
            let t = ordinary.t.map(|t| bell(t.middle, t.spread, 0.12));
            Shape { p, qrs: qrs.collect(), t }
        })
    }),
    ("P as tall as R", |rr| {
        even(rr, SECONDS, |_| {
            let ordinary = Shape::ordinary(rr);
            let qrs = ordinary.qrs.iter().map(|one| bell(one.middle, one.spread, 0.3 * one.height));
            let p = ordinary.p.map(|p| bell(p.middle, p.spread, 0.3));
            Shape { p, qrs: qrs.collect(), ..ordinary }
        })
    }),
    ("r and deep S", |rr| {
        even(rr, SECONDS, |_| Shape {
            qrs: vec![bell(0.0, 0.009, 0.3), bell(0.035, 0.014, -0.9)],
            ..Shape::ordinary(rr)
        })
    }),
    ("wide and notched", |rr| even(rr, SECONDS, |_| Shape { p: None, ..wide(rr, 0.8) })),
    ("every fifth early, wide, tall", |rr| ectopic(rr, 1.5)),
    ("every fifth early, wide, low", |rr| ectopic(rr, 0.5)),
    ("alternately tall and low", |rr| {
        even(rr, SECONDS, |beat| {
            let ordinary = Shape::ordinary(rr);
            let part = if beat % 2 == 0 { 1.0 } else { 0.45 };
            let qrs =
                ordinary.qrs.iter().map(|one| bell(one.middle, one.spread, part * one.height));
            Shape { qrs: qrs.collect(), ..ordinary }
        })
    }),
    ("pauses of 2.5 intervals", |rr| {
        let mut at = 0.0;
        let mut beats = even(rr, SECONDS, |_| Shape::ordinary(rr));
        for (beat, (r, _)) in beats.iter_mut().enumerate() {
            at += if beat % 6 == 5 {
                2.5 * rr
            } else if beat > 0 {
                rr
            } else {
                0.6137
            };
            *r = at;
        }
        beats.retain(|(r, _)| *r < SECONDS - 0.5);
        beats
    }),
    ("irregular, ±35 %", |rr| {
        let mut random = oorandom::Rand64::new(3);
        let mut at = 0.6137;
        let mut beats = Vec::new();
        while at < SECONDS - 0.5 {
            beats.push((at, Shape { p: None, ..Shape::ordinary(0.65 * rr) }));
            at += rr * (0.65 + 0.7 * random.rand_float());
        }
        beats
    }),
    ("paced, spike of 3 mV", |rr| {
        even(rr, SECONDS, |_| {
            let wide = wide(rr, 0.8);
            let spike = bell(-0.09, 0.0008, 3.0);
            Shape { p: None, qrs: [vec![spike], wide.qrs].concat(), t: wide.t }
        })
    }),
];

/// A wide complex with two tops, T the other way.
fn wide(rr: f64, height: f64) -> Shape {
    let ordinary = Shape::ordinary(rr);
    Shape {
        qrs: vec![bell(-0.03, 0.017, 0.8 * height), bell(0.02, 0.02, height)],
        t: ordinary.t.map(|t| bell(t.middle, t.spread, -0.35)),
        ..ordinary
    }
}

/// Every fifth beat comes after 0.65 of an interval, without P; the one after it is where it would be.
fn ectopic(rr: f64, height: f64) -> Beats {
    let mut beats = even(rr, SECONDS, |beat| {
        if beat % 5 == 4 { Shape { p: None, ..wide(rr, height) } } else { Shape::ordinary(rr) }
    });
    for (beat, (r, _)) in beats.iter_mut().enumerate() {
        *r -= if beat % 5 == 4 { 0.35 * rr } else { 0.0 };
    }
    beats
}

/// The score, and the greatest distance of a found R from its truth, ms.
fn score(beats: &Beats, recording: &Recording) -> (Score, f64) {
    let truth: Vec<f64> = beats.iter().map(|beat| beat.0).collect();
    let found: Vec<f64> = read(recording, &mut ())
        .beats
        .iter()
        .map(|beat| recording.rate.time_of(beat.r).seconds())
        .collect();
    let off =
        |found: &f64| truth.iter().map(|truth| (found - truth).abs()).fold(f64::INFINITY, f64::min);
    (Score::of(&truth, &found), 1000.0 * found.iter().map(off).fold(0.0, f64::max))
}

fn both_ways(beats: &Beats, hz: f64) -> (Score, f64) {
    let (mut sum, mut farthest) = (Score::default(), 0.0f64);
    for upright in [true, false] {
        let (one, off) = score(beats, &trace(beats, SECONDS, hz, NOISE, upright));
        sum += one;
        farthest = farthest.max(off);
    }
    (sum, farthest)
}

fn cell(score: Score) -> String {
    match (score.missed, score.extra) {
        (0, 0) => "all".to_owned(),
        (missed, extra) => format!("-{missed} +{extra} of {}", score.hit + missed),
    }
}

fn head(first: &str, columns: impl Iterator<Item = String>) -> String {
    let columns: Vec<String> = columns.collect();
    format!("| {first} | {} |\n|---|{}\n", columns.join(" | "), "---|".repeat(columns.len()))
}

#[test]
fn invented_beats_of_every_kind_are_found() {
    let mut text = String::from(
        "# Beats found in invented traces\n\nMade by `tests/suite/beats_invented.rs`: sums of bells, 20 s each, \
         upright and upside down, white\nnoise of 6 µV. `-a +b of n`: missed, invented, beats.\n\n\
         ## Ordinary beats, by rate and sampling rate\n\nLast column: the greatest distance of a found R \
         from its truth, ms.\n\n",
    );
    let mut ordinary = Score::default();
    text += &head(
        "samples a second",
        RATES.iter().map(|rate| format!("{rate} /min")).chain(["R off".to_owned()]),
    );
    for hz in SAMPLING {
        write!(text, "| {hz} |").unwrap();
        let mut farthest = 0.0f64;
        for rate in RATES {
            let (found, off) = both_ways(&CASES[0].1(60.0 / rate), hz);
            ordinary += found;
            farthest = farthest.max(off);
            write!(text, " {} |", cell(found)).unwrap();
        }
        writeln!(text, " {farthest:.0} |").unwrap();
    }
    let mut usual = Score::default();
    text += "\n## Other shapes, by rate, at 250 samples a second\n\n";
    text += &head("shape", RATES.iter().map(|rate| format!("{rate} /min")));
    for (name, beats) in &CASES[1..] {
        write!(text, "| {name} |").unwrap();
        for rate in RATES {
            let (found, _) = both_ways(&beats(60.0 / rate), 250.0);
            if rate <= 100.0 {
                usual += found;
            }
            write!(text, " {} |", cell(found)).unwrap();
        }
        text.push('\n');
    }
    assert_table("beats_invented.md", &text);
    assert_eq!((ordinary.missed, ordinary.extra), (0, 0));
    assert_eq!((usual.missed, usual.extra), (0, 0), "up to 100 a minute");
}
