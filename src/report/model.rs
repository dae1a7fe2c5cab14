//! The report a student hands in, as plain data: the page only lays it out.

use super::{SavedRecording, SavedWork};
use crate::analysis::Reading;
use crate::signal::{Landmarks, SampleSpan};
use crate::words::Language;

/// Everything that stands in a report, in the order of the page. All texts are in its language.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// The headline.
    pub title: String,
    /// The student's code, as entered; may be empty.
    pub student: String,
    /// What the student wrote; may be empty.
    pub remark: String,
    /// Facts about the recording: label and value.
    pub facts: Vec<(String, String)>,
    /// What was repaired, guessed or found wrong with the signal, one sentence each.
    pub notes: Vec<String>,
    /// How it was measured: each filter and detector by name, one sentence each.
    pub method: Vec<String>,
    /// What to draw; `None` while no beat is chosen.
    pub figures: Option<Figures>,
    /// The results, ready to print.
    pub results: Vec<ResultLine>,
    /// What the student answered, point by point.
    pub placements: Vec<PlacementLine>,
    /// The cautions that belong to every report.
    pub cautions: Vec<String>,
    /// The publications that values and methods come from.
    pub sources: Vec<String>,
}

/// What the figures show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// A stretch of the trace around the chosen beat, some beats long.
    pub strip: SampleSpan,
    /// The chosen cycle.
    pub cycle: SampleSpan,
    /// The student's own marks.
    pub own: Landmarks,
    /// What the analysis found in this beat.
    pub computed: Landmarks,
}

/// One row of the results, in words and figures. A value that can't be given is a dash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResultLine {
    /// What was measured, with its unit.
    pub quantity: String,
    /// The student's value.
    pub own: String,
    /// The computed value of the same beat, with the uncertainty from sampling.
    pub computed: String,
    /// Median, spread and count over all beats that count.
    pub all_beats: String,
    /// Typical resting values: whom for, and from where.
    pub typical: Vec<String>,
    /// The question to ask when the student's value is far out.
    pub question: Option<String>,
}

/// One point and how it was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacementLine {
    /// The point.
    pub landmark: String,
    /// The student's mark: its time from the first sample, 'not here', or a dash.
    pub own: String,
    /// How many tries it took.
    pub tries: usize,
    /// The last verdict, in words; a dash when it was never checked.
    pub verdict: String,
    /// Said when the worked answer was looked at.
    pub revealed: Option<String>,
}

impl Report {
    /// Puts a report together. `notes` are what the reader of the file guessed or repaired.
    pub fn of(
        work: &SavedWork,
        from: &SavedRecording,
        reading: &Reading,
        notes: &[String],
        language: Language,
    ) -> Self {
        let _ = (reading, language);
        Self {
            title: from.file.clone(),
            student: work.student.clone(),
            remark: work.remark.clone(),
            facts: Vec::new(),
            notes: notes.to_vec(),
            method: Vec::new(),
            figures: None,
            results: Vec::new(),
            placements: Vec::new(),
            cautions: Vec::new(),
            sources: Vec::new(),
        }
    }
}
