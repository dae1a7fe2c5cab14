//! Joins a record that is made of several: each part is a record of its own, one after the other.
//!
//! Source: header(5) in the WFDB Applications Guide (Moody, PhysioNet), "Multi-segment records". In a
//! fixed layout every part has the same signals in the same order. Where the first part has a length
//! of 0 the layout varies: that part only describes the signals, the others hold some of them, told
//! by their names.
//!
//! Where nothing was recorded, where the files of a part were not dropped or can't be read, and where a
//! part lacks a signal, there is a hole.

use super::fault::WfdbError;
use super::header::{self, Header, SegmentLine};
use super::record::{self, Signal};
use super::repair::WfdbNote;
use super::stretch::{self, Part};
use super::trace::{Trace, note};
use crate::formats::{Note, SourceFile};
use crate::signal::Progress;
use crate::words::{Phrase, phrase};

/// How many samples are taken for each byte that was dropped: parts may be listed more than once.
const REPEATED: usize = 4;

/// Reads all parts whose files were dropped.
///
/// # Errors
/// When there is none, or a signal's rate is impossible.
pub(super) fn read(
    header_file: &str,
    header: &Header,
    files: &[SourceFile],
    notes: &mut Vec<Note>,
    progress: &mut dyn Progress,
) -> Result<Vec<Trace>, WfdbError> {
    let frame_hz = record::frame_hz(header, notes);
    let (mut parts, mut missing, mut reasons) = (Vec::new(), Vec::new(), Vec::new());
    let mut start = 0u64;
    // No format holds more than one sample in a byte, but a header may list a part again and again.
    let mut left =
        files.iter().map(|file| file.bytes.len()).sum::<usize>().saturating_mul(REPEATED);
    for (done, line) in header.segments.iter().enumerate() {
        progress.at(done as f64 / header.segments.len() as f64);
        if !line.is_null() && line.frames > 0 {
            let read = match left {
                0 => Err(Fault::Unreadable(phrase!("faults.wfdb.listed_too_often"))),
                _ => part(line, frame_hz, files, notes),
            };
            match read {
                Ok(signals) => {
                    let samples = signals.iter().map(|signal| signal.samples.len()).sum();
                    left = left.saturating_sub(samples);
                    parts.push(Part::new(start, line.frames, signals));
                }
                Err(Fault::Missing(mut names)) => missing.append(&mut names),
                Err(Fault::Unreadable(why)) => reasons.push(
                    phrase!("repairs.archive.within")
                        .with("member", &line.record)
                        .with("note", why),
                ),
            }
        }
        start = start.saturating_add(line.frames);
    }
    if parts.is_empty() {
        let header = header_file.to_owned();
        return Err(match (missing.is_empty(), reasons.is_empty()) {
            (true, true) => WfdbError::OnlyDescribed { header },
            (false, true) => WfdbError::SignalFileMissing { header, missing },
            _ => WfdbError::NoSegments { header, reasons },
        });
    }
    if !missing.is_empty() {
        notes.push(note(WfdbNote::SegmentsMissing { files: missing }, None));
    }
    if !reasons.is_empty() {
        notes.push(note(WfdbNote::SegmentsLeftOut { reasons }, None));
    }
    let order = order(header, files, &parts);
    let stretches = stretch::stretches(parts, start);
    if stretches.len() > 1 {
        notes.push(note(WfdbNote::Stretches { stretches: stretches.len() }, None));
    }
    let mut traces = Vec::new();
    for stretch in stretches {
        traces.extend(stretch.traces(order.as_deref(), notes));
    }
    Ok(traces)
}

/// Why a part has no signals.
enum Fault {
    /// These files were not dropped.
    Missing(Vec<String>),
    Unreadable(Phrase),
}

/// The signals of one part. What is said about its lines goes to `notes` once, without a place:
/// the lines are those of another file.
fn part(
    line: &SegmentLine,
    frame_hz: f64,
    files: &[SourceFile],
    notes: &mut Vec<Note>,
) -> Result<Vec<Signal>, Fault> {
    let file = line.header_file();
    let Some(source) = record::find(files, &file) else {
        return Err(Fault::Missing(vec![file]));
    };
    let unreadable = |error: WfdbError| Fault::Unreadable(error.said());
    let mut header = header::parse(&source.bytes).map_err(|(place, fault)| {
        unreadable(WfdbError::Header { header: file.clone(), place, fault })
    })?;
    if header.rate_hz.is_some_and(|hz| (hz - frame_hz).abs() > 1e-6 * frame_hz) {
        let reason = phrase!("faults.wfdb.other_rate");
        return Err(Fault::Unreadable(reason));
    }
    header.rate_hz = Some(frame_hz);
    header.frames = header.frames.or(Some(line.frames));
    let mut own = Vec::new();
    let signals = record::signals(&file, &header, files, &mut own, &mut ());
    for Note { kind, .. } in own {
        let note = Note { kind, place: None };
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    signals.map_err(|error| match error {
        WfdbError::SignalFileMissing { missing, .. } => Fault::Missing(missing),
        other => unreadable(other),
    })
}

/// What the signals are called, in the order in which the traces come; `None` where the layout is fixed
/// and their places tell them.
fn order(header: &Header, files: &[SourceFile], parts: &[Part]) -> Option<Vec<String>> {
    let layout = header.segments.first().filter(|line| line.frames == 0)?;
    let described = record::find(files, &layout.header_file())
        .and_then(|source| header::parse(&source.bytes).ok())
        .map_or_else(Vec::new, |layout| layout.signals);
    let mut names: Vec<String> = described.into_iter().map(|line| line.name).collect();
    for signal in parts.iter().flat_map(|part| &part.signals) {
        if !names.contains(&signal.name) {
            names.push(signal.name.clone());
        }
    }
    Some(names)
}
