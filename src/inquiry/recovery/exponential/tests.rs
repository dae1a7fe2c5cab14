//! Curves with known answers, worked examples, and what holds no curve.

use super::*;
use proptest::prelude::*;

const TIMES: [f64; 10] = [0.0, 15.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0, 240.0, 300.0];

fn assert_near(found: f64, right: f64, part: f64) {
    assert!((found - right).abs() <= part * right.abs(), "{found}, not {right}");
}

#[test]
fn an_exact_curve_is_found() {
    // `hrr-01`: 75 + 95 exp(-t/60).
    let points = TIMES.map(|t| (t, 75.0 + 95.0 * (-t / 60.0).exp()));
    let found = Exponential::through(&points).unwrap();
    assert_near(found.resting.estimate.value, 75.0, 1e-6);
    assert_near(found.rise.estimate.value, 95.0, 1e-6);
    assert_near(found.time_constant.estimate.value, 60.0, 1e-6);
    assert_near(found.half_time(), 41.5888, 1e-5);
    assert_near(170.0 - found.rate_at(60.0), 60.0515, 1e-5);
    assert!(found.r_squared > 1.0 - 1e-9);
}

#[test]
fn a_noisy_curve_has_the_errors_of_a_general_library() {
    // `hrr-02`.
    let rates = [168.0, 150.0, 133.0, 124.0, 109.0, 98.0, 88.0, 80.0, 78.0, 75.0];
    let points: Vec<(f64, f64)> = TIMES.into_iter().zip(rates).collect();
    let found = Exponential::through(&points).unwrap();
    for (fitted, (value, error)) in [found.resting, found.rise, found.time_constant]
        .into_iter()
        .zip([(74.5376, 1.18164), (94.2456, 1.57513), (63.9971, 2.72532)])
    {
        assert_near(fitted.estimate.value, value, 1e-4);
        assert_near(fitted.standard_error, error, 1e-4);
    }
    assert_near(found.scatter.powi(2) * 7.0, 18.433, 1e-4);
}

#[test]
fn one_value_far_off_is_left_out_and_counted() {
    let mut points: Vec<(f64, f64)> = (0..120)
        .map(f64::from)
        .map(|t| (t, 80.0 + 60.0 * (-t / 35.0).exp() + (2.1 * t).sin()))
        .collect();
    let clean = Exponential::through(&points).unwrap();
    points[40].1 = 30.0;
    let found = Exponential::through(&points).unwrap();
    assert_eq!((clean.left_out, found.left_out), (0, 1));
    assert_near(found.time_constant.estimate.value, 35.0, 0.02);
}

#[test]
fn what_holds_no_curve_gives_none() {
    assert_eq!(Exponential::through(&[]), None);
    assert_eq!(Exponential::through(&[(3.0, 80.0); 20]), None);
    assert_eq!(Exponential::through(&TIMES.map(|t| (t, f64::NAN))), None);
}

proptest! {
    #[test]
    fn another_zero_and_another_unit_move_the_rates_alone(
        noise in proptest::collection::vec(-3.0f64..3.0, 90),
        up in -30.0f64..30.0,
        times in 0.5f64..3.0,
    ) {
        let points = |up: f64, times: f64| -> Vec<(f64, f64)> {
            let curve = |t: f64| 70.0 + 80.0 * (-t / 25.0).exp();
            let rates = noise.iter().enumerate();
            rates.map(|(t, noise)| (t as f64, up + times * (curve(t as f64) + noise))).collect()
        };
        let here = Exponential::through(&points(0.0, 1.0)).unwrap();
        let there = Exponential::through(&points(up, times)).unwrap();
        let of = |fit: &Exponential| [fit.resting, fit.rise, fit.time_constant].map(|one| one.estimate.value);
        let ([a, b, c], [d, e, f]) = (of(&here), of(&there));
        prop_assert!((d - up - times * a).abs() < 1e-3 && (e - times * b).abs() < 1e-3);
        prop_assert!((c - f).abs() < 1e-4 * c);
    }

    #[test]
    fn nothing_makes_it_panic(
        points in proptest::collection::vec((any::<f64>(), any::<f64>()), 0..30),
    ) {
        let _ = Exponential::through(&points);
    }
}
