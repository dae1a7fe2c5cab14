//! Any bytes as gzip or zip, known by their start: an answer, and only finite samples.
#![no_main]

use beatwalk::formats::{Choices, Opening, SourceFile, open};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let file = SourceFile { name: "ecg.zip".to_owned(), bytes: bytes.to_vec() };
    if let Ok(Opening::Ready(opened)) = open(&[file], &Choices::default(), &mut ()) {
        for trace in &opened.traces {
            assert!(trace.samples.iter().all(|value| value.is_finite()));
        }
    }
});
