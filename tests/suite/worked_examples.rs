//! Worked examples with known answers, from `tests/data/reference/worked-examples.json`.
//!
//! Each example names its source and its tolerance there. The ones for T end by the tangent
//! (`tangent-*`) stand beside that code, which is not public.

use beatwalk::analysis::{
    Beat, BeatSeries, Intervals, Measurement, QtCorrection, corrected_qt, measure, rhythm,
};
use beatwalk::signal::{
    Landmark, Milliseconds, Recording, SampleIndex, SampleRate, Seconds, VoltageUnit,
};
use serde_json::Value;
use std::path::Path;

/// The examples whose id begins so.
pub(crate) fn examples(beginning: &str) -> Vec<Value> {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/reference/worked-examples.json");
    let all: Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
    let examples = all["examples"].as_array().unwrap().iter();
    let found: Vec<Value> = examples
        .filter(|example| example["id"].as_str().unwrap().starts_with(beginning))
        .cloned()
        .collect();
    assert!(!found.is_empty(), "no example {beginning}");
    found
}

pub(crate) fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

pub(crate) fn assert_near(found: f64, right: &Value, tolerance: f64, what: &str) {
    let right = right.as_f64().unwrap();
    assert!((found - right).abs() <= tolerance, "{what}: {found} for {right}");
}

fn trace(hz: f64) -> Recording {
    Recording {
        name: String::new(),
        rate: SampleRate::new(hz).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: vec![0.0; 60].into(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}

/// Beats whose R lie so many samples apart.
fn beats(rr: impl IntoIterator<Item = usize>) -> Vec<Beat> {
    let mut at = 0;
    let mut beats = vec![beat(at)];
    for samples in rr {
        at += samples;
        beats.push(beat(at));
    }
    beats
}

fn beat(at: usize) -> Beat {
    Beat::at(SampleIndex::new(at))
}

/// What the beats of a trace of so many samples a second measure.
fn measure_all(hz: f64, beats: &[Beat]) -> Intervals {
    measure(BeatSeries::new(&trace(hz), beats, &[]))
}

/// The intervals between beats whose RR are given in ms.
fn measured(rr_ms: &[f64]) -> Intervals {
    measure_all(1000.0, &beats(rr_ms.iter().map(|ms| ms.round() as usize)))
}

fn value(measurement: Option<Measurement>) -> f64 {
    measurement.map_or(f64::NAN, |measurement| measurement.value)
}

#[test]
fn qt_is_corrected_as_the_formulas_say() {
    let mut checked = 0;
    for example in examples("qtc-") {
        let id = example["id"].as_str().unwrap();
        let inputs = &example["inputs"];
        let rr = inputs["RR_s"].as_f64().or_else(|| Some(60.0 / inputs["HR_bpm"].as_f64()?));
        let qt = Milliseconds::new(inputs["QT_ms"].as_f64().unwrap());
        // The published strips give their rate to 0.1 a minute.
        let tolerance = if id.contains("published") { 0.4 } else { 0.1 };
        for (by, name) in [
            (QtCorrection::Bazett, "bazett_ms"),
            (QtCorrection::Fridericia, "fridericia_ms"),
            (QtCorrection::Framingham, "framingham_ms"),
            (QtCorrection::Hodges, "hodges_ms"),
        ] {
            let right = &example["expected"][name];
            if !right.is_null() {
                let found = corrected_qt(by, qt, Seconds::new(rr.unwrap())).unwrap();
                assert_near(found.milliseconds(), right, tolerance, &format!("{id} {name}"));
                checked += 1;
            }
        }
    }
    assert_eq!(checked, 10 * 4 + 3 * 2);
}

#[test]
fn all_corrections_agree_at_sixty_and_refuse_what_is_no_interval() {
    for by in QtCorrection::ALL {
        let qt = |qt, rr| corrected_qt(by, Milliseconds::new(qt), Seconds::new(rr));
        assert_eq!(qt(400.0, 1.0).map(Milliseconds::milliseconds), Some(400.0));
        for (qt_ms, rr) in
            [(0.0, 1.0), (400.0, 0.0), (-1.0, 1.0), (f64::NAN, 1.0), (400.0, f64::NAN)]
        {
            assert_eq!(qt(qt_ms, rr), None, "{qt_ms} ms at {rr} s");
        }
    }
}

#[test]
fn rate_from_an_interval_is_that_of_the_box_rules() {
    for (id, list, seconds) in [
        ("box-large", "large_boxes", 0.2),
        ("box-small", "small_boxes", 0.04),
        ("box-50", "large_boxes", 0.1),
    ] {
        for example in examples(id) {
            let boxes = numbers(&example["inputs"][list]);
            let rates = example["expected"]["bpm"].as_array().unwrap();
            assert_eq!(boxes.len(), rates.len());
            for (boxes, right) in boxes.iter().zip(rates) {
                let found = measured(&[boxes * seconds * 1000.0]);
                assert_near(value(found.rate_bpm), right, 0.1, &format!("{id}, {boxes} boxes"));
            }
        }
    }
}

#[test]
fn one_sample_of_rr_changes_the_rate_by_what_the_formula_says() {
    let example = &examples("rate-quantisation")[0];
    let rr = 60.0 / example["inputs"]["HR_bpm"].as_f64().unwrap();
    let rates = numbers(&example["inputs"]["fs_Hz"]);
    let changes = example["expected"]["dHR_bpm"].as_array().unwrap();
    for (hz, right) in rates.into_iter().zip(changes) {
        let samples = (rr * hz).round() as usize;
        let rate = |samples| value(measure_all(hz, &beats([samples])).rate_bpm);
        let change = (rate(samples - 1) - rate(samples + 1)) / 2.0;
        assert_near(change, right, 1e-3, &format!("{hz} Hz"));
    }
}

#[test]
fn spread_of_rr_and_rate_is_that_of_the_task_force() {
    for example in examples("hrv-") {
        let id = example["id"].as_str().unwrap();
        let expected = &example["expected"];
        let rr = numbers(&example["inputs"]["NN_ms"]);
        let found = measured(&rr);
        let found_rr = found.rr_ms.unwrap();
        assert_eq!(found_rr.n, rr.len(), "{id}");
        assert_near(found_rr.spread, &expected["SDNN_sample_ms"], 0.01, id);
        if let Some(right) = expected.get("SD_instantaneous_HR_bpm") {
            assert_near(found.rate_bpm.unwrap().spread, right, 1e-3, id);
        }
        let beats = beats(rr.iter().map(|ms| ms.round() as usize));
        let found = rhythm(BeatSeries::new(&trace(1000.0), &beats, &[])).variability.unwrap();
        assert_eq!((found.n, found.differences), (rr.len(), rr.len() - 1), "{id}");
        for (name, value) in [
            ("SDNN_sample_ms", found.sdnn.milliseconds()),
            ("RMSSD_ms", found.rmssd.unwrap().milliseconds()),
            ("NN50", found.nn50 as f64),
            ("pNN50_over_differences_pct", 100.0 * found.pnn50().unwrap()),
            ("mean_NN_ms", found.mean_rr.milliseconds()),
            ("mean_HR_from_mean_NN_bpm", found.mean_rate().per_minute()),
        ] {
            if let Some(right) = expected.get(name) {
                assert_near(value, right, 1e-3, &format!("{id} {name}"));
            }
        }
    }
}

#[test]
fn intervals_follow_from_landmarks() {
    let example = &examples("intervals-01")[0];
    let at = |name: &str| {
        let seconds = example["inputs"][name].as_f64().unwrap();
        SampleIndex::new((seconds * 1000.0).round() as usize)
    };
    let mut first = beat(at("R").get());
    for (landmark, name) in [
        (Landmark::POnset, "P_on"),
        (Landmark::PEnd, "P_off"),
        (Landmark::QrsOnset, "QRS_on"),
        (Landmark::QrsEnd, "QRS_off_J"),
        (Landmark::TPeak, "T_peak"),
        (Landmark::TEnd, "T_off"),
    ] {
        first.landmarks.set(landmark, Some(at(name)));
    }
    let found = measure_all(1000.0, &[first, beat(at("next_R").get())]);
    let expected = &example["expected"];
    for (found, name) in [
        (found.pr_ms, "PR_ms"),
        (found.qrs_ms, "QRS_ms"),
        (found.qt_ms, "QT_ms"),
        (found.rr_ms, "RR_ms"),
        (found.rate_bpm, "HR_bpm"),
    ] {
        assert_near(value(found), &expected[name], 1e-6, name);
    }
}
