//! WAV: samples of one or more channels in a RIFF file, as recorders with a sound input write it.
//!
//! Sources: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991),
//! "RIFF" and "WAVE"; `WAVE_FORMAT_EXTENSIBLE` from Microsoft's Multiple Channel Audio Data and WAVE
//! Files (2001); `RF64` and `BW64` from EBU Tech 3306 (2009) and ITU-R BS.2088. Integers of up to 32
//! bits are steps of a converter, floats of 32 and 64 bits are numbers without a unit: a WAV file never
//! says how many millivolts one is. A trace holds 32-bit floats, so of longer numbers the highest 24
//! bits count.
//!
//! The crate for it, `hound` 3.5, refuses what a recorder that lost its power leaves behind (a length of 0
//! or of 4 GB), 32-bit integers beside an extended header and any slip in a field that nobody needs;
//! it takes the byte that fills up an odd chunk for the start of the next one and reads only four
//! bytes of a longer `fact` chunk. So the format is read here.
//!
//! Bytes after the samples are ignored, a frame that was cut off is left out, and values that are no
//! numbers are bridged or become holes.

mod chunks;
mod fault;
mod layout;
mod samples;

pub use fault::{WavError, WavFault, WavNote};

use super::open::first_of;
use super::{Format, Note, OpenError, Opened, SourceFile, lead};
use crate::signal::Progress;
use chunks::Chunks;
use layout::Layout;

/// Whether one of these files is WAV, or is called so.
pub(super) fn is_wav(files: &[SourceFile]) -> bool {
    files.iter().any(is_one)
}

fn is_one(file: &SourceFile) -> bool {
    chunks::begins(&file.bytes) || file.name.to_ascii_lowercase().ends_with(".wav")
}

/// Opens the first WAV file.
pub(super) fn open(files: &[SourceFile], progress: &mut dyn Progress) -> Result<Opened, OpenError> {
    let (source, others) = first_of(files, is_one)?;
    let file = source.name.clone();
    let mut notes = Vec::new();
    let header = |fault| WavError::Header { file: file.clone(), fault };
    let chunks = Chunks::find(&source.bytes).map_err(header)?;
    let layout = Layout::parse(chunks.format).map_err(header)?;
    if layout.frames(chunks.data) == 0 {
        return Err(WavError::NoSamples { file }.into());
    }
    notes.extend(samples::length_note(&chunks, &layout));
    let traces = samples::read(chunks.data, &layout, &mut notes, progress);
    if !others.is_empty() {
        notes.push(WavNote::OtherFiles { opened: file.clone(), others });
    }
    let notes = notes.into_iter().map(|note| Note { kind: note.into(), place: None }).collect();
    let suggested = lead::suggested(&traces);
    Ok(Opened { file, format: Format::Wav, traces, suggested, notes, layout: None })
}
