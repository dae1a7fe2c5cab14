//! What was opened, from where, and how it was read.

use beatwalk::formats::{Choices, TextLayout, TextShape};
use beatwalk::signal::Recording;
use beatwalk::words::Phrase;
use gloo_file::File;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// Opened files with all of their traces.
#[derive(Debug)]
pub struct OpenFile {
    /// The file the traces came from.
    pub file: String,
    /// The traces.
    pub recordings: Vec<Arc<Recording>>,
    /// The place of the trace that most looks like the wanted one.
    pub suggested: usize,
    /// What was guessed or repaired.
    pub notes: Vec<Phrase>,
    /// How a text file was understood.
    pub layout: Option<TextLayout>,
    /// The shape of a text file as found without any choice.
    pub found: Option<TextShape>,
    /// The choices it was read with.
    pub choices: Choices,
    /// Whether those are remembered for files like it.
    pub memory: Memory,
}

/// What is remembered of how a file is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Memory {
    /// Nothing.
    #[default]
    None,
    /// A correction of an earlier file was used for this one.
    Used,
    /// A correction of this file will be used for others.
    Kept,
}

/// Where a recording comes from, to read it again when the student corrects how.
#[derive(Clone, Debug)]
pub enum Source {
    /// Files of the student's.
    Files(Vec<File>),
    /// One of the invented recordings, by its key.
    Demo(&'static str),
}

/// What a student filled in for the scale of a sensor, as typed. Where 0 mV lies is each file's own.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ScaleTyped {
    /// Whether the converter is known, rather than how many units a millivolt is.
    pub by_converter: bool,
    /// The range of the converter, V.
    pub range: String,
    /// The bits of the converter.
    pub bits: Option<u32>,
    /// The gain of the amplifier.
    pub gain: String,
    /// How many units a millivolt is.
    pub units: String,
}

/// What is being opened, and how.
#[derive(Clone, Debug)]
pub(in crate::ui) struct Asked {
    pub(in crate::ui) source: Source,
    /// What the student chose; without it the file is read as found, or as one like it before.
    pub(in crate::ui) choices: Option<Choices>,
    /// The shape as found without any choice, once known.
    pub(in crate::ui) found: Option<TextShape>,
}
