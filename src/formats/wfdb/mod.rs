//! WFDB records: a `.hea` header, the signal files it names, annotation files beside them.
//!
//! The form of the open PhysioNet collections. There is a crate for it, `wfdb` 0.1; it opens paths
//! on a disk and says that it is not ready for WebAssembly, and a page has only bytes. It reads no
//! annotations either. So the format is read here, from its published description.

mod annotations;
mod codes;
mod encoding;
mod fault;
mod header;
mod marks;
mod record;
mod samples;
mod signal_line;

pub use fault::{WfdbError, WfdbFault, WfdbNote};

use super::{Format, OpenError, Opened, SourceFile, lead};
use crate::signal::Progress;

/// Endings that only make sense beside a header. `.dat` is one of them unless it holds text.
const PARTNERS: [&str; 8] = ["dat", "xyz", "atr", "qrs", "q1c", "q2c", "man", "ecg"];

/// Whether these files are a record or parts of one.
pub(super) fn is_wfdb(files: &[SourceFile]) -> bool {
    let is_part = |file: &SourceFile| {
        is_called_part(&file.name) && !file.bytes.is_empty() && !looks_like_text(&file.bytes)
    };
    files.iter().any(is_header) || (!files.is_empty() && files.iter().all(is_part))
}

/// Whether a file is called as what belongs to a header.
pub(super) fn is_called_part(name: &str) -> bool {
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    PARTNERS.iter().any(|partner| ending.eq_ignore_ascii_case(partner))
}

/// Opens a record. Of several, the first whose signals are there.
pub(super) fn open(files: &[SourceFile], progress: &mut dyn Progress) -> Result<Opened, OpenError> {
    let parsed = files
        .iter()
        .filter(|file| is_header(file))
        .map(|file| (file, header::parse(&String::from_utf8_lossy(&file.bytes))));
    let parsed: Vec<_> = parsed.collect();
    let has_signals = |header: &header::Header| {
        header
            .signals
            .iter()
            .any(|line| files.iter().any(|file| record::is_named(file, &line.file)))
    };
    let chosen = parsed
        .iter()
        .find(|(_, header)| header.as_ref().is_ok_and(has_signals))
        .or_else(|| parsed.first());
    let Some((source, header)) = chosen else {
        let file = files.first().map(|file| file.name.clone()).unwrap_or_default();
        return Err(
            WfdbError::HeaderMissing { header: format!("{}.hea", stem(&file)), file }.into()
        );
    };
    let header = header.as_ref().map_err(|(place, fault)| WfdbError::Header {
        header: source.name.clone(),
        place: *place,
        fault: fault.clone(),
    })?;

    let mut notes = Vec::new();
    let mut traces = record::read(&source.name, header, files, &mut notes, progress)?;
    let others: Vec<&SourceFile> =
        files.iter().filter(|file| is_header(file) && file.name != source.name).collect();
    for file in files {
        let is_signal = header.signals.iter().any(|line| record::is_named(file, &line.file));
        let is_others = others.iter().any(|other| stem(&other.name) == stem(&file.name));
        if !is_header(file) && !is_signal && !is_others {
            marks::add(file, &mut traces, &mut notes);
        }
    }
    if !others.is_empty() {
        let others = others.iter().map(|other| other.name.clone()).collect();
        notes.push(record::note(
            WfdbNote::OtherRecords { opened: source.name.clone(), others },
            None,
        ));
    }
    let traces: Vec<_> = traces.into_iter().map(|trace| trace.recording).collect();
    let suggested = lead::suggested(&traces);
    let file = source.name.clone();
    Ok(Opened { file, format: Format::Wfdb, traces, suggested, notes, layout: None })
}

/// The signal files that a header names, each once; none when the header can't be read.
pub fn signal_files(header: &SourceFile) -> Vec<String> {
    let Ok(header) = header::parse(&String::from_utf8_lossy(&header.bytes)) else {
        return Vec::new();
    };
    let mut names: Vec<String> = header.signals.into_iter().map(|line| line.file).collect();
    names.dedup();
    names
}

/// Whether a file is called as a header.
pub(super) fn is_header(file: &SourceFile) -> bool {
    file.name.to_ascii_lowercase().ends_with(".hea")
}

/// The name without its ending.
fn stem(name: &str) -> &str {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// Whether the first bytes hold nothing that text does not. Text in two bytes begins with its mark.
fn looks_like_text(bytes: &[u8]) -> bool {
    let marked = bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]);
    let start = bytes.iter().take(4096);
    marked
        || start
            .filter(|&&byte| byte < 0x20 && !matches!(byte, b'\t' | b'\n' | b'\r' | 0x0C))
            .count()
            == 0
}
