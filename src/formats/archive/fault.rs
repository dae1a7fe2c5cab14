//! Why nothing in an archive can be read, and what was left out of it.

use super::MOST_RATIO;
use crate::formats::note::listed;
use crate::formats::{LARGEST_FILE, Note};
use thiserror::Error;

/// An archive that can't be read. `Display` says what is wrong; [`ArchiveError::remedy`] what to do.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum ArchiveError {
    /// It was cut off, or its bytes were changed.
    #[error("{file} is damaged or was cut off")]
    Damaged {
        /// The archive.
        file: String,
    },
    /// There is no file in it.
    #[error("{file} holds no file")]
    Nothing {
        /// The archive.
        file: String,
    },
    /// It holds too much.
    #[error("{file} unpacks to more than {} MB", LARGEST_FILE >> 20)]
    TooLarge {
        /// The archive.
        file: String,
    },
    /// It holds far more than its size allows a recording.
    #[error("{file} unpacks to more than {MOST_RATIO} times its size, as no recording does")]
    Swells {
        /// The archive.
        file: String,
    },
    /// It holds another archive.
    #[error("{file} holds another archive, {member}")]
    Nested {
        /// The archive inside.
        member: String,
        /// The archive outside.
        file: String,
    },
    /// A file in it needs a password.
    #[error("{member} in {file} is locked with a password")]
    Locked {
        /// The file.
        member: String,
        /// The archive.
        file: String,
    },
    /// There are files, and none can be read.
    #[error("nothing in {file} can be read: {}", listed(reasons, "; "))]
    NothingReadable {
        /// The archive.
        file: String,
        /// Why not, for each file.
        reasons: Vec<String>,
    },
}

impl ArchiveError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Damaged { .. } => "Copy the archive again from where it came, and drop it here.",
            Self::Nothing { .. } | Self::NothingReadable { .. } => {
                "Put the recording itself into the archive, as text (CSV), or drop it here unpacked."
            }
            Self::TooLarge { .. } | Self::Swells { .. } => {
                "Unpack it on this computer, and drop one recording from it here."
            }
            Self::Nested { .. } => "Unpack it once on this computer, and drop the archive inside it here.",
            Self::Locked { .. } => {
                "Unpack it on this computer with its password, and drop the recording here."
            }
        }
        .to_owned()
    }
}

/// What was found in an archive, or left out of it.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum ArchiveNote {
    /// What was unpacked.
    #[error("unpacked from {file}: {}", listed(members, ", "))]
    Unpacked {
        /// The archive.
        file: String,
        /// The files in it.
        members: Vec<String>,
    },
    /// The archive ends too early.
    #[error("{file} was cut off; it is read up to there, and its last value may not be whole")]
    CutOff {
        /// The archive.
        file: String,
    },
    /// There is something behind its end.
    #[error("{file} goes on after its end; left out: {bytes} bytes")]
    Behind {
        /// The archive.
        file: String,
        /// How many bytes.
        bytes: usize,
    },
    /// A file can't be read.
    #[error("left out: {member}: {reason}")]
    LeftOut {
        /// The file.
        member: String,
        /// Why.
        reason: String,
    },
    /// Files beside a record.
    #[error("left out, because they do not belong to {record}: {}", listed(members, ", "))]
    BesideRecord {
        /// The header of the record that was opened.
        record: String,
        /// The files.
        members: Vec<String>,
    },
    /// There are more files than are taken.
    #[error("only the first {taken} files were taken; left out: {rest}")]
    TooMany {
        /// How many were taken.
        taken: usize,
        /// How many were not.
        rest: usize,
    },
    /// What the reader of one of several files has to say.
    #[error("{member}: {note}")]
    Within {
        /// The file.
        member: String,
        /// What was guessed or repaired in it.
        note: Box<Note>,
    },
}
