//! What a reader guessed or repaired: readable all the same, but it has to be said.
//!
//! Each reader has an enum of its own for what only it can meet; [`NoteKind`] holds them all.

use super::{ArchiveNote, EdfNote, Place, TextNote, WavNote, WfdbNote};
use std::fmt;

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

impl fmt::Display for Note {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match &self.kind {
            NoteKind::Text(note) => note.to_string(),
            NoteKind::Wfdb(note) => note.to_string(),
            NoteKind::Edf(note) => note.to_string(),
            NoteKind::Wav(note) => note.to_string(),
            NoteKind::Archive(note) => note.to_string(),
        };
        match self.place {
            // A note about several lines names them itself.
            Some(place) if !text.contains("line") => write!(formatter, "{text} ({place})"),
            _ => formatter.write_str(&text),
        }
    }
}

/// The first few of a list, and how many more there are.
pub(super) fn listed(names: &[String], between: &str) -> String {
    const SHOWN: usize = 6;
    let shown = names.get(..SHOWN).unwrap_or(names);
    let more = match names.len() - shown.len() {
        0 => String::new(),
        more => format!("{between}and {more} more"),
    };
    format!("{}{more}", shown.join(between))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_list_is_cut() {
        let names: Vec<String> = (1..=8).map(|number| number.to_string()).collect();
        assert_eq!(listed(&names, ", "), "1, 2, 3, 4, 5, 6, and 2 more");
        assert_eq!(listed(&names[..2], ", "), "1, 2");
    }
}
