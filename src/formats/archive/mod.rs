//! Packed files: a gzip of any file that can be read, a zip with one or several of them.
//!
//! Sources: RFC 1951 and 1952 (deflate, gzip); PKWARE's APPNOTE 6.3 (zip). Packed files are known by
//! their first bytes alone: a page may unpack a `.gz` on its way and leave the name as it was. The
//! samples of a record may begin with any bytes, so a file that is called so is never taken for one.
//!
//! Unpacking is guarded: nothing is set aside on the word of a header; all files together unpack to
//! [`LARGEST_FILE`](super::LARGEST_FILE) at most, and each dropped archive to [`MOST_RATIO`] times its
//! size, with all that it holds. An archive in an archive is unpacked (collected work comes as a zip of
//! zips, tables as `.csv.gz` in one); one more inside that is refused.

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

/// Whether one of these files is packed; their first bytes tell.
pub fn is_packed(files: &[SourceFile]) -> bool {
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

/// The bytes of the only file in an archive; `None` when there are several, or it can't be unpacked.
pub fn only_member(file: &SourceFile) -> Option<SourceFile> {
    packing(file)?;
    let mut members = Unpacking::default().unpack(file).ok()?;
    let only = members.pop().filter(|_| members.is_empty())?;
    Some(only.file)
}

/// The files in an archive, each named with its folders; a file that is not packed stands for itself.
///
/// # Errors
/// [`OpenError`] when the archive is damaged or swells beyond what it warrants.
pub fn unpacked(file: SourceFile) -> Result<Vec<SourceFile>, OpenError> {
    if packing(&file).is_none() {
        return Ok(vec![file]);
    }
    let members = Unpacking::default().unpack(&file)?;
    let named = |member: Member| SourceFile { name: member.path(), ..member.file };
    Ok(members.into_iter().map(named).collect())
}

/// Unpacks what is packed, and opens all of it as if dropped together.
pub(super) fn open(
    files: &[SourceFile],
    choices: &Choices,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    let mut unpacking = Unpacking::default();
    let mut members = Vec::new();
    for file in files {
        match packing(file) {
            Some(_) => members.append(&mut unpacking.unpack(file)?),
            None => members.push(Member { folder: String::new(), file: file.clone() }),
        }
    }
    let archive = files.iter().find(|file| packing(file).is_some());
    let archive = archive.map_or_else(String::new, |file| file.name.clone());
    let notes = unpacking.notes.into_iter().map(NoteKind::from).collect();
    members::open(&archive, members, choices, notes, progress)
}

/// What unpacking may still take, and what it has to say.
#[derive(Default)]
struct Unpacking {
    budget: Budget,
    notes: Vec<ArchiveNote>,
}

impl Unpacking {
    /// The files of an archive that was dropped, and of those in it.
    fn unpack(&mut self, file: &SourceFile) -> Result<Vec<Member>, OpenError> {
        self.budget.begin(file.bytes.len());
        let mut members = Vec::new();
        for member in self.layer(file)? {
            if packing(&member.file).is_none() {
                members.push(member);
                continue;
            }
            let archive = &member.file;
            let inside = match self.layer(archive) {
                Ok(inside) => inside,
                Err(OpenError::Archive(
                    error @ (ArchiveError::Swells { .. } | ArchiveError::TooLarge { .. }),
                )) => return Err(error.into()),
                Err(error) => {
                    let (member, reason) = (member.path(), error.said());
                    self.notes.push(ArchiveNote::LeftOut { member, reason });
                    continue;
                }
            };
            for mut inner in inside {
                if packing(&inner.file).is_some() {
                    let (member, file) = (inner.file.name, archive.name.clone());
                    return Err(ArchiveError::Nested { member, file }.into());
                }
                // A gzip stands for its one file, a zip is a folder of files.
                inner.folder = match packing(archive) {
                    Some(Packing::Zip) => format!("{}/{}", member.path(), inner.folder),
                    _ => member.folder.clone(),
                };
                members.push(inner);
            }
        }
        let rest = members.len().saturating_sub(MOST_MEMBERS);
        if rest > 0 {
            members.truncate(MOST_MEMBERS);
            self.notes.push(ArchiveNote::TooMany { taken: MOST_MEMBERS, rest });
        }
        Ok(members)
    }

    /// The files of one archive.
    fn layer(&mut self, file: &SourceFile) -> Result<Vec<Member>, OpenError> {
        let Self { budget, notes } = self;
        let mut members = Vec::new();
        match packing(file) {
            Some(Packing::Gzip) => members.push(gzip::unpack(file, budget, notes)?),
            Some(Packing::Zip) => zip::unpack(file, budget, &mut members, notes)?,
            None => {}
        }
        let names: Vec<String> = members.iter().map(|member| member.file.name.clone()).collect();
        if !names.is_empty() {
            notes.push(ArchiveNote::Unpacked { file: file.name.clone(), members: names });
        }
        Ok(members)
    }
}
