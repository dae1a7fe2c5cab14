//! The same numbers in the browser as natively: a few tests of the core, run in Chromium.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that can't go on has failed")]

#[path = "../bench/heart.rs"]
mod heart;

use beatwalk::analysis;
use beatwalk::formats::SourceFile;
use beatwalk::synth::Demo;
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// The committed files were written natively; the browser has to make the very same bytes.
#[wasm_bindgen_test]
fn demo_recordings_are_the_same_in_the_browser() {
    let kept = [
        include_str!("../../demo/recordings/quillmere-10k-q03-resting.csv"),
        include_str!("../../demo/recordings/quillmere-10k-q03-after-stairs.csv"),
        include_str!("../../demo/recordings/quillmere-10k-q11-noisy.csv"),
        include_str!("../../demo/recordings/quillmere-10k-q07-swapped-arms.csv"),
        include_str!("../../demo/recordings/quillmere-10k-q14-knee-reflex.csv"),
    ];
    for (demo, kept) in Demo::ALL.into_iter().zip(kept) {
        assert!(demo.csv().unwrap() == kept, "{} differs", demo.file_name());
    }
}

/// Natively the resting student has 32 beats at 64.0 a minute (`tests/suite` and the page agree).
#[wasm_bindgen_test]
fn a_heart_is_read_the_same_in_the_browser() {
    let recording = Demo::Resting.recording().unwrap();
    let reading = analysis::read(&recording, &mut ());
    assert_eq!(reading.beats.len(), 32);
    let rate = reading.intervals.rate_bpm.unwrap();
    assert!((rate.value - 64.0).abs() < 0.1, "{}", rate.value);
}

/// How long the steps of a lesson take on half an hour at 500 Hz: reported for `tests/bench/compare.py`.
#[wasm_bindgen_test]
#[ignore = "reports, judges nothing; wants the profile `wasm`"]
fn the_steps_of_a_lesson() {
    let bytes = heart::text(30).into_bytes();
    let file = [SourceFile { name: "heart.csv".to_owned(), bytes }];
    let recording = heart::opened(&file);
    report("open", || heart::opened(&file).samples.len());
    report("clean", || heart::cleaning().apply(&recording).samples.len());
    report("beats and boundaries", || analysis::read(&recording, &mut ()).beats.len());
}

/// The least time of some runs, ms.
fn report(step: &str, work: impl Fn() -> usize) {
    let times = (0..5).map(|_| {
        let began = js_sys::Date::now();
        assert!(work() > 0);
        js_sys::Date::now() - began
    });
    console_log!("step {step}: {} ms", times.fold(f64::INFINITY, f64::min));
}
