//! Every file that the fuzzers kept, through its door: an answer, never a panic.

#[path = "../fuzz/doors.rs"]
mod doors;

use doors::DOORS;
use std::path::Path;

#[test]
fn what_the_fuzzers_kept_is_answered() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus");
    for (name, door) in DOORS {
        let kept = std::fs::read_dir(corpus.join(name)).unwrap();
        let paths: Vec<_> = kept.map(|entry| entry.unwrap().path()).collect();
        assert!(paths.len() >= 2, "{name}: {}", paths.len());
        for path in paths {
            println!("{}", path.display());
            door(&std::fs::read(&path).unwrap());
        }
    }
    let folders = std::fs::read_dir(&corpus).unwrap().count();
    assert_eq!(folders, DOORS.len(), "every folder has a door");
}
