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
mod repair;
mod samples;
mod segments;
mod signal_line;
mod stretch;
mod trace;

pub use fault::{WfdbError, WfdbFault};
pub use repair::WfdbNote;

use super::{Format, OpenError, Opened, SourceFile, lead};
use crate::signal::Progress;
use header::{Header, NULL};

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

/// Opens a record. Of several, one made of others that are there; else the first whose signals are.
pub(super) fn open(files: &[SourceFile], progress: &mut dyn Progress) -> Result<Opened, OpenError> {
    let headers = files.iter().filter(|file| is_header(file));
    let parsed: Vec<_> = headers.map(|file| (file, header::parse(&file.bytes))).collect();
    let is_there = |name: &str| files.iter().any(|file| record::is_named(file, name));
    let has = |names: fn(&Header) -> Vec<String>| {
        parsed.iter().find(|(_, header)| {
            header.as_ref().is_ok_and(|header| names(header).iter().any(|name| is_there(name)))
        })
    };
    let chosen = has(segment_headers).or_else(|| has(signal_files_in)).or_else(|| parsed.first());
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
    let read = if header.segments.is_empty() { record::read } else { segments::read };
    let mut traces = read(&source.name, header, files, &mut notes, progress)?;

    let is_segment = |file: &SourceFile| {
        header.segments.iter().any(|line| record::is_named(file, &line.header_file()))
    };
    let is_used = |file: &SourceFile| file.name == source.name || is_segment(file);
    let (used, others): (Vec<_>, Vec<_>) = parsed.iter().partition(|(file, _)| is_used(file));
    let is_signal = |file: &SourceFile| {
        let used = used.iter().filter_map(|(_, header)| header.as_ref().ok());
        used.flat_map(signal_files_in).any(|name| record::is_named(file, &name))
    };
    let is_others = |file: &SourceFile| {
        let also = used.iter().filter(|(segment, _)| segment.name != source.name);
        others.iter().chain(also).any(|(other, _)| stem(&other.name) == stem(&file.name))
    };
    for file in files {
        if !is_header(file) && !is_signal(file) && !is_others(file) {
            marks::add(file, &mut traces, &mut notes);
        }
    }
    if !others.is_empty() {
        let others = others.iter().map(|(other, _)| other.name.clone()).collect();
        let opened = source.name.clone();
        notes.push(trace::note(WfdbNote::OtherRecords { opened, others }, None));
    }
    let traces: Vec<_> = traces.into_iter().map(|trace| trace.recording).collect();
    let suggested = lead::suggested(&traces);
    let file = source.name.clone();
    Ok(Opened { file, format: Format::Wfdb, traces, suggested, notes, layout: None })
}

/// The files that a header names, each once: those of its signals, or the headers of its parts. None
/// when the header can't be read.
pub fn named_files(header: &SourceFile) -> Vec<String> {
    header::parse(&header.bytes).map_or_else(
        |_| Vec::new(),
        |header| [segment_headers(&header), signal_files_in(&header)].concat(),
    )
}

fn signal_files_in(header: &Header) -> Vec<String> {
    let files = header.signals.iter().map(|line| &line.file).filter(|file| *file != NULL);
    let mut names: Vec<String> = files.cloned().collect();
    names.dedup();
    names
}

fn segment_headers(header: &Header) -> Vec<String> {
    let parts = header.segments.iter().filter(|line| !line.is_null());
    let mut names: Vec<String> = parts.map(header::SegmentLine::header_file).collect();
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
