//! What the page asks and the worker answers.
//!
//! Control travels in a compact form; bytes and samples travel beside it as transferred buffers, in the order
//! in which the message names them.

use super::wire::as_json;
use beatwalk::analysis::{BeatEdits, Reading};
use beatwalk::formats::{Choices, How, KnownShapes, Note, TextLayout, TextShape};
use beatwalk::homework::Marked;
use beatwalk::report::PoolEntry;
use beatwalk::signal::{Hole, Mark, Recording, SampleRate, VoltageUnit};
use beatwalk::words::Phrase;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What the page wants done.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Request {
    /// Open these files; one buffer of bytes each.
    Open {
        /// The names of the files.
        names: Vec<String>,
        /// How to read it.
        #[serde(with = "as_json")]
        how: How,
    },
    /// Make the invented recording with this key and open it.
    Demo {
        /// Which one.
        key: String,
        /// How to read it.
        #[serde(with = "as_json")]
        how: How,
    },
    /// Take the numbers of one file for the table of a class; one buffer of bytes.
    Pool {
        /// The name of the file.
        name: String,
        /// How files of a known shape are read.
        #[serde(with = "as_json")]
        known: KnownShapes,
    },
    /// Mark hand-ins; one buffer of text for the teacher's copy of the assignment, then one for each hand-in.
    Mark {
        /// The names of the files.
        names: Vec<String>,
        /// Whether hand-ins for another copy of the assignment are marked too.
        takes_others: bool,
    },
    /// Make the invented recordings with these keys and read them.
    Make {
        /// Which ones.
        keys: Vec<String>,
    },
    /// Find and measure the beats; one buffer of samples.
    Read {
        /// The trace without its samples.
        trace: Trace,
        /// What was corrected about its beats.
        #[serde(with = "as_json")]
        edits: BeatEdits,
    },
}

/// What the worker has to say.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Answer {
    /// It has started and takes requests.
    Ready,
    /// How far the job has come, from 0 to 1.
    Progress(Stage, f64),
    /// The files are open; one buffer of samples for each trace.
    Opened(Opened),
    /// There are values, but no sampling rate.
    RateWanted(RateWanted),
    /// The numbers of a file for the table of a class.
    Pooled(Vec<PoolEntry>),
    /// A hand-in was marked; they come in the order of their names.
    #[serde(with = "as_json")]
    Marked(Box<Marked>),
    /// The recordings were made and read, in the order of their keys; one buffer of samples for each.
    Made(Vec<(Trace, Reading)>),
    /// The beats were found and measured.
    Read(Box<Reading>),
    /// It can't be done.
    Failed {
        /// What is wrong.
        #[serde(with = "as_json")]
        what: Phrase,
        /// What to do.
        #[serde(with = "as_json")]
        remedy: Phrase,
    },
}

/// What the worker is at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Stage {
    /// Reading the file.
    Opening,
    /// Finding and measuring beats.
    Reading,
}

impl Stage {
    /// The message that says it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Opening => "page.job.opening",
            Self::Reading => "page.job.reading",
        }
    }
}

/// Opened files without their samples.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opened {
    /// The file the traces came from.
    pub file: String,
    /// The traces.
    pub traces: Vec<Trace>,
    /// Which trace to start with.
    pub suggested: usize,
    /// What was guessed or repaired.
    #[serde(with = "as_json")]
    pub notes: Vec<Phrase>,
    /// How a text file was understood.
    #[serde(with = "as_json")]
    pub layout: Option<TextLayout>,
    /// Its shape as found without any choice; `None` where the student chose.
    #[serde(with = "as_json")]
    pub found: Option<TextShape>,
    /// The choices it was read with.
    #[serde(with = "as_json")]
    pub choices: Choices,
}

/// The recordings of an opened file: heads and samples come in the same order.
pub fn recordings(heads: Vec<Trace>, samples: Vec<Vec<f32>>) -> Vec<Arc<Recording>> {
    let both = heads.into_iter().zip(samples);
    both.map(|(head, samples)| Arc::new(head.with_samples(samples))).collect()
}

/// A recording without its samples.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Trace {
    /// What the file calls it.
    pub name: String,
    /// Samples a second.
    pub rate: SampleRate,
    /// What one unit of a sample is.
    pub unit: VoltageUnit,
    /// Stretches without data.
    pub holes: Vec<Hole>,
    /// Marks that came with it.
    pub marks: Vec<Mark>,
}

impl Trace {
    /// A recording, without its samples.
    pub fn of(recording: &Recording) -> Self {
        Self {
            name: recording.name.clone(),
            rate: recording.rate,
            unit: recording.unit,
            holes: recording.holes.clone(),
            marks: recording.marks.clone(),
        }
    }

    /// The recording again, with its samples.
    pub fn with_samples(self, samples: Vec<f32>) -> Recording {
        let Self { name, rate, unit, holes, marks } = self;
        Recording { name, rate, unit, samples: samples.into(), holes, marks }
    }
}

/// A file that does not say how fast it was sampled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RateWanted {
    /// The file.
    pub file: String,
    /// How many values it holds.
    pub samples: usize,
    /// Between which rates the trace would be a heart.
    pub plausible_hz: Option<(f64, f64)>,
    /// What was guessed or repaired.
    #[serde(with = "as_json")]
    pub notes: Vec<Phrase>,
    /// How a text file was understood.
    #[serde(with = "as_json")]
    pub layout: Option<TextLayout>,
    /// Its shape as found without any choice; `None` where the student chose.
    #[serde(with = "as_json")]
    pub found: Option<TextShape>,
    /// The choices it was read with.
    #[serde(with = "as_json")]
    pub choices: Choices,
}

/// Notes as the page says them.
pub(super) fn said(notes: &[Note]) -> Vec<Phrase> {
    notes.iter().map(Note::said).collect()
}
