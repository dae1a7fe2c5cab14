//! Any bytes as a record, the header up to the first zero byte: an answer, and only finite samples.
#![no_main]

use beatwalk::formats::{Choices, Opening, SourceFile, open};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let end = bytes.iter().position(|&byte| byte == 0).unwrap_or(bytes.len());
    let (header, signal) = bytes.split_at(end);
    // The corpus has several records; all of their signal files are this one.
    let names = ["r.dat", "o16.dat", "1.dat"];
    let mut files = vec![SourceFile { name: "r.hea".to_owned(), bytes: header.to_vec() }];
    files.extend(names.map(|name| SourceFile { name: name.to_owned(), bytes: signal.to_vec() }));
    if let Ok(Opening::Ready(opened)) = open(&files, &Choices::default(), &mut ()) {
        for trace in &opened.traces {
            assert!(trace.samples.iter().all(|value| value.is_finite()));
        }
    }
});
