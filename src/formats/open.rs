//! The one way in: what was dropped goes to the reader that knows it.

use super::{Choices, Note, OpenError, TextLayout};
use crate::signal::{Progress, Recording};
use serde::{Deserialize, Serialize};

/// The largest file that is taken, in bytes: an hour at 1000 Hz as text needs about a quarter of it.
pub const LARGEST_FILE: u64 = 300 * 1024 * 1024;

/// A file as it was dropped.
#[derive(Clone, Debug)]
pub struct SourceFile {
    /// Its name, without folders.
    pub name: String,
    /// All of its bytes.
    pub bytes: Vec<u8>,
}

/// The kinds of file that can be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Format {
    /// Rows of numbers: CSV, TSV, TXT.
    Text,
    /// A WFDB header with its signal files.
    Wfdb,
    /// EDF or EDF+, 16 bits a sample.
    Edf,
    /// BDF or BDF+, 24 bits a sample.
    Bdf,
    /// WAV, integers or floats.
    Wav,
}

/// What opening came to.
#[derive(Clone, Debug)]
pub enum Opening {
    /// There are traces to work on.
    Ready(Opened),
    /// The values are there, but no sampling rate: it has to be asked for before anything is measured.
    NeedsRate(NeedsRate),
}

/// The traces of a file and how they were understood.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The file the traces came from.
    pub file: String,
    /// What kind of file it is.
    pub format: Format,
    /// Every trace that can be read as a voltage, at least one. Several runs give several traces.
    pub traces: Vec<Recording>,
    /// The place in `traces` of the one that most looks like the wanted ECG.
    pub suggested: usize,
    /// What was guessed or repaired.
    pub notes: Vec<Note>,
    /// How rows and columns were understood, for text.
    pub layout: Option<TextLayout>,
}

/// Values without a sampling rate.
#[derive(Clone, Debug)]
pub struct NeedsRate {
    /// The file the values came from.
    pub file: String,
    /// What kind of file it is.
    pub format: Format,
    /// How many values there are.
    pub samples: usize,
    /// The rates at which the trace would be a heart at 40 to 200 beats a minute, in Hz, when one can tell.
    pub plausible_hz: Option<(f64, f64)>,
    /// What was guessed or repaired.
    pub notes: Vec<Note>,
    /// How rows and columns were understood.
    pub layout: Option<TextLayout>,
}

/// Opens what was dropped. Files that belong together (a header and its signal files) come together.
///
/// # Errors
/// [`OpenError`] when nothing can be read; it names the file, the place and the remedy.
pub fn open(
    files: &[SourceFile],
    choices: &Choices,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    for SourceFile { name, bytes } in files {
        let size = bytes.len() as u64;
        if size > LARGEST_FILE {
            return Err(OpenError::TooLarge { bytes: size, file: name.clone() });
        }
    }
    if super::archive::is_packed(files) {
        return super::archive::open(files, choices, progress);
    }
    open_plain(files, choices, progress)
}

/// Opens files that are not packed.
pub(super) fn open_plain(
    files: &[SourceFile],
    choices: &Choices,
    progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    if super::wfdb::is_wfdb(files) {
        return super::wfdb::open(files, progress).map(Opening::Ready);
    }
    if super::edf::is_edf(files) {
        return super::edf::open(files, progress).map(Opening::Ready);
    }
    if super::wav::is_wav(files) {
        return super::wav::open(files, progress).map(Opening::Ready);
    }
    // The samples of a record may begin with any bytes; what is no record may not.
    for SourceFile { name, bytes } in files {
        if bytes.is_empty() {
            return Err(OpenError::Empty { file: name.clone() });
        }
        if super::sniff::is_saved_work(bytes) {
            return Err(OpenError::SavedWork { file: name.clone() });
        }
        if let Some(kind) = super::sniff::foreign(bytes) {
            return Err(OpenError::NotARecording { kind, file: name.clone() });
        }
    }
    super::text::open(files, choices, progress)
}

/// The first file of a kind that holds one recording a file, and the names of the others like it.
///
/// # Errors
/// [`OpenError::Empty`] when it holds nothing.
pub(super) fn first_of(
    files: &[SourceFile],
    is_one: impl Fn(&SourceFile) -> bool,
) -> Result<(&SourceFile, Vec<String>), OpenError> {
    let mut candidates = files.iter().filter(|file| is_one(file));
    match candidates.next() {
        Some(source) if !source.bytes.is_empty() => {
            Ok((source, candidates.map(|other| other.name.clone()).collect()))
        }
        empty => {
            let file = empty.map(|file| file.name.clone()).unwrap_or_default();
            Err(OpenError::Empty { file })
        }
    }
}
