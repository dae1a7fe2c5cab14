//! The annotation files beside a record, turned into marks on its traces.
//!
//! A mark goes to every trace, unless the ending of its file is the name of a signal (`.i`, `.v1`),
//! as some collections have it: then only to that one. A heartbeat's mark holds its class and the
//! text that came with it. Any other mark holds its letter, and after a space the text:
//! `(` for where a wave begins, `+ (AFIB` for a change of rhythm.

use super::annotations::{self, Annotation, Annotations};
use super::codes;
use super::looks_like_text;
use super::repair::WfdbNote;
use super::trace::{Trace, note};
use crate::formats::{Note, SourceFile};
use crate::signal::{BeatCode, Mark, MarkKind, SampleIndex, Seconds, put_in_order};

/// Puts what stands in an annotation file on the traces it belongs to.
pub(super) fn add(source: &SourceFile, traces: &mut [Trace], notes: &mut Vec<Note>) {
    let file = || source.name.clone();
    let most = traces.iter().map(|trace| trace.recording.samples.len()).max().unwrap_or(0);
    let found = annotations::read(&source.bytes, most).filter(|_| !looks_like_text(&source.bytes));
    let Some(found) = found else {
        notes.push(note(WfdbNote::MarksUnread { file: file() }, None));
        return;
    };
    let beyond = found
        .list
        .iter()
        .filter(|annotation| traces.iter().all(|trace| place(annotation, &found, trace).is_none()))
        .count();
    match (found.is_whole, beyond) {
        (true, 0) => {}
        (true, _) => notes.push(note(WfdbNote::MarksBeyond { file: file(), beyond }, None)),
        (false, 0) => notes.push(note(WfdbNote::MarksCut { file: file() }, None)),
        // Neither an end nor times that fit: bytes of some other kind.
        (false, _) => {
            notes.push(note(WfdbNote::MarksUnread { file: file() }, None));
            return;
        }
    }
    let ending = source.name.rsplit_once('.').map_or("", |(_, ending)| ending);
    let is_its_own = |trace: &Trace| trace.recording.name.eq_ignore_ascii_case(ending);
    let has_own = traces.iter().any(is_its_own);
    for trace in traces {
        if !has_own || is_its_own(trace) {
            let marks = found
                .list
                .iter()
                .filter_map(|annotation| Some(mark(annotation, place(annotation, &found, trace)?)));
            let marks: Vec<Mark> = marks.collect();
            trace.recording.marks.extend(marks);
            put_in_order(&mut trace.recording.marks, |mark| mark.at.get());
        }
    }
}

/// The sample of a trace that an annotation belongs to; `None` before its start and after its end.
fn place(annotation: &Annotation, file: &Annotations, trace: &Trace) -> Option<SampleIndex> {
    let rate = trace.recording.rate;
    let at = match file.resolution_hz {
        Some(hz) => {
            let start = trace.start as f64 * trace.per_frame as f64 / rate.hz();
            let seconds = annotation.time as f64 / hz - start;
            // Half a sample before the first is still nearest to it.
            let seconds = Some(seconds).filter(|seconds| seconds * rate.hz() >= -0.5)?;
            rate.nearest(Seconds::new(seconds.max(0.0))).get()
        }
        None => {
            let frames = annotation.time.checked_sub(trace.start)?;
            usize::try_from(frames).ok()?.checked_mul(trace.per_frame)?
        }
    };
    (at < trace.recording.samples.len()).then_some(SampleIndex::new(at))
}

fn mark(annotation: &Annotation, at: SampleIndex) -> Mark {
    match codes::beat(annotation.code) {
        Some(letter) => {
            Mark { at, kind: MarkKind::Beat(BeatCode(letter)), text: annotation.text.clone() }
        }
        None => {
            let symbol = codes::symbol(annotation.code);
            let text = format!("{symbol} {}", annotation.text);
            Mark { at, kind: MarkKind::Note, text: text.trim_end().to_owned() }
        }
    }
}
