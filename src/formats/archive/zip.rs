//! The members of a zip archive.
//!
//! Source: PKWARE, .ZIP File Format Specification (APPNOTE) 6.3, sections 4.3 and 4.4. The list at
//! the end of the archive counts; a local header only says how long it is itself. Members are stored
//! or deflated; other methods are left out, as are folders and what systems hide in archives. Numbers
//! of eight bytes (zip64) are read, since some writers always use them; parts on several disks are not.
//!
//! The crate for it, `zip` 9, adds 42 kB to a gzipped download that may have 600, and ties a random
//! generator to the page; the list is all that is needed of it.

use super::budget::Unpacked;
use super::{ArchiveError, ArchiveNote, Budget, MOST_MEMBERS, Member};
use crate::formats::{OpenError, SourceFile};
use crate::words::{Phrase, phrase};
use flate2::Crc;
use flate2::bufread::DeflateDecoder;

/// A line of the list.
#[derive(Debug, PartialEq)]
struct Entry {
    /// Its name with folders.
    path: String,
    is_locked: bool,
    method: u16,
    checksum: u32,
    /// How many bytes it has in the archive.
    packed: usize,
    /// Where its local header begins.
    at: usize,
}

/// Unpacks every member that is a file somebody put there.
pub(super) fn unpack(
    source: &SourceFile,
    budget: &mut Budget,
    members: &mut Vec<Member>,
    notes: &mut Vec<ArchiveNote>,
) -> Result<(), OpenError> {
    let file = || source.name.clone();
    let entries = entries(&source.bytes).ok_or_else(|| ArchiveError::Damaged { file: file() })?;
    let is_document =
        |entry: &Entry| matches!(entry.path.as_str(), "[Content_Types].xml" | "mimetype");
    if entries.iter().any(is_document) {
        let kind = phrase!("faults.kind.office_packed");
        return Err(OpenError::NotARecording { kind, file: file() });
    }
    let mut entries = entries.into_iter().filter(|entry| !is_hidden(&entry.path));
    let mut locked = None;
    for entry in entries.by_ref().take(MOST_MEMBERS) {
        let (folder, name) = match entry.path.rfind('/') {
            Some(slash) => entry.path.split_at(slash + 1),
            None => ("", entry.path.as_str()),
        };
        if entry.is_locked {
            let (member, reason) = (name.to_owned(), phrase!("faults.archive.locked_member"));
            locked = locked.or(Some(member.clone()));
            notes.push(ArchiveNote::LeftOut { member, reason });
            continue;
        }
        match content(&source.bytes, &entry, &source.name, budget)? {
            Ok(bytes) => {
                let file = SourceFile { name: name.to_owned(), bytes };
                members.push(Member { folder: folder.to_owned(), file });
            }
            Err(reason) => notes.push(ArchiveNote::LeftOut { member: name.to_owned(), reason }),
        }
    }
    if let Some(member) = locked.filter(|_| members.is_empty()) {
        return Err(ArchiveError::Locked { member, file: file() }.into());
    }
    match entries.count() {
        0 => {}
        rest => notes.push(ArchiveNote::TooMany { taken: MOST_MEMBERS, rest }),
    }
    Ok(())
}

/// Folders, and what systems put beside the files.
fn is_hidden(path: &str) -> bool {
    let is_hidden = |part: &str| part == "__MACOSX" || (part.starts_with('.') && part != ".");
    path.is_empty() || path.ends_with('/') || path.split('/').any(is_hidden)
}

/// The bytes of a member, or why there are none.
fn content(
    archive: &[u8],
    entry: &Entry,
    file: &str,
    budget: &mut Budget,
) -> Result<Result<Vec<u8>, Phrase>, ArchiveError> {
    let damaged = || Ok(Err(phrase!("faults.archive.damaged_member")));
    let Some(packed) = packed(archive, entry) else { return damaged() };
    let Unpacked { bytes, fault } = match entry.method {
        0 => budget.read(packed, file)?,
        8 => budget.read(DeflateDecoder::new(packed), file)?,
        method => {
            return Ok(Err(phrase!("faults.archive.other_method", method)));
        }
    };
    let mut checksum = Crc::new();
    checksum.update(&bytes);
    if fault.is_some() || checksum.sum() != entry.checksum {
        return damaged();
    }
    Ok(Ok(bytes))
}

/// The packed bytes of a member, behind its local header.
fn packed<'a>(archive: &'a [u8], entry: &Entry) -> Option<&'a [u8]> {
    let local = archive.get(entry.at..)?;
    let names = half(local, 26)?.checked_add(half(local, 28)?)?;
    let begin = 30usize.checked_add(names)?;
    local.starts_with(b"PK\x03\x04").then_some(())?;
    local.get(begin..begin.checked_add(entry.packed)?)
}

/// The list at the end of the archive; `None` when it is not there or cut short.
fn entries(archive: &[u8]) -> Option<Vec<Entry>> {
    let tail_at = archive.len().saturating_sub(22 + 0xFFFF);
    let tail = archive.get(tail_at..)?;
    let end = tail.windows(22).rposition(|window| window.starts_with(b"PK\x05\x06"))?;
    let (count, at) = match long_end(archive, tail_at + end) {
        Some(found) => found,
        None => (half(tail, end + 10)?, word(tail, end + 16)?),
    };
    let mut rest = archive.get(at..)?;
    let mut entries = Vec::new();
    for _ in 0..count {
        rest.starts_with(b"PK\x01\x02").then_some(())?;
        let length = |at| half(rest, at);
        let name_end = 46 + length(28)?;
        let extra_end = name_end + length(30)?;
        let path = String::from_utf8_lossy(rest.get(46..name_end)?).replace('\\', "/");
        let mut entry = Entry {
            path,
            is_locked: length(8)? & 1 == 1,
            method: u16::try_from(length(10)?).ok()?,
            checksum: u32::try_from(word(rest, 16)?).ok()?,
            packed: word(rest, 20)?,
            at: word(rest, 42)?,
        };
        let is_long = [word(rest, 24)?, entry.packed, entry.at].map(|field| field == LONG);
        if is_long.contains(&true) {
            entry.lengthen(is_long, rest.get(name_end..extra_end)?)?;
        }
        entries.push(entry);
        rest = rest.get(extra_end + length(32)?..)?;
    }
    Some(entries)
}

/// What a field of four bytes holds when the number stands elsewhere, in eight.
const LONG: usize = 0xFFFF_FFFF;

/// How many entries the list has and where it begins, by the longer end that may stand before the
/// one at `end` (zip64).
fn long_end(archive: &[u8], end: usize) -> Option<(usize, usize)> {
    let pointer = archive.get(end.checked_sub(20)?..end)?;
    pointer.starts_with(b"PK\x06\x07").then_some(())?;
    let long = archive.get(double(pointer, 8)?..)?;
    long.starts_with(b"PK\x06\x06").then_some(())?;
    Some((double(long, 32)?, double(long, 48)?))
}

impl Entry {
    /// Takes the numbers that need eight bytes from the extra fields: the length unpacked, that packed
    /// and the place, those that `is_long` says.
    fn lengthen(&mut self, is_long: [bool; 3], mut extra: &[u8]) -> Option<()> {
        while half(extra, 0)? != 1 {
            extra = extra.get(4 + half(extra, 2)?..)?;
        }
        let [unpacked, packed, at] = is_long;
        let mut place = 4;
        if unpacked {
            place += 8;
        }
        if packed {
            self.packed = double(extra, place)?;
            place += 8;
        }
        if at {
            self.at = double(extra, place)?;
        }
        Some(())
    }
}

fn half(bytes: &[u8], at: usize) -> Option<usize> {
    let two: [u8; 2] = bytes.get(at..at + 2)?.try_into().ok()?;
    Some(usize::from(u16::from_le_bytes(two)))
}

fn word(bytes: &[u8], at: usize) -> Option<usize> {
    let four: [u8; 4] = bytes.get(at..at + 4)?.try_into().ok()?;
    usize::try_from(u32::from_le_bytes(four)).ok()
}

fn double(bytes: &[u8], at: usize) -> Option<usize> {
    let eight: [u8; 8] = bytes.get(at..at.checked_add(8)?)?.try_into().ok()?;
    usize::try_from(u64::from_le_bytes(eight)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_systems_put_there_is_hidden() {
        for path in ["a/", "__MACOSX/._a.csv", ".DS_Store", "a/.git/b.csv", ""] {
            assert!(is_hidden(path), "{path}");
        }
        for path in ["class 10K/rest.csv", "a.csv", "./a.csv", "/a.csv"] {
            assert!(!is_hidden(path), "{path}");
        }
    }

    #[test]
    fn an_archive_without_its_list_has_no_members() {
        assert_eq!(entries(b"PK\x03\x04"), None);
        let empty = [b"PK\x05\x06".as_slice(), &[0; 18]].concat();
        assert_eq!(entries(&empty), Some(Vec::new()));
        let mut promising = empty;
        promising[10] = 1;
        assert_eq!(entries(&promising), None);
    }
}
