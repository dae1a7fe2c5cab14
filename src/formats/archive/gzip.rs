//! A file packed with gzip. Its name is the archive's without `.gz`, as the tool itself has it.
//!
//! Several streams behind each other are one file. What was cut off is kept up to there; what fails
//! its checksum is not. What stands behind the last stream is no part of the file; zeros that fill up a
//! block are not worth a word.

use super::{ArchiveError, ArchiveNote, Budget, Member};
use crate::formats::SourceFile;
use flate2::bufread::GzDecoder;
use std::io::ErrorKind;

pub(super) fn unpack(
    source: &SourceFile,
    budget: &mut Budget,
    notes: &mut Vec<ArchiveNote>,
) -> Result<Member, ArchiveError> {
    let file = || source.name.clone();
    let mut rest = source.bytes.as_slice();
    let mut bytes = Vec::new();
    loop {
        let mut stream = GzDecoder::new(rest);
        let mut unpacked = budget.read(&mut stream, &source.name)?;
        bytes.append(&mut unpacked.bytes);
        match unpacked.fault {
            None => {}
            Some(ErrorKind::UnexpectedEof) if !bytes.is_empty() => {
                notes.push(ArchiveNote::CutOff { file: file() });
                break;
            }
            Some(_) => return Err(ArchiveError::Damaged { file: file() }),
        }
        rest = stream.into_inner();
        if !rest.starts_with(b"\x1F\x8B\x08") {
            if rest.iter().any(|&byte| byte != 0) {
                notes.push(ArchiveNote::Behind { file: file(), bytes: rest.len() });
            }
            break;
        }
    }
    let name = match source.name.rsplit_once('.') {
        Some((stem, ending)) if ending.eq_ignore_ascii_case("gz") => stem.to_owned(),
        _ => file(),
    };
    Ok(Member { folder: String::new(), file: SourceFile { name, bytes } })
}
