//! Smoothing and filtering against published tables, closed forms and an outside library.
//!
//! `ma-*`, `tri-*`, `gauss-*`, `median-*`: closed forms. `sg-*`: Savitzky & Golay 1964 (Anal Chem
//! 36:1627) with the corrections of Steinier 1972. `scipy_cleaning.json`: scipy.signal, made by the
//! script beside it. What cleaning costs a beat is checked on triangles, whose loss is known.

use crate::worked_examples::{assert_near, examples, numbers};
use beatwalk::analysis::{
    self, Cleaning, Corner, Price, Smoother, SmootherKind, Window, price, strongest_window,
};
use beatwalk::signal::{Hertz, Landmark, Recording, SampleRate, VoltageUnit};
use proptest::prelude::*;
use serde_json::Value;
use std::path::Path;

fn smoother(kind: SmootherKind, points: usize) -> Smoother {
    Smoother { kind, window: Window::new(points).unwrap() }
}

fn rate(hz: f64) -> SampleRate {
    SampleRate::new(hz).unwrap()
}

fn trace(hz: f64, samples: Vec<f32>) -> Recording {
    Recording {
        name: String::new(),
        rate: rate(hz),
        unit: VoltageUnit::Millivolt,
        samples: samples.into(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// The value at the top of a symmetric pulse after smoothing; the pulse is 1 there.
fn kept(smoother: Smoother, pulse: impl Fn(f64) -> f64) -> f64 {
    let samples: Vec<f32> = (-300..=300).map(|k| pulse(f64::from(k)) as f32).collect();
    smoother.apply(&samples)[300].into()
}

fn triangle(half_base: f64) -> impl Fn(f64) -> f64 {
    move |k| (1.0 - k.abs() / half_base).max(0.0)
}

fn gaussian(sd: f64) -> impl Fn(f64) -> f64 {
    move |k| (-k * k / (2.0 * sd * sd)).exp()
}

#[test]
fn the_mean_has_its_closed_forms() {
    for example in examples("ma-").iter().filter(|example| example["inputs"]["N"].is_u64()) {
        let points = example["inputs"]["N"].as_u64().unwrap() as usize;
        let expected = &example["expected"];
        let Ok(window) = Window::new(points) else {
            assert_eq!(points, 3, "only three points are too few");
            continue;
        };
        let mean = Smoother { kind: SmootherKind::Mean, window };
        let gain = |hz| mean.gain(Hertz::new(hz), rate(250.0)).unwrap().abs();
        let what = format!("{points} points");
        assert_near(gain(10.0), &expected["amplitude_at_10Hz_fs250"], 1e-5, &what);
        assert_near(gain(50.0), &expected["amplitude_at_50Hz_fs250"], 1e-5, &what);
        assert_near(mean.noise_kept().unwrap(), &expected["white_noise_sd_gain"], 1e-5, &what);
        let unit = |found: Option<Hertz>| found.unwrap().hertz();
        assert_near(unit(mean.first_null(rate(1.0))), &expected["first_null_over_fs"], 1e-6, &what);
        assert_near(unit(mean.corner(rate(1.0))), &expected["f3dB_over_fs_exact"], 1e-6, &what);
    }
    let parabola: Vec<f32> = (-100..=100_i16).map(|k| f32::from(k * k)).collect();
    let raised = &examples("ma-invariants")[0];
    let windows = numbers(&raised["inputs"]["N"]);
    for (points, right) in
        windows.iter().zip(raised["expected"]["parabola_offset"].as_array().unwrap())
    {
        let found = smoother(SmootherKind::Mean, *points as usize).apply(&parabola)[100];
        assert_near(found.into(), right, 1e-4, &format!("{points} points on a parabola"));
    }
}

#[test]
fn pulses_lose_the_height_that_the_closed_forms_say() {
    let mut checked = 0;
    for (id, pulse_is_triangle) in [("tri-", true), ("gauss-s", false)] {
        for example in examples(id) {
            for (points, right) in example["expected"]["kept_by_N"].as_object().unwrap() {
                let mean = smoother(SmootherKind::Mean, points.parse().unwrap());
                let (found, right) = if pulse_is_triangle {
                    (kept(mean, triangle(example["inputs"]["W_samples"].as_f64().unwrap())), right)
                } else {
                    let sd = example["inputs"]["sigma_samples"].as_f64().unwrap();
                    (kept(mean, gaussian(sd)), &right["exact"])
                };
                assert_near(found, right, 2e-6, &format!("{} at {points}", example["id"]));
                checked += 1;
            }
        }
    }
    assert!(checked > 50, "{checked}");
    let versus = &examples("sg-vs-mean")[0]["expected"]["by_N"];
    for (points, right) in versus.as_object().unwrap() {
        let fitted = smoother(SmootherKind::SavitzkyGolay, points.parse().unwrap());
        assert_near(kept(fitted, triangle(10.0)), &right["triangle_W10"], 2e-6, points);
        assert_near(kept(fitted, gaussian(5.0)), &right["gauss_s5"], 2e-6, points);
    }
    let tops = &examples("median-tri")[0];
    let windows = numbers(&tops["inputs"]["N"]);
    for (points, right) in windows.iter().zip(tops["expected"]["peak"].as_array().unwrap()).skip(1)
    {
        let median = smoother(SmootherKind::Median, *points as usize);
        assert_near(kept(median, triangle(10.0)), right, 1e-6, "median of a triangle");
    }
}

#[test]
fn fitted_parabolas_have_the_published_weights() {
    for example in examples("sg-quadratic") {
        let points = example["inputs"]["points"].as_u64().unwrap() as usize;
        let fitted = smoother(SmootherKind::SavitzkyGolay, points);
        let normaliser = example["expected"]["normaliser"].as_f64().unwrap();
        // What one sample of 1 becomes around itself is the list of weights.
        let mut impulse = vec![0.0_f32; 101];
        impulse[50] = 1.0;
        let response = fitted.apply(&impulse);
        let around = &response[50 - points / 2..=50 + points / 2];
        let published = numbers(&example["expected"]["coefficients_full"]);
        for (found, integer) in around.iter().zip(&published) {
            assert!((f64::from(*found) - integer / normaliser).abs() < 1e-7, "{points} points");
        }
        let variance = fitted.noise_kept().unwrap().powi(2);
        assert_near(variance, &example["expected"]["white_noise_variance_gain"], 1e-6, "variance");
        let null = fitted.first_null(rate(250.0)).unwrap();
        assert!(fitted.gain(null, rate(250.0)).unwrap().abs() < 1e-9);
    }
}

/// What the outside library made of the same signal.
fn outside() -> (Value, Vec<f32>) {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/reference/scipy_cleaning.json");
    let outside: Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
    let sine = |hz: f64, phase: f64, t: f64| (std::f64::consts::TAU * hz * t + phase).sin();
    let mut samples: Vec<f64> = (0..1000)
        .map(|i| f64::from(i) / 250.0)
        .map(|t| sine(1.3, 0.0, t) + 0.4 * sine(17.0, 0.5, t) + 0.2 * sine(50.0, 0.0, t))
        .collect();
    samples[400] += 3.0;
    (outside, samples.into_iter().map(|value| value as f32).collect())
}

#[test]
fn an_outside_library_smooths_alike() {
    let (outside, samples) = outside();
    let at = numbers(&outside["at"]);
    for kind in SmootherKind::ALL {
        for (points, right) in outside[kind.key()].as_object().unwrap() {
            let points: usize = points.parse().unwrap();
            let found = smoother(kind, points).apply(&samples);
            for (at, right) in at.iter().map(|at| *at as usize).zip(right.as_array().unwrap()) {
                let is_whole = (points / 2..1000 - points / 2).contains(&at);
                if is_whole || kind == SmootherKind::SavitzkyGolay {
                    assert_near(
                        found[at].into(),
                        right,
                        2e-6,
                        &format!("{kind:?} {points} at {at}"),
                    );
                }
            }
        }
    }
}

#[test]
fn an_outside_library_filters_alike() {
    let (outside, samples) = outside();
    let trace = trace(250.0, samples);
    let low = Cleaning { low_pass: Corner::new(40.0).ok(), ..Cleaning::default() };
    let drift = Cleaning { drift: true, ..Cleaning::default() };
    for (cleaning, name, tolerance) in [(low, "low_pass_40", 1e-4), (drift, "drift_067", 2e-3)] {
        let copy = cleaning.apply(&trace);
        let right = outside[name]["samples"].as_array().unwrap();
        for (at, right) in numbers(&outside["at"]).into_iter().zip(right) {
            // The two continue a trace beyond its ends for different lengths.
            if (100.0..900.0).contains(&at) {
                assert_near(
                    copy.samples[at as usize].into(),
                    right,
                    tolerance,
                    &format!("{name} at {at}"),
                );
            }
        }
        let gains = outside[name]["gains"].as_array().unwrap();
        for (hz, right) in numbers(&outside["frequencies_hz"]).into_iter().zip(gains) {
            let found = cleaning.gain(Hertz::new(hz), trace.rate).unwrap();
            assert_near(found, right, 1e-6, &format!("{name}, gain at {hz} Hz"));
        }
    }
}

/// Beats of one triangle each on a level line, at 75 a minute, with P and T, and white noise.
fn triangles(hz: f64, noise: f64) -> Recording {
    let wave = |t: f64, centre: f64, height: f64, half: f64| {
        height * (1.0 - (t - centre).abs() / half).max(0.0)
    };
    let mut seed = 7_u64;
    let mut uniform = move || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
    };
    let samples = (0..(40.0 * hz) as usize).map(|i| {
        let t = (i as f64 / hz) % 0.8;
        let beat = wave(t, 0.35, 1.0, 0.04) + wave(t, 0.2, 0.12, 0.05) + wave(t, 0.6, 0.25, 0.08);
        (beat + noise * 12.0_f64.sqrt() * uniform()) as f32
    });
    trace(hz, samples.collect())
}

fn price_of(trace: &Recording, smoother: Smoother) -> Price {
    let cleaning = Cleaning { smoother: Some(smoother), ..Cleaning::default() };
    let copy = cleaning.apply(trace);
    price(trace, &copy, &analysis::read(&copy, &mut |_| {}))
}

#[test]
fn the_price_of_a_mean_is_what_the_closed_form_says() {
    // A triangle of 80 ms keeps 1 - m(m+1)/(N W): 0.788 of 17 points at 500 Hz, W = 20.
    let price = price_of(&triangles(500.0, 0.0), smoother(SmootherKind::Mean, 17));
    let r = price.waves.iter().find(|wave| wave.wave == Landmark::R).unwrap();
    assert!((r.before - 1.0).abs() < 0.02, "{r:?}");
    assert!((r.kept() - 0.788).abs() < 0.02, "{r:?}");
    let t = price.waves.iter().find(|wave| wave.wave == Landmark::TPeak).unwrap();
    assert!(t.kept() > 0.88 && t.kept() < r.kept() + 0.15, "slow waves lose less: {t:?}");
    let (before, after) = price.qrs.unwrap();
    assert!(after > before, "a smoothed complex is wider: {before:?} {after:?}");
}

#[test]
fn white_noise_goes_down_by_the_number_of_points() {
    for points in [5, 9, 17] {
        let price = price_of(&triangles(500.0, 0.02), smoother(SmootherKind::Mean, points));
        // N points leave 1/N of the power. Of smoothed noise, the line that is taken out of each rest (115
        // samples here) takes two parts in 115/N with it.
        let kept = (1.0 - 2.0 * points as f64 / 115.0) / (1.0 - 2.0 / 115.0);
        let right = 10.0 * (points as f64 / kept).log10();
        let found = price.noise_removed_db.unwrap();
        assert!((found - right).abs() < 0.5, "{points}: {found} dB for {right}");
    }
}

#[test]
fn the_suggested_window_keeps_r_and_the_next_does_not() {
    // At 500 samples a second even five points take six parts in a hundred of this R.
    let slow = triangles(500.0, 0.0);
    let slow = analysis::read(&slow, &mut |_| {}).median.unwrap();
    assert_eq!(strongest_window(SmootherKind::Mean, &slow), None);
    let trace = triangles(1000.0, 0.005);
    let reading = analysis::read(&trace, &mut |_| {});
    for kind in SmootherKind::ALL {
        let window = strongest_window(kind, reading.median.as_ref().unwrap()).unwrap();
        let kept = |window: Window| {
            let price = price_of(&trace, Smoother { kind, window });
            price.waves.iter().find(|wave| wave.wave == Landmark::R).unwrap().kept()
        };
        assert!(kept(window) > 0.93, "{kind:?} {window:?}: {}", kept(window));
        let much_wider = Window::new(2 * window.points() + 5).unwrap();
        assert!(kept(much_wider) < 0.95, "{kind:?} {much_wider:?}: {}", kept(much_wider));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn any_trace_can_be_cleaned_and_keeps_its_length(
        samples in prop::collection::vec(-5.0_f32..5.0, 0..300),
        hz in 20.0_f64..5000.0,
        points in (2_usize..60).prop_map(|reach| 2 * reach + 1),
        kind in prop::sample::select(SmootherKind::ALL.to_vec()),
        drift in any::<bool>(),
        corner in prop::option::of(10.0_f64..500.0),
    ) {
        let trace = trace(hz, samples);
        let cleaning = Cleaning {
            drift,
            mains: None,
            low_pass: corner.and_then(|hz| Corner::new(hz).ok()),
            smoother: Some(smoother(kind, points)),
        };
        let copy = cleaning.apply(&trace);
        prop_assert_eq!(copy.samples.len(), trace.samples.len());
        prop_assert!(copy.samples.iter().all(|value| value.is_finite()));
        let reading = analysis::read(&copy, &mut |_| {});
        price(&trace, &copy, &reading);
    }
}
