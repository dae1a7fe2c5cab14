//! What a reader guessed or repaired: readable all the same, but it has to be said.
//!
//! Each reader has an enum of its own for what only it can meet; [`NoteKind`] holds them all.

use super::{ArchiveNote, EdfNote, Place, TextNote, WavNote, WfdbNote};
use crate::words::{Phrase, phrase, shown_as_said};

/// One thing that was guessed or repaired, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// What it is about.
    pub kind: NoteKind,
    /// Where in the file, when it has a place.
    pub place: Option<Place>,
}

/// What was guessed or repaired.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum NoteKind {
    /// In rows of numbers.
    Text(TextNote),
    /// In a WFDB record.
    Wfdb(WfdbNote),
    /// In an EDF or BDF file.
    Edf(EdfNote),
    /// In a WAV file.
    Wav(WavNote),
    /// In a packed file.
    Archive(ArchiveNote),
}

impl From<TextNote> for NoteKind {
    fn from(note: TextNote) -> Self {
        Self::Text(note)
    }
}

impl From<WfdbNote> for NoteKind {
    fn from(note: WfdbNote) -> Self {
        Self::Wfdb(note)
    }
}

impl From<EdfNote> for NoteKind {
    fn from(note: EdfNote) -> Self {
        Self::Edf(note)
    }
}

impl From<WavNote> for NoteKind {
    fn from(note: WavNote) -> Self {
        Self::Wav(note)
    }
}

impl From<ArchiveNote> for NoteKind {
    fn from(note: ArchiveNote) -> Self {
        Self::Archive(note)
    }
}

impl Note {
    /// What was guessed or repaired, and where.
    pub fn said(&self) -> Phrase {
        let note = match &self.kind {
            NoteKind::Text(note) => note.said(),
            NoteKind::Wfdb(note) => note.said(),
            NoteKind::Edf(note) => note.said(),
            NoteKind::Wav(note) => note.said(),
            NoteKind::Archive(note) => note.said(),
        };
        match self.place {
            // A note about several lines names them itself.
            Some(place) if !self.kind.names_lines() => {
                let place = place.said();
                phrase!("repairs.placed", note, place)
            }
            _ => note,
        }
    }
}

impl NoteKind {
    fn names_lines(&self) -> bool {
        match self {
            Self::Text(note) => note.names_lines(),
            Self::Archive(ArchiveNote::Within { note, .. }) => {
                note.place.is_some() || note.kind.names_lines()
            }
            _ => false,
        }
    }
}

shown_as_said!(Note);
