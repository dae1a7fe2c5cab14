//! What the accuracy tests share: annotated records, and tables that are recomputed and compared.

use super::golden::assert_kept;
use beatwalk::formats::{Choices, Opening, SourceFile, open};
use beatwalk::signal::Recording;
use std::path::{Path, PathBuf};

/// Whether a record is held out: every third of a set, in the order of their names.
///
/// Numbers are chosen on the others, and these are not looked at one by one. They are not blind, though:
/// all records had been seen before this rule was made, and since then ideas were kept or dropped, and
/// a few variants chosen, with the sums over these in sight.
pub(crate) fn is_held_out(place: usize) -> bool {
    place % 3 == 2
}

pub(crate) fn data(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(path)
}

/// All traces of a WFDB record in `tests/data`, without its annotations.
pub(crate) fn open_traces(record: &str) -> Vec<Recording> {
    let files: Vec<SourceFile> = ["hea", "dat"]
        .into_iter()
        .map(|ending| {
            let path = data(&format!("{record}.{ending}"));
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            SourceFile { name, bytes: std::fs::read(path).unwrap() }
        })
        .collect();
    match open(&files, &Choices::default(), &mut ()) {
        Ok(Opening::Ready(opened)) => opened.traces,
        other => panic!("{record}: {other:?}"),
    }
}

/// One trace of a record, by its place.
pub(crate) fn open_trace(record: &str, place: usize) -> Recording {
    open_traces(record).swap_remove(place)
}

/// One trace of a record, by its name.
pub(crate) fn open_record(record: &str, lead: &str) -> Recording {
    let found = open_traces(record).into_iter().find(|trace| trace.name == lead);
    found.unwrap_or_else(|| panic!("{record} has no lead {lead}"))
}

/// The names of the QT Database windows, in order.
pub(crate) fn qtdb_windows() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(data("qtdb-windows"))
        .unwrap()
        .filter_map(|entry| entry.unwrap().file_name().into_string().ok())
        .filter_map(|name| name.strip_suffix(".hea").map(str::to_owned))
        .collect();
    names.sort_unstable();
    names
}

/// Compares a table with the committed one in `tests/data/accuracy`.
pub(crate) fn assert_table(name: &str, table: &str) {
    assert_kept(&format!("data/accuracy/{name}"), table);
}
