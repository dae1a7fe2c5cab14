//! Packed files: a gzip of any file that can be read, a zip with one or several of them.
//!
//! Sources: RFC 1951 and 1952 (deflate, gzip); PKWARE's APPNOTE 6.3 (zip). Packed files are known by
//! their first bytes alone: a page may unpack a `.gz` on its way and leave the name as it was. The
//! samples of a record may begin with any bytes, so a file that is called so is never taken for one.
//!
//! Unpacking is guarded: nothing is set aside on the word of a header; all files together unpack to
//! [`LARGEST_FILE`](super::LARGEST_FILE) at most, and each archive to [`MOST_RATIO`] times its size. An
//! archive in an archive is refused.

mod budget;
mod fault;
mod gzip;
mod members;
mod records;
mod zip;

pub use fault::{ArchiveError, ArchiveNote};

use super::{Choices, NoteKind, OpenError, Opening, SourceFile, wfdb};
use crate::signal::Progress;
use budget::Budget;

/// The most times that a recording unpacks to its packed size. A table of times and voltages comes to
/// 3 to 6 (measured on the files of the tests), a column that says 0.000 in every row to 650; deflate
/// can do about 1030.
const MOST_RATIO: usize = 250;

/// The most files taken from an archive: some classes' worth. A choice, without a source.
const MOST_MEMBERS: usize = 200;

/// How a file is packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Packing {
    Gzip,
    Zip,
}

/// A file out of an archive.
#[derive(Clone, Debug)]
struct Member {
    /// The folders before its name, with the slash; may be empty.
    folder: String,
    /// The file, its name without folders.
    file: SourceFile,
}

impl Member {
    /// Its name with its folders.
    fn path(&self) -> String {
        format!("{}{}", self.folder, self.file.name)
    }
}

/// Whether one of these files is packed.
pub(super) fn is_packed(files: &[SourceFile]) -> bool {
    files.iter().any(|file| packing(file).is_some())
}

fn packing(file: &SourceFile) -> Option<Packing> {
    let starts = |start: &[u8]| file.bytes.starts_with(start);
    match () {
        () if wfdb::is_called_part(&file.name) => None,
        () if starts(b"\x1F\x8B\x08") => Some(Packing::Gzip),
        () if starts(b"PK\x03\x04") || starts(b"PK\x05\x06") => Some(Packing::Zip),
        () => None,
    }
}

/// Unpacks what is packed, and opens all of it as if dropped together.
pub(super) fn open(
    files: &[SourceFile],
    choices: &Choices,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    let mut budget = Budget::default();
    let mut notes = Vec::new();
    let mut members = Vec::new();
    let mut archive = String::new();
    for file in files {
        let before = members.len();
        budget.begin(file.bytes.len());
        match packing(file) {
            Some(Packing::Gzip) => members.push(gzip::unpack(file, &mut budget, &mut notes)?),
            Some(Packing::Zip) => zip::unpack(file, &mut budget, &mut members, &mut notes)?,
            None => {
                members.push(Member { folder: String::new(), file: file.clone() });
                continue;
            }
        }
        let unpacked = members.get(before..).unwrap_or_default();
        if let Some(nested) = unpacked.iter().find(|member| packing(&member.file).is_some()) {
            let member = nested.file.name.clone();
            return Err(ArchiveError::Nested { member, file: file.name.clone() }.into());
        }
        let names: Vec<String> = unpacked.iter().map(|member| member.file.name.clone()).collect();
        if !names.is_empty() {
            notes.push(ArchiveNote::Unpacked { file: file.name.clone(), members: names });
        }
        if archive.is_empty() {
            archive.clone_from(&file.name);
        }
    }
    let notes = notes.into_iter().map(NoteKind::from).collect();
    members::open(&archive, members, choices, notes, progress)
}
