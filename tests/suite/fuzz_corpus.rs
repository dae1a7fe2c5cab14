//! Every file of the corpus through each door that bytes come in by: an answer, never a panic.

use beatwalk::formats::{Choices, SourceFile, open};
use beatwalk::report::SavedReading;
use std::path::Path;

#[test]
fn no_file_of_the_corpus_makes_a_reader_panic() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus");
    let mut seen = Vec::new();
    for target in ["archive", "edf", "saved", "text", "wav", "wfdb"] {
        for entry in std::fs::read_dir(corpus.join(target)).unwrap() {
            let path = entry.unwrap().path();
            let bytes = std::fs::read(&path).unwrap();
            let _ = SavedReading::from_json(&String::from_utf8_lossy(&bytes));
            // A header up to the first zero byte, then its signal, as the records of the corpus are kept.
            let end = bytes.iter().position(|&byte| byte == 0).unwrap_or(bytes.len());
            let (header, signal) = bytes.split_at(end);
            let file = |name: &str, bytes: &[u8]| SourceFile {
                name: name.to_owned(),
                bytes: bytes.to_vec(),
            };
            let signals = ["r.dat", "o16.dat", "1.dat"].map(|name| file(name, signal));
            let record = [vec![file("r.hea", header)], signals.to_vec()].concat();
            let _ = open(&record, &Choices::default(), &mut ());
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let _ = open(&[SourceFile { name, bytes }], &Choices::default(), &mut ());
            seen.push(target);
        }
    }
    let count = seen.len();
    seen.dedup();
    assert_eq!((seen.len(), count >= 12), (6, true), "{count} files");
}
