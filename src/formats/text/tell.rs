//! The notes as they come up, each with its line.

use super::super::{Note, Place};
use super::line_list::LineList;
use super::notes::TextNote;

/// What has been told so far.
#[derive(Debug, Default)]
pub(super) struct Told {
    pub(super) notes: Vec<Note>,
}

impl Told {
    /// Tells of something, on a line when it has one.
    pub(super) fn note(&mut self, note: TextNote, line: Option<usize>) {
        self.tell(note, line.map(|line| Place { line, column: None }));
    }

    /// Of several parts side by side each may meet the same thing: it is told once.
    fn tell(&mut self, note: TextNote, place: Option<Place>) {
        let note = Note { kind: note.into(), place };
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    /// Tells of something in one column, counted from 0.
    pub(super) fn note_in(&mut self, note: TextNote, line: usize, column: usize) {
        self.tell(note, Some(Place { line, column: Some(column + 1) }));
    }

    /// Tells of lines, if there are any.
    pub(super) fn list(&mut self, note: fn(LineList) -> TextNote, lines: LineList) {
        if let Some(first) = lines.first() {
            self.note(note(lines), Some(first));
        }
    }
}
