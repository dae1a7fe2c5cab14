//! Readers: from the bytes of a file to [`Recording`](crate::signal::Recording)s, never guessing in silence.
//!
//! [`open`] looks at what was dropped, finds the reader for it and gives back the traces together
//! with a [`Note`] for each thing that was guessed or repaired. What can't be read gives an
//! [`OpenError`] that says what is wrong, where, and what to do.

#![warn(clippy::indexing_slicing)]

mod archive;
mod bridge;
mod choices;
mod edf;
mod error;
mod known;
mod latin;
mod lead;
mod note;
mod open;
mod sniff;
mod text;
mod unit;
mod wav;
mod wfdb;

pub use archive::{ArchiveError, ArchiveNote, is_packed, only_member, unpacked};
pub use choices::{Choices, DecimalMark, Delimiter, TextLayout, TimeColumn, TimeUnit, ValueUnit};
pub use edf::{EdfError, EdfFault, EdfField, EdfNote, SignalFault};
pub use error::{OpenError, Place};
pub use known::{How, KnownShapes, TextShape, Understood};
pub use note::{Note, NoteKind};
pub use open::{Format, LARGEST_FILE, NeedsRate, Opened, Opening, SourceFile, open};
pub use sniff::is_saved_work;
pub use text::{Decode, LeftOut, LineList, TextError, TextNote, decode_with};
pub use wav::{WavError, WavFault, WavNote};
pub use wfdb::{WfdbError, WfdbFault, WfdbNote, named_files};
