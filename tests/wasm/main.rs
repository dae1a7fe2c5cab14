//! The same numbers in the browser as natively: a few tests of the core, run in Chromium.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that can't go on has failed")]

use beatwalk::analysis;
use beatwalk::synth::Demo;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

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
