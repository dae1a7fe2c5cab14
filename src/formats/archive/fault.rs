//! Why nothing in an archive can be read, and what was left out of it.

use super::MOST_RATIO;
use crate::formats::{LARGEST_FILE, Note};
use crate::words::{Phrase, errors_as_said, phrase};

/// An archive that can't be read. `Display` says what is wrong; [`ArchiveError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ArchiveError {
    /// It was cut off, or its bytes were changed.
    Damaged {
        /// The archive.
        file: String,
    },
    /// There is no file in it.
    Nothing {
        /// The archive.
        file: String,
    },
    /// It holds too much.
    TooLarge {
        /// The archive.
        file: String,
    },
    /// It holds far more than its size allows a recording.
    Swells {
        /// The archive.
        file: String,
    },
    /// It holds another archive.
    Nested {
        /// The archive inside.
        member: String,
        /// The archive outside.
        file: String,
    },
    /// A file in it needs a password.
    Locked {
        /// The file.
        member: String,
        /// The archive.
        file: String,
    },
    /// There are files, and none can be read.
    NothingReadable {
        /// The archive.
        file: String,
        /// Why not, for each file.
        reasons: Vec<Phrase>,
    },
}

/// What was found in an archive, or left out of it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ArchiveNote {
    /// What was unpacked.
    Unpacked {
        /// The archive.
        file: String,
        /// The files in it.
        members: Vec<String>,
    },
    /// The archive ends too early.
    CutOff {
        /// The archive.
        file: String,
    },
    /// There is something behind its end.
    Behind {
        /// The archive.
        file: String,
        /// How many bytes.
        bytes: usize,
    },
    /// A file can't be read.
    LeftOut {
        /// The file.
        member: String,
        /// Why.
        reason: Phrase,
    },
    /// Files beside a record.
    BesideRecord {
        /// The header of the record that was opened.
        record: Phrase,
        /// The files.
        members: Vec<String>,
    },
    /// There are more files than are taken.
    TooMany {
        /// How many were taken.
        taken: usize,
        /// How many were not.
        rest: usize,
    },
    /// What the reader of one of several files has to say.
    Within {
        /// The file.
        member: String,
        /// What was guessed or repaired in it.
        note: Box<Note>,
    },
}

impl ArchiveError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Damaged { file } => phrase!("faults.archive.damaged", file),
            Self::Nothing { file } => phrase!("faults.archive.nothing", file),
            Self::TooLarge { file } => {
                let most = LARGEST_FILE >> 20;
                phrase!("faults.archive.too_large", file, most)
            }
            Self::Swells { file } => {
                let times = MOST_RATIO;
                phrase!("faults.archive.swells", file, times)
            }
            Self::Nested { member, file } => phrase!("faults.archive.nested", file, member),
            Self::Locked { member, file } => phrase!("faults.archive.locked", member, file),
            Self::NothingReadable { file, reasons } => {
                let reasons = Phrase::sentences(reasons);
                phrase!("faults.archive.nothing_readable", file, reasons)
            }
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::Damaged { .. } => phrase!("faults.remedy.archive.copy_again"),
            Self::Nothing { .. } | Self::NothingReadable { .. } => {
                phrase!("faults.remedy.archive.put_recording")
            }
            Self::TooLarge { .. } | Self::Swells { .. } => phrase!("faults.remedy.archive.unpack"),
            Self::Nested { .. } => phrase!("faults.remedy.archive.unpack_once"),
            Self::Locked { .. } => phrase!("faults.remedy.archive.password"),
        }
    }
}

impl ArchiveNote {
    /// What was guessed or repaired.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Unpacked { file, members } => {
                let members = Phrase::names(members);
                phrase!("repairs.archive.unpacked", file, members)
            }
            Self::CutOff { file } => phrase!("repairs.archive.cut_off", file),
            Self::Behind { file, bytes } => phrase!("repairs.archive.behind", file, bytes),
            Self::LeftOut { member, reason } => phrase!("repairs.archive.left_out", member, reason),
            Self::BesideRecord { record, members } => {
                let members = Phrase::names(members);
                phrase!("repairs.archive.beside_record", record, members)
            }
            Self::TooMany { taken, rest } => phrase!("repairs.archive.too_many", taken, rest),
            Self::Within { member, note } => {
                let note = note.said();
                phrase!("repairs.archive.within", member, note)
            }
        }
    }
}

errors_as_said!(ArchiveError);
