//! The report a student hands in, as plain data: the page only lays it out.
//!
//! Every number is rounded here once, so that the screen and the paper say the same.

use super::lines::{corrected_lines, facts, main_lines, notes_on, placements};
use super::{SavedWork, Understood};
use crate::lesson::{Caution, Evidence, RangeSource, ResultsTable, Session};
use crate::signal::{Landmarks, SampleSpan, Seconds};
use crate::words::{Language, Phrase, say, say_all};

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
    /// What was repaired or guessed, and what is wrong with the signal, one sentence each.
    pub notes: Vec<String>,
    /// How it was measured: each filter and detector by name, one sentence each.
    pub method: Vec<String>,
    /// What to draw; `None` while no beat is chosen.
    pub figures: Option<Figures>,
    /// The results, ready to print; of the formulas for QTc only Bazett's, which most ranges are for.
    pub results: Vec<ResultLine>,
    /// QTc by every formula, ready to print.
    pub corrected: Vec<ResultLine>,
    /// What the student answered, point by point, in the order of the lesson.
    pub placements: Vec<PlacementLine>,
    /// What was understood: a score for each part, and the points of the final check.
    pub understood: Understood,
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
    /// The student's own marks, in samples of the recording.
    pub own: Landmarks,
    /// What the analysis found in this beat, in samples of the recording.
    pub computed: Landmarks,
}

/// One row of the results, ready to print. A value that can't be given is a dash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResultLine {
    /// What was measured, with its unit.
    pub quantity: String,
    /// What it is, and when it misleads.
    pub explained: String,
    /// The student's value, with its expanded uncertainty (k = 2), as in the two that follow.
    pub own: String,
    /// The computed value of the same beat.
    pub computed: String,
    /// Median, spread and count over all beats that count.
    pub all_beats: String,
    /// Typical resting values: whom for, and from where.
    pub typical: Vec<String>,
    /// The question to ask when the student's value is far out.
    pub question: Option<String>,
}

impl ResultLine {
    /// The messages above the columns of the results.
    pub const HEADS: [&'static str; 5] =
        Self::heads("page.results.quantity", "page.results.typical");
    /// The messages above the columns of QTc by every formula.
    pub const CORRECTED_HEADS: [&'static str; 5] =
        Self::heads("page.results.formula", "page.results.misleads");

    const fn heads(first: &'static str, last: &'static str) -> [&'static str; 5] {
        [first, "page.results.own", "page.results.computed", "page.results.all_beats", last]
    }
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

impl PlacementLine {
    /// The messages above its columns.
    pub const HEADS: [&'static str; 5] = [
        "page.results.point",
        "page.results.mark",
        "page.results.tries",
        "page.results.verdict",
        "page.results.revealed",
    ];

    /// Its columns.
    pub fn cells(&self) -> Vec<String> {
        let revealed = self.revealed.clone().unwrap_or_default();
        let tries = self.tries.to_string();
        vec![self.landmark.clone(), self.own.clone(), tries, self.verdict.clone(), revealed]
    }
}

/// How the analysis works, in the order of its steps; texts in `src/words/report.yml`.
const METHOD: [&str; 7] = [
    "report.method.trace",
    "report.method.beats",
    "report.method.waves",
    "report.method.one_beat",
    "report.method.averages",
    "report.method.corrected_qt",
    "report.method.limits",
];

/// Publications behind the methods, beside those behind the ranges.
const SOURCES: [&str; 12] = [
    "report.source.pan_tompkins_1985",
    "report.source.hamilton_2002",
    "report.source.martinez_2004",
    "report.source.cse_1985",
    "report.source.bazett_1920",
    "report.source.fridericia_1920",
    "report.source.sagie_1992",
    "report.source.hodges_1983",
    "report.source.vandenberk_2016",
    "report.source.phan_2015",
    "report.source.qt_lag",
    "report.source.jcgm_2008",
];

/// How much of the trace the strip shows: 10 s, as on a standard printout.
const STRIP: Seconds = Seconds::new(10.0);
/// What the cycle shows before and after R. P begins up to 0.3 s before it, T ends up to 0.6 s after it.
const CYCLE: (Seconds, Seconds) = (Seconds::new(0.4), Seconds::new(0.7));

impl Report {
    /// Puts a report together. `evidence` is the recording that is worked on and what was found in it;
    /// `notes` are what the reader of the file guessed or repaired.
    pub fn of(
        work: &SavedWork,
        file: &str,
        evidence: Evidence<'_>,
        notes: &[Phrase],
        language: Language,
    ) -> Self {
        let results = ResultsTable::of(&work.session, evidence);
        let mut sources: Vec<String> = RangeSource::ALL
            .iter()
            .map(|source| say(language, source.name_key()).into_owned())
            .collect();
        sources.extend(say_all(language, &SOURCES));
        Self {
            title: say(language, "report.title").into_owned(),
            student: work.student.clone(),
            remark: work.remark.clone(),
            facts: facts(work, file, evidence, language),
            notes: notes
                .iter()
                .map(|note| note.in_words(language))
                .chain(notes_on(evidence, language))
                .collect(),
            method: say_all(language, &METHOD),
            figures: Figures::of(&work.session, evidence),
            results: main_lines(&results, language),
            corrected: corrected_lines(&results, language),
            placements: placements(&work.session, evidence.recording.rate, language),
            understood: Understood::of(&work.session, evidence.recording.rate, language),
            cautions: Caution::ON_RESULTS
                .iter()
                .map(|caution| caution.words(language).text.into_owned())
                .collect(),
            sources,
        }
    }
}

impl Figures {
    /// What to draw of the chosen beat; `None` while none is chosen.
    pub fn of(session: &Session, evidence: Evidence<'_>) -> Option<Self> {
        let (_, beat) = evidence.chosen(session)?;
        let rate = evidence.recording.rate;
        let samples = evidence.recording.samples.len();
        let r = beat.r.get();
        let around = |before: usize, after: usize| {
            SampleSpan::new(r.saturating_sub(before), (r + after + 1).min(samples))
        };
        let half = rate.count(STRIP) / 2;
        Some(Self {
            strip: around(half, half),
            cycle: around(rate.count(CYCLE.0), rate.count(CYCLE.1)),
            own: session.marks(),
            computed: beat.landmarks,
        })
    }
}
