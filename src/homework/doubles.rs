//! Hand-ins that came more than once.

use super::marking::Sheet;
use crate::words::{Phrase, phrase};

/// Which earlier hand-in one repeats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubled {
    /// The very same, perhaps under another name: the place of the first.
    Copy(usize),
    /// Another one with the same student's name or code: the place of the first.
    Student(usize),
}

impl Doubled {
    /// Which it is, for the teacher, among the sheets that [`doubled`] was asked about.
    pub fn said(self, sheets: &[Sheet]) -> Phrase {
        let (Self::Copy(first) | Self::Student(first)) = self;
        let file = sheets.get(first).map(|sheet| sheet.file.as_str()).unwrap_or_default();
        match self {
            Self::Copy(_) => phrase!("homework.doubled.copy", file),
            Self::Student(_) => phrase!("homework.doubled.student", file),
        }
    }
}

/// For each sheet whether it repeats one before it.
pub fn doubled(sheets: &[Sheet]) -> Vec<Option<Doubled>> {
    let find = |place: usize, sheet: &Sheet| {
        let before = sheets.get(..place)?;
        let copy = before.iter().position(|other| other.content == sheet.content);
        let name = |sheet: &Sheet| sheet.student.trim().to_lowercase();
        let own = Some(name(sheet)).filter(|own| !own.is_empty());
        let same = || before.iter().position(|other| own.as_ref() == Some(&name(other)));
        copy.map(Doubled::Copy).or_else(|| same().map(Doubled::Student))
    };
    sheets.iter().enumerate().map(|(place, sheet)| find(place, sheet)).collect()
}
