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
        let place = line.map(|line| Place { line, column: None });
        self.notes.push(Note { kind: note.into(), place });
    }

    /// Tells of something in one column, counted from 0.
    pub(super) fn note_in(&mut self, note: TextNote, line: usize, column: usize) {
        self.notes.push(Note {
            kind: note.into(),
            place: Some(Place { line, column: Some(column + 1) }),
        });
    }

    /// Tells of lines, if there are any.
    pub(super) fn list(&mut self, note: fn(LineList) -> TextNote, lines: LineList) {
        if let Some(first) = lines.first() {
            self.note(note(lines), Some(first));
        }
    }
}
