//! Files compared line by line with those that are kept, so that every change of an output is seen.
//!
//! After a wanted change run once with `BEATWALK_REWRITE=1`, read what changed, and keep that.

use std::path::Path;

/// Compares a text with a file in `tests/golden`, or writes it when `BEATWALK_REWRITE` is set.
pub(crate) fn assert_golden(name: &str, text: &str) {
    assert_kept(&format!("golden/{name}"), text);
}

/// Compares a text with a file under `tests`, or writes it when `BEATWALK_REWRITE` is set.
pub(crate) fn assert_kept(name: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(name);
    if std::env::var_os("BEATWALK_REWRITE").is_some() {
        std::fs::write(&path, text).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    for (line, (was, is)) in kept.lines().zip(text.lines()).enumerate() {
        assert_eq!(was, is, "{name}, line {}: see BEATWALK_REWRITE in golden.rs", line + 1);
    }
    assert!(kept == text, "{name} has another length or other ends of lines");
}
