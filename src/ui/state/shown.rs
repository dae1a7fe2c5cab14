//! The trace that is worked on, ready to be drawn.

use beatwalk::chart::Bounds;
use beatwalk::signal::{Envelope, Mark, Recording};
use std::sync::Arc;

/// A trace as it was before it was cleaned.
#[derive(Clone, Debug)]
pub struct Uncleaned {
    /// The trace.
    pub recording: Arc<Recording>,
    /// What it looks like from afar.
    pub envelope: Arc<Envelope>,
}

/// The trace that is worked on.
#[derive(Debug)]
pub struct Shown {
    /// Its place among the traces of the file.
    pub trace: usize,
    /// The trace.
    pub recording: Arc<Recording>,
    /// What it looks like from afar.
    pub envelope: Arc<Envelope>,
    /// The trace before anything was taken out of it; `None` when nothing was.
    pub uncleaned: Option<Uncleaned>,
    /// How far one can scroll.
    pub bounds: Bounds,
}

impl Shown {
    /// Prepares a trace for the screen.
    pub fn new(trace: usize, recording: Arc<Recording>) -> Self {
        let envelope = Arc::new(Envelope::new(recording.samples.clone()));
        let bounds = Bounds::of(&envelope, recording.rate);
        Self { trace, recording, envelope, uncleaned: None, bounds }
    }

    /// The same, with the trace that it is a quieter copy of.
    pub fn with_uncleaned(self, recording: Arc<Recording>) -> Self {
        let envelope = Arc::new(Envelope::new(recording.samples.clone()));
        Self { uncleaned: Some(Uncleaned { recording, envelope }), ..self }
    }

    /// The taller of what is drawn: a quieter copy lies within the trace as it was.
    pub fn tallest(&self) -> &Envelope {
        self.uncleaned.as_ref().map_or(&self.envelope, |uncleaned| &uncleaned.envelope)
    }

    /// The same samples with other marks on them.
    pub fn with_marks(&self, marks: Vec<Mark>) -> Self {
        let recording = Arc::new(Recording { marks, ..(*self.recording).clone() });
        Self {
            recording,
            envelope: self.envelope.clone(),
            uncleaned: self.uncleaned.clone(),
            ..*self
        }
    }
}
