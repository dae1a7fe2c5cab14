//! A file packed with gzip. Its name is the archive's without `.gz`, as the tool itself has it.
//!
//! Several streams behind each other are one file. What was cut off is kept up to there; what fails
//! its checksum is not.

use super::{ArchiveError, ArchiveNote, Budget, Member};
use crate::formats::SourceFile;
use flate2::bufread::MultiGzDecoder;
use std::io::ErrorKind;

pub(super) fn unpack(
    source: &SourceFile,
    budget: &mut Budget,
    notes: &mut Vec<ArchiveNote>,
) -> Result<Member, ArchiveError> {
    let stream = MultiGzDecoder::new(source.bytes.as_slice());
    let unpacked = budget.read(stream, &source.name)?;
    let file = || source.name.clone();
    match unpacked.fault {
        None => {}
        Some(ErrorKind::UnexpectedEof) if !unpacked.bytes.is_empty() => {
            notes.push(ArchiveNote::CutOff { file: file() });
        }
        Some(_) => return Err(ArchiveError::Damaged { file: file() }),
    }
    let name = match source.name.rsplit_once('.') {
        Some((stem, ending)) if ending.eq_ignore_ascii_case("gz") => stem.to_owned(),
        _ => file(),
    };
    Ok(Member { folder: String::new(), file: SourceFile { name, bytes: unpacked.bytes } })
}
