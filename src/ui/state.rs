//! What is open, what was found in it, and what the student did: the page's whole state.
//!
//! All signals are made once, at the root; screens and parts read them through the context.

use super::bench::BenchState;
use super::browser::{Drawer, PageKept, Shelf, Store};
use super::class::ClassState;
use super::hand_ins::HandInsState;
use super::homework::HomeworkState;
use super::paper::Paper;
use super::presenting::Display;
use super::setting::SettingState;
use crate::worker::{Analyst, RateWanted, Stage};
use beatwalk::analysis::{Corrected, Reading};
use beatwalk::chart::{Bounds, Palette, Viewport};
use beatwalk::formats::{Choices, KnownShapes, TextLayout, TextShape};
use beatwalk::lesson::{BeatDeed, BeatEditor, BeatRefusal, Evidence, Lesson, Refusal};
use beatwalk::report::{Report, SavedRecording, SavedWork};
use beatwalk::signal::{Envelope, Mark, Recording, SampleRate, VoltageUnit};
use beatwalk::words::{self, Language, Phrase};
use gloo_file::File;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The screens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// Prepare a recording, before there is one.
    Prepare,
    /// Open a recording.
    Open,
    /// See the trace and its beats.
    See,
    /// Read one beat.
    Walk,
    /// What came out.
    Results,
    /// What changes in a heartbeat, and by how much.
    Investigate,
    /// The numbers of many recordings together.
    Class,
    /// What a teacher set, to be done.
    Homework,
    /// What a teacher is about to set.
    Set,
    /// What was handed in, to be marked.
    HandIns,
}

impl Screen {
    /// The steps of the lesson, in order; the preparation comes before all of them.
    pub const STEPS: [Self; 4] = [Self::Open, Self::See, Self::Walk, Self::Results];

    /// The message that names it.
    pub fn name_key(self) -> &'static str {
        match self {
            Self::Prepare => "prepare.title",
            Self::Open => "page.screen.open",
            Self::See => "page.screen.see",
            Self::Walk => "page.screen.walk",
            Self::Results => "page.screen.results",
            Self::Investigate => "bench.title",
            Self::Class => "class.title",
            Self::Homework => "tasks.title",
            Self::Set => "tasks.set.title",
            Self::HandIns => "hand_ins.title",
        }
    }
}

/// Something that went wrong, told calmly.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub what: Phrase,
    /// What to do.
    pub remedy: Phrase,
}

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
pub(super) struct Asked {
    pub(super) source: Source,
    /// What the student chose; without it the file is read as found, or as one like it before.
    pub(super) choices: Option<Choices>,
    /// The shape as found without any choice, once known.
    pub(super) found: Option<TextShape>,
}

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

/// Whether work is being kept in this browser.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// Not asked yet.
    Unknown,
    /// Everything is stored.
    Kept,
    /// The browser does not let us.
    Refused,
    /// The last change found no room.
    Full,
}

/// The state, handed to every component through the context.
#[derive(Clone, Copy)]
pub struct App {
    /// The language of the page.
    pub language: RwSignal<Language>,
    /// Where the student is.
    pub screen: RwSignal<Screen>,
    /// Whether the page is shown to a room.
    pub projector: RwSignal<bool>,
    /// What of the points a room sees.
    pub display: RwSignal<Display>,
    /// The paper on which the page is previewed.
    pub paper: RwSignal<Option<Paper>>,
    /// What the worker is at, and how far.
    pub job: RwSignal<Option<(Stage, f64)>>,
    /// What went wrong last.
    pub problem: RwSignal<Option<Problem>>,
    /// A file that waits for its sampling rate.
    pub rate_wanted: RwSignal<Option<RateWanted>>,
    /// The file that is open.
    pub opened: RwSignal<Option<Arc<OpenFile>>>,
    /// The trace that is worked on.
    pub shown: RwSignal<Option<Arc<Shown>>>,
    /// What was found in it.
    pub reading: RwSignal<Option<Arc<Reading>>>,
    /// What was found in it, with corrections that are still being measured.
    pub standing: Memo<Option<Arc<Reading>>>,
    /// Corrects beats, and knows what can be taken back.
    pub editor: RwSignal<BeatEditor>,
    /// What was corrected last, or why it could not be.
    pub deed: RwSignal<Option<Result<BeatDeed, BeatRefusal>>>,
    /// The guided reading: what the student answered.
    pub lesson: RwSignal<Lesson>,
    /// What else the student wrote or chose; the answers in it are those of the last save.
    pub work: RwSignal<SavedWork>,
    /// Why the last wish in the guided reading was not carried out.
    pub refusal: RwSignal<Option<Refusal>>,
    /// The trace as it was recorded, ready to be kept.
    pub raw: RwSignal<Option<Arc<SavedRecording>>>,
    /// The part of the trace that is in view on the trace screen.
    pub view: RwSignal<Option<Viewport>>,
    /// The part that is in view while one beat is walked.
    pub walk_view: RwSignal<Option<Viewport>>,
    /// Whether work that was replaced by another recording can be brought back.
    pub replaced: RwSignal<bool>,
    /// Whether work is being kept.
    pub keeping: RwSignal<Keeping>,
    /// Shelves of work that a closed tab left behind.
    pub left_behind: RwSignal<BTreeSet<Shelf>>,
    /// What could not be written when it last changed.
    pub(super) unkept: StoredValue<BTreeSet<Drawer>>,
    /// What of the page itself is kept.
    pub page_kept: RwSignal<PageKept>,
    /// How text files of a known shape are read.
    pub(super) shapes: RwSignal<KnownShapes>,
    /// What was filled in last for the scale of a sensor.
    pub scale_before: RwSignal<Option<ScaleTyped>>,
    /// When corrected beats will be measured.
    pub(super) measuring: StoredValue<Option<TimeoutHandle>>,
    /// What lies on the bench of investigations.
    pub(super) bench_state: BenchState,
    /// What lies on the class desk.
    pub(super) class_state: ClassState,
    /// What a student does at home.
    pub(super) homework_state: HomeworkState,
    /// What a teacher is about to set.
    pub(super) setting_state: SettingState,
    /// What was handed in.
    pub(super) hand_ins_state: HandInsState,
    pub(super) analyst: StoredValue<Option<Analyst>, LocalStorage>,
    pub(super) store: StoredValue<Option<Store>, LocalStorage>,
    /// What was asked for last; it is open once the worker says so.
    pub(super) asked: StoredValue<Option<Asked>, LocalStorage>,
    /// What is open.
    pub(super) source: StoredValue<Option<Source>, LocalStorage>,
}

impl App {
    /// The state at the start; made once, at the root.
    pub fn new() -> Self {
        let (raw, reading) = (RwSignal::new(None), RwSignal::new(None));
        let work = RwSignal::new(SavedWork::default());
        Self {
            language: RwSignal::new(preferred_language()),
            screen: RwSignal::new(Screen::Open),
            projector: RwSignal::new(false),
            display: RwSignal::new(Display::default()),
            paper: RwSignal::new(None),
            job: RwSignal::new(None),
            problem: RwSignal::new(None),
            rate_wanted: RwSignal::new(None),
            opened: RwSignal::new(None),
            shown: RwSignal::new(None),
            reading,
            standing: Memo::new(move |_| standing(raw.get()?, reading.get()?, &work.read())),
            editor: RwSignal::new(BeatEditor::default()),
            deed: RwSignal::new(None),
            lesson: RwSignal::new(Lesson::default()),
            work,
            refusal: RwSignal::new(None),
            raw,
            view: RwSignal::new(None),
            walk_view: RwSignal::new(None),
            replaced: RwSignal::new(false),
            keeping: RwSignal::new(Keeping::Unknown),
            left_behind: RwSignal::new(BTreeSet::new()),
            unkept: StoredValue::new(BTreeSet::new()),
            page_kept: RwSignal::new(PageKept::No),
            shapes: RwSignal::new(KnownShapes::default()),
            scale_before: RwSignal::new(None),
            measuring: StoredValue::new(None),
            bench_state: BenchState::new(),
            class_state: ClassState::new(),
            homework_state: HomeworkState::new(),
            setting_state: SettingState::new(),
            hand_ins_state: HandInsState::new(),
            analyst: StoredValue::new_local(None),
            store: StoredValue::new_local(None),
            asked: StoredValue::new_local(None),
            source: StoredValue::new_local(None),
        }
    }

    /// The state, from the context.
    pub fn here() -> Self {
        expect_context()
    }

    /// Whether a screen has something to show.
    pub fn can_show(self, screen: Screen) -> bool {
        match screen {
            Screen::Prepare
            | Screen::Open
            | Screen::Investigate
            | Screen::Class
            | Screen::Homework
            | Screen::Set
            | Screen::HandIns => true,
            Screen::See => self.shown.read().is_some(),
            // The results show what the analysis measured on the very beat.
            Screen::Results if !self.help().verdicts => false,
            Screen::Walk | Screen::Results => {
                self.reading.read().as_ref().is_some_and(|reading| !reading.beats.is_empty())
            }
        }
    }

    /// Calls a function with the trace and what was found in it, once both are there.
    pub fn with_evidence<T>(self, act: impl FnOnce(Evidence<'_>) -> T) -> Option<T> {
        let (shown, reading) = (self.shown.get()?, self.reading.get()?);
        Some(act(Evidence { recording: &shown.recording, reading: &reading }))
    }

    /// The report on the work as it stands, once there is something to report.
    pub fn report(self) -> Option<Report> {
        let raw = self.raw.get()?;
        self.lesson.track();
        let language = self.language.get();
        self.with_evidence(|evidence| {
            let file = self.nameless().unwrap_or_else(|| raw.file.clone());
            let notes: Vec<Phrase> = match self.projector.get() {
                true => raw.notes.iter().map(Phrase::nameless).collect(),
                false => raw.notes.clone(),
            };
            Report::of(&self.work_now(), &file, evidence, &notes, language)
        })
    }

    /// Samples a second of the trace that is worked on.
    pub fn rate(self) -> Option<SampleRate> {
        self.shown.with(|shown| shown.as_ref().map(|shown| shown.recording.rate))
    }

    /// What one unit of its samples is.
    pub fn unit(self) -> Option<VoltageUnit> {
        self.shown.with(|shown| shown.as_ref().map(|shown| shown.recording.unit))
    }

    /// The colours for charts on the screen.
    pub fn palette(self) -> &'static Palette {
        if self.projector.get() { &Palette::PROJECTOR } else { &Palette::LIGHT }
    }
}

/// The language that the browser is set to, as far as the app speaks it.
pub(super) fn preferred_language() -> Language {
    let tag = web_sys::window().and_then(|window| window.navigator().language());
    tag.map_or_else(Language::default, |tag| Language::of_tag(&tag))
}

/// The reading with the beats as they stand now.
fn standing(
    raw: Arc<SavedRecording>,
    reading: Arc<Reading>,
    work: &SavedWork,
) -> Option<Arc<Reading>> {
    let edits = work.settings.beats_on(&raw.recording);
    if edits.is_empty() && reading.corrected == Corrected::default() {
        return Some(reading);
    }
    Some(Arc::new(reading.until_read_again(&edits, raw.recording.rate)))
}

/// The message under a key, in the language of the page, following it when it changes.
pub fn tr(key: &'static str) -> impl Fn() -> String + Copy + Send + 'static {
    let language = App::here().language;
    move || words::say(language.get(), key).into_owned()
}
