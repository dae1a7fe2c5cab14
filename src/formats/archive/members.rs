//! From the members of an archive to one opening: a record with its parts, one file, or several in order.
//!
//! When there are headers, their records are opened. Otherwise every member is opened by itself. Of
//! several, each trace is named by its member, what cannot be read is left out with the reason, and
//! the student's choices hold for all of them. Where no member states its rate, the first one asks
//! for it.

use super::{ArchiveError, ArchiveNote, Member, records};
use crate::formats::open::open_plain;
use crate::formats::{Choices, NeedsRate, Note, NoteKind, OpenError, Opened, Opening, SourceFile};
use crate::formats::{lead, wfdb};
use crate::signal::Progress;
use crate::words::{Phrase, phrase};

/// Opens the members of the archive of this name. `notes` holds what unpacking had to say.
pub(super) fn open(
    archive: &str,
    members: Vec<Member>,
    choices: &Choices,
    mut notes: Vec<NoteKind>,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    let together = together(members, &mut notes);
    if let [(_, files)] = together.as_slice() {
        return Ok(with_notes(open_plain(files, choices, progress)?, notes));
    }
    let count = together.len();
    let mut opened: Vec<(String, Opened)> = Vec::new();
    let mut asking: Vec<NeedsRate> = Vec::new();
    let mut refused: Vec<(String, OpenError)> = Vec::new();
    for (done, (path, files)) in together.into_iter().enumerate() {
        let mut part = |part: f64| progress.at((done as f64 + part) / count as f64);
        match open_plain(&files, choices, &mut part) {
            Ok(Opening::Ready(one)) => opened.push((path, one)),
            Ok(Opening::NeedsRate(one)) => asking.push(one),
            Err(error) => refused.push((path, error)),
        }
    }
    if opened.is_empty() && asking.is_empty() {
        return Err(nothing(archive, refused, &notes));
    }
    notes.extend(refused.into_iter().map(|(member, error)| left_out(member, error.said())));
    let no_rate = |one: NeedsRate| left_out(one.file, phrase!("faults.archive.no_rate"));
    let mut asking = asking.into_iter();
    let opening = match (opened.len(), opened.pop()) {
        (1, Some((_, one))) => Opening::Ready(one),
        (_, Some(last)) => {
            opened.push(last);
            Opening::Ready(joined(archive, opened))
        }
        (_, None) => match asking.next() {
            Some(first) => return Ok(with_notes(Opening::NeedsRate(first), notes)),
            None => return Err(ArchiveError::Nothing { file: archive.to_owned() }.into()),
        },
    };
    notes.extend(asking.map(no_rate));
    Ok(with_notes(opening, notes))
}

/// What is opened together, and by which name: each record, or each file where there is none.
fn together(members: Vec<Member>, notes: &mut Vec<NoteKind>) -> Vec<(String, Vec<SourceFile>)> {
    if !members.iter().any(|member| wfdb::is_header(&member.file)) {
        return members.into_iter().map(|member| (member.path(), vec![member.file])).collect();
    }
    let (records, beside) = records::split(members);
    if !beside.is_empty() {
        let record = match records.as_slice() {
            [one] => Phrase::from(&one.header),
            _ => phrase!("repairs.archive.a_record"),
        };
        let members = beside.iter().map(Member::path).collect();
        notes.push(ArchiveNote::BesideRecord { record, members }.into());
    }
    records.into_iter().map(|record| (record.path(), record.files)).collect()
}

/// Several openings as one.
fn joined(archive: &str, opened: Vec<(String, Opened)>) -> Opened {
    let wanted = opened.iter().filter_map(|(_, one)| one.traces.get(one.suggested));
    let wanted = lead::likeliest(wanted.map(|trace| (trace.name.as_str(), trace.unit)));
    let format = opened.first().map_or(super::super::Format::Text, |(_, one)| one.format);
    let mut all = Opened {
        file: archive.to_owned(),
        format,
        traces: Vec::new(),
        suggested: 0,
        notes: Vec::new(),
        layout: None,
    };
    for (place, (member, mut one)) in opened.into_iter().enumerate() {
        if place == wanted {
            all.suggested = all.traces.len() + one.suggested;
            all.layout = one.layout;
        }
        let is_alone = one.traces.len() == 1;
        for trace in &mut one.traces {
            trace.name = match is_alone {
                true => member.clone(),
                false => format!("{member}: {}", trace.name),
            };
        }
        all.traces.append(&mut one.traces);
        all.notes.extend(one.notes.into_iter().map(|note| {
            let (member, place) = (member.clone(), note.place);
            Note { kind: ArchiveNote::Within { member, note: Box::new(note) }.into(), place }
        }));
    }
    all
}

/// No member can be read: with one of them its own error says most.
fn nothing(archive: &str, mut refused: Vec<(String, OpenError)>, notes: &[NoteKind]) -> OpenError {
    let file = archive.to_owned();
    let unpackable =
        notes.iter().filter(|note| matches!(note, NoteKind::Archive(ArchiveNote::LeftOut { .. })));
    let unpackable: Vec<Phrase> =
        unpackable.map(|kind| Note { kind: kind.clone(), place: None }.said()).collect();
    match (refused.len(), unpackable.is_empty(), refused.pop()) {
        (1, true, Some((_, error))) => error,
        (_, true, None) => ArchiveError::Nothing { file }.into(),
        (_, _, last) => {
            refused.extend(last);
            let errors = refused.into_iter().map(|(_, error)| error.said());
            ArchiveError::NothingReadable { file, reasons: errors.chain(unpackable).collect() }
                .into()
        }
    }
}

fn left_out(member: String, reason: Phrase) -> NoteKind {
    ArchiveNote::LeftOut { member, reason }.into()
}

/// Puts what the archive has to say before what its members have.
fn with_notes(mut opening: Opening, notes: Vec<NoteKind>) -> Opening {
    let own = match &mut opening {
        Opening::Ready(opened) => &mut opened.notes,
        Opening::NeedsRate(needs) => &mut needs.notes,
    };
    own.splice(0..0, notes.into_iter().map(|kind| Note { kind, place: None }));
    opening
}
