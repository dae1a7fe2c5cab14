//! The files in `demo/recordings/` are what the generator makes.
//!
//! `BEATWALK_REWRITE=1` writes them anew.

use beatwalk::synth::Demo;
use std::path::Path;

#[test]
fn the_files_are_what_the_generator_makes_and_no_others() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/recordings");
    let rewrite = std::env::var_os("BEATWALK_REWRITE").is_some();
    for demo in Demo::ALL {
        let path = folder.join(demo.file_name());
        let made = demo.csv().unwrap();
        if rewrite {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(&path, &made).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        let differs = made.lines().zip(kept.lines()).position(|(made, kept)| made != kept);
        assert!(
            made == kept,
            "{} differs, first in line {:?}",
            path.display(),
            differs.map(|n| n + 1)
        );
    }
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let mut expected: Vec<String> = Demo::ALL
        .iter()
        .map(|demo| demo.file_name().to_owned())
        .chain(["README.md".into()])
        .collect();
    names.sort();
    expected.sort();
    assert_eq!(names, expected);
}
