//! EDF, EDF+ and BDF: many signals in one file, cut into records of a fixed duration.
//!
//! Sources: Kemp B et al. A simple format for exchange of digitized polygraphic recordings.
//! Electroencephalogr Clin Neurophysiol 82:391-393 (1992); Kemp B, Olivan J. European data format
//! 'plus' (EDF+). Clin Neurophysiol 114:1755-1761 (2003). BDF is EDF with 24 bits a sample.
//!
//! The crates for it, such as `edf-rs` 0.2, open paths on a disk, take a file's promises at their
//! word and stop at the first fault; a page has only bytes, and files that were cut off or never
//! closed are the ones that matter in a lesson. So the format is read here.

mod annotations;
mod fault;
mod header;
mod records;
mod repair;
mod runs;
mod signals;

pub use fault::{EdfError, EdfFault, EdfField, SignalFault};
pub use repair::EdfNote;

use super::open::first_of;
use super::{Format, Note, OpenError, Opened, SourceFile, lead};
use crate::signal::Progress;
use header::{Header, Width};

/// Whether one of these files is EDF or BDF, or is called so.
pub(super) fn is_edf(files: &[SourceFile]) -> bool {
    files.iter().any(is_one)
}

fn is_one(file: &SourceFile) -> bool {
    let name = file.name.to_ascii_lowercase();
    let is_called_so = name.ends_with(".edf") || name.ends_with(".bdf");
    is_called_so || header::begins(&file.bytes)
}

/// Opens the first EDF or BDF file.
pub(super) fn open(files: &[SourceFile], progress: &mut dyn Progress) -> Result<Opened, OpenError> {
    let (source, others) = first_of(files, is_one)?;
    let file = source.name.clone();
    let header = Header::parse(&source.bytes)
        .map_err(|fault| EdfError::Header { file: file.clone(), fault })?;
    let mut notes = Vec::new();
    let traces = signals::read(&file, &header, &source.bytes, &mut notes, progress)?;
    if !others.is_empty() {
        notes.push(EdfNote::OtherFiles { opened: file.clone(), others });
    }
    let format = match header.width {
        Width::Two => Format::Edf,
        Width::Three => Format::Bdf,
    };
    let notes = notes.into_iter().map(|note| Note { kind: note.into(), place: None }).collect();
    let suggested = lead::suggested(&traces);
    Ok(Opened { file, format, traces, suggested, notes, layout: None })
}
