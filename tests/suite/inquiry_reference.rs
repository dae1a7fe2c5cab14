//! Statistics and curves of the investigations against scipy: `scipy_inquiry.json`, made by the script beside
//! it. Numbers are invented there; nothing of them was made with our code.

use super::accuracy::data;
use super::worked_examples::{assert_near, numbers};
use beatwalk::inquiry::Exponential;
use beatwalk::inquiry::stats::{FiveNumbers, Moments, Paired, coverage, signed_rank, two_sided_p};
use serde_json::Value;

fn reference() -> Value {
    let text = std::fs::read_to_string(data("reference/scipy_inquiry.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn list(of: &Value) -> &Vec<Value> {
    of.as_array().unwrap()
}

#[test]
fn means_have_the_intervals_of_scipy() {
    for case in list(&reference()["means"]) {
        let values = numbers(&case["values"]);
        let what = format!("{} values", values.len());
        let moments = Moments::of(&values).unwrap();
        let interval = moments.mean_interval().unwrap();
        assert_near(moments.mean, &case["mean"], 1e-9, &what);
        assert_near(moments.deviation.unwrap(), &case["sd"], 1e-9, &what);
        assert_near(interval.low, &case["low"], 1e-6, &what);
        assert_near(interval.high, &case["high"], 1e-6, &what);
        let five = FiveNumbers::of(&values).unwrap();
        let [lowest, lower, median, upper, highest] =
            [five.lowest, five.lower_quartile, five.median, five.upper_quartile, five.highest];
        for (found, right) in
            [lowest, lower, median, upper, highest].iter().zip(list(&case["five"]))
        {
            assert_near(*found, right, 1e-9, &what);
        }
    }
}

#[test]
fn students_t_is_that_of_scipy() {
    for case in list(&reference()["student_975"]) {
        let case = numbers(case);
        let found = coverage(case[0]).unwrap();
        assert!((found - case[1]).abs() < 1e-9 * case[1], "{found}, not {}", case[1]);
        assert!((two_sided_p(found, case[0]).unwrap() - 0.05).abs() < 1e-10);
    }
}

#[test]
fn paired_tests_are_those_of_scipy() {
    for case in list(&reference()["paired"]) {
        let what = case["name"].as_str().unwrap();
        let differences = numbers(&case["differences"]);
        let paired = Paired::of(&differences).unwrap();
        let t = paired.t_test.unwrap();
        assert_near(t.t, &case["t"], 1e-9, what);
        assert_near(t.degrees_of_freedom, &case["df"], 1e-12, what);
        assert_near(t.p, &case["t_p"], 1e-9, what);
        assert_near(paired.interval.unwrap().low, &case["low"], 1e-7, what);
        assert_near(paired.interval.unwrap().high, &case["high"], 1e-7, what);
        assert_near(paired.effect.unwrap(), &case["d_z"], 1e-9, what);
        let ranks = signed_rank(&differences).unwrap();
        assert_eq!(paired.signed_rank, Some(ranks));
        assert_near(ranks.above.min(ranks.below), &case["smaller_rank_sum"], 1e-9, what);
        assert_near(ranks.p, &case["wilcoxon_p"], 1e-9, what);
        assert_eq!(ranks.is_exact, case["wilcoxon_method"] != "normal, with correction", "{what}");
    }
}

#[test]
fn curves_are_those_of_scipy() {
    for case in list(&reference()["fits"]) {
        let what = case["name"].as_str().unwrap();
        let points: Vec<(f64, f64)> =
            numbers(&case["times"]).into_iter().zip(numbers(&case["rates"])).collect();
        let fit = Exponential::through(&points).unwrap();
        assert_eq!((fit.n, fit.left_out), (points.len(), 0), "{what}");
        let fitted = [fit.resting, fit.rise, fit.time_constant];
        for ((fitted, value), error) in
            fitted.iter().zip(list(&case["found"])).zip(list(&case["standard_errors"]))
        {
            assert_near(fitted.estimate.value, value, 1e-6 * value.as_f64().unwrap(), what);
            assert_near(fitted.standard_error, error, 1e-6 * error.as_f64().unwrap(), what);
        }
        assert_near(fit.scatter, &case["scatter"], 1e-6, what);
        assert_near(fit.r_squared, &case["r_squared"], 1e-6, what);
    }
}
