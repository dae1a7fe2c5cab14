//! What can be wrong with a WAV file: too wrong to read, or repaired.

use crate::words::{Phrase, errors_as_said, phrase};

/// Why a WAV file can't be read.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum WavError {
    /// What stands before the samples makes no sense.
    Header {
        /// The file.
        file: String,
        /// What is wrong.
        fault: WavFault,
    },
    /// There is not one whole frame.
    NoSamples {
        /// The file.
        file: String,
    },
}

/// What is wrong with a header.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum WavFault {
    /// It does not begin as WAV does.
    OtherKind,
    /// A part is missing.
    ChunkMissing {
        /// Which one.
        chunk: &'static str,
    },
    /// The format is cut off.
    FormatShort {
        /// How many it has.
        found: usize,
    },
    /// The samples are written in a way that is not read here.
    Encoding {
        /// The number of the form.
        form: u16,
        /// How many bits a sample has.
        bits: u16,
    },
    /// There is no channel.
    NoChannels,
    /// Channels and bits do not go with the size of a frame.
    Frame {
        /// How many channels there are.
        channels: usize,
        /// How many bits a sample has.
        bits: u16,
        /// The bytes they need.
        expected: usize,
        /// The bytes the file gives them.
        found: usize,
    },
    /// Nothing says how fast its samples follow each other.
    Rate {
        /// The rate in the file.
        hz: usize,
    },
}

/// What was guessed or repaired in a WAV file.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum WavNote {
    /// The values are steps.
    Steps {
        /// How many bits a step has.
        bits: usize,
    },
    /// The values are numbers without a unit.
    NoUnit,
    /// The recorder never closed the file.
    LengthCounted {
        /// How many there are in each channel.
        frames: usize,
    },
    /// The file ends too early.
    Truncated {
        /// How many there should be.
        stated: usize,
        /// How many whole ones there are.
        frames: usize,
    },
    /// The last frame is not whole.
    LeftOver {
        /// How many bytes there are of it.
        bytes: usize,
    },
    /// Some values are no numbers.
    NoNumbers {
        /// How many.
        count: usize,
    },
    /// More than one file was dropped.
    OtherFiles {
        /// The file that was read.
        opened: String,
        /// The others.
        others: Vec<String>,
    },
}

impl WavError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Header { file, fault } => {
                let fault = fault.said();
                phrase!("faults.file.header", file, fault)
            }
            Self::NoSamples { file } => phrase!("faults.wav.no_samples", file),
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::Header { fault: WavFault::Encoding { .. }, .. } => {
                phrase!("faults.remedy.wav.plain")
            }
            Self::Header { .. } | Self::NoSamples { .. } => phrase!("faults.remedy.wav.save_again"),
        }
    }
}

impl WavFault {
    fn said(&self) -> Phrase {
        match self {
            Self::OtherKind => phrase!("faults.wav.other_kind"),
            Self::ChunkMissing { chunk } => phrase!("faults.wav.chunk_missing", chunk),
            Self::FormatShort { found } => phrase!("faults.wav.format_short", found),
            Self::Encoding { form, bits } => phrase!("faults.wav.encoding", form, bits),
            Self::NoChannels => phrase!("faults.wav.no_channels"),
            Self::Frame { channels, bits, expected, found } => {
                phrase!("faults.wav.frame", channels, bits, expected, found)
            }
            Self::Rate { hz } => phrase!("faults.wav.rate", hz),
        }
    }
}

impl WavNote {
    /// What was guessed or repaired.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Steps { bits } => phrase!("repairs.wav.steps", bits),
            Self::NoUnit => phrase!("repairs.wav.no_unit"),
            Self::LengthCounted { frames } => phrase!("repairs.wav.length_counted", frames),
            Self::Truncated { stated, frames } => phrase!("repairs.wav.truncated", stated, frames),
            Self::LeftOver { bytes } => phrase!("repairs.wav.left_over", bytes),
            Self::NoNumbers { count } => phrase!("repairs.wav.no_numbers", count),
            Self::OtherFiles { opened, others } => {
                let others = Phrase::names(others);
                phrase!("repairs.other_files", opened, others)
            }
        }
    }
}

errors_as_said!(WavError, WavFault);
