//! What can be wrong with a WAV file: too wrong to read, or repaired.

use thiserror::Error;

/// Why a WAV file can't be read.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WavError {
    /// What stands before the samples makes no sense.
    #[error("the header of {file} can't be read: {fault}")]
    Header {
        /// The file.
        file: String,
        /// What is wrong.
        fault: WavFault,
    },
    /// There is not one whole frame.
    #[error("{file} ends before its first sample")]
    NoSamples {
        /// The file.
        file: String,
    },
}

impl WavError {
    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Header { fault: WavFault::Encoding { .. }, .. } => {
                "Save the recording again as WAV without compression, with 16, 24 or 32 bits, or as CSV."
            }
            Self::Header { .. } | Self::NoSamples { .. } => {
                "Save the recording again as WAV or as CSV, and drop it here."
            }
        }
        .to_owned()
    }
}

/// What is wrong with a header.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WavFault {
    /// It does not begin as WAV does.
    #[error("it does not begin as a WAV file does")]
    OtherKind,
    /// A part is missing.
    #[error("its \"{chunk}\" part is missing")]
    ChunkMissing {
        /// Which one.
        chunk: &'static str,
    },
    /// The format is cut off.
    #[error("its \"fmt\" part should have at least 16 bytes, but has {found}")]
    FormatShort {
        /// How many it has.
        found: usize,
    },
    /// The samples are written in a way that is not read here.
    #[error(
        "its samples are of form {form} with {bits} bits; read are integers (form 1) of up to 32 bits and floats (form 3) of 32 or 64 bits"
    )]
    Encoding {
        /// The number of the form.
        form: u16,
        /// How many bits a sample has.
        bits: u16,
    },
    /// There is no channel.
    #[error("it says that it has no channel")]
    NoChannels,
    /// Channels and bits do not go with the size of a frame.
    #[error("{channels} channels of {bits} bits need {expected} bytes, but it gives them {found}")]
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
    #[error("a sampling rate of {hz} Hz is not possible")]
    Rate {
        /// The rate in the file.
        hz: usize,
    },
}

/// What was guessed or repaired in a WAV file.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum WavNote {
    /// The values are steps.
    #[error(
        "the values are converter steps of {bits} bits; the file does not say how many mV one is"
    )]
    Steps {
        /// How many bits a step has.
        bits: usize,
    },
    /// The values are numbers without a unit.
    #[error("the file does not say the unit of its values; they are kept as they are")]
    NoUnit,
    /// The recorder never closed the file.
    #[error(
        "the recorder never closed the file; the number of samples was counted from its size: {frames}"
    )]
    LengthCounted {
        /// How many there are in each channel.
        frames: usize,
    },
    /// The file ends too early.
    #[error("the file ends too early: it promises {stated} samples a channel and holds {frames}")]
    Truncated {
        /// How many there should be.
        stated: usize,
        /// How many whole ones there are.
        frames: usize,
    },
    /// The last frame is not whole.
    #[error("the last samples are not complete and were left out: {bytes} bytes")]
    LeftOver {
        /// How many bytes there are of it.
        bytes: usize,
    },
    /// Some values are no numbers.
    #[error(
        "values that are no numbers were bridged in a straight line, or left as holes where there are many: {count}"
    )]
    NoNumbers {
        /// How many.
        count: usize,
    },
    /// More than one file was dropped.
    #[error("only {opened} was opened; drop {} by itself to open it", .others.join(", "))]
    OtherFiles {
        /// The file that was read.
        opened: String,
        /// The others.
        others: Vec<String>,
    },
}
