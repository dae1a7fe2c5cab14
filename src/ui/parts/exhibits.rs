//! The recordings with a flaw, made anew from their seeds and read: by a worker of their own, so that the
//! page stays at hand and what else is being read goes on.

use crate::ui::state::Shown;
use crate::worker::{Analyst, Answer, Trace};
use beatwalk::analysis::Reading;
use beatwalk::lesson::{Evidence, Specimen, flawed_stretch};
use beatwalk::signal::{Recording, SampleSpan};
use beatwalk::words::Phrase;
use leptos::prelude::*;
use std::sync::Arc;

/// A flawed recording.
#[derive(Clone)]
pub struct Exhibit {
    /// The recording.
    pub shown: Arc<Shown>,
    /// What was found in it.
    pub reading: Arc<Reading>,
    /// The stretch of it that is shown.
    pub stretch: SampleSpan,
}

impl Exhibit {
    fn of(recording: Recording, reading: Reading) -> Self {
        let stretch = flawed_stretch(Evidence { recording: &recording, reading: &reading });
        let shown = Arc::new(Shown::new(0, Arc::new(recording)));
        Self { shown, reading: Arc::new(reading), stretch }
    }

    /// What answers are judged against.
    pub fn evidence(&self) -> Evidence<'_> {
        Evidence { recording: &self.shown.recording, reading: &self.reading }
    }
}

/// What became of the recordings.
#[derive(Clone)]
pub enum Exhibits {
    /// They are being made.
    Awaited,
    /// Here they are, in the order of [`Specimen::ALL`].
    Ready(Vec<Exhibit>),
    /// They could not be made.
    Failed(Phrase),
}

impl Exhibits {
    /// Has them made; the worker ends with the component that asks for them.
    pub fn awaited() -> RwSignal<Self> {
        let exhibits = RwSignal::new(Self::Awaited);
        let analyst = Analyst::new(move |answer, samples| {
            if let Some(came) = Self::of(answer, samples) {
                exhibits.set(came);
            }
        });
        analyst.make(Specimen::ALL.map(|specimen| specimen.key().to_owned()).into());
        // Ends with the component.
        let _worker = StoredValue::new_local(analyst);
        exhibits
    }

    fn of(answer: Answer, samples: Vec<Vec<f32>>) -> Option<Self> {
        match answer {
            Answer::Made(made) => {
                let made = made.into_iter().zip(samples);
                let exhibit = |((trace, reading), samples): ((Trace, Reading), Vec<f32>)| {
                    Exhibit::of(trace.with_samples(samples), reading)
                };
                Some(Self::Ready(made.map(exhibit).collect()))
            }
            Answer::Failed { what, .. } => Some(Self::Failed(what)),
            _ => None,
        }
    }
}
