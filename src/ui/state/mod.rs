//! What is open, what was found in it, and what the student did: the page's whole state.
//!
//! All signals are made once, at the root; screens and parts read them through the context.

mod opened;
mod screen;
mod shown;

pub(in crate::ui) use opened::Asked;
pub use opened::{Memory, OpenFile, ScaleTyped, Source};
pub use screen::Screen;
pub use shown::Shown;

use crate::ui::bench::BenchState;
use crate::ui::browser::{Drawer, PageKept, Shelf, Store};
use crate::ui::class::ClassState;
use crate::ui::hand_ins::HandInsState;
use crate::ui::homework::HomeworkState;
use crate::ui::paper::Paper;
use crate::ui::presenting::Display;
use crate::ui::reactive::forget_the_gone;
use crate::ui::setting::SettingState;
use crate::worker::{Analyst, RateWanted, Stage};
use beatwalk::analysis::{Corrected, Reading};
use beatwalk::chart::{Palette, Viewport};
use beatwalk::formats::KnownShapes;
use beatwalk::lesson::{BeatDeed, BeatEditor, BeatRefusal, Evidence, Lesson, Refusal};
use beatwalk::report::{Report, SavedRecording, SavedWork};
use beatwalk::signal::{SampleRate, VoltageUnit};
use beatwalk::words::{self, Language, Phrase};
use leptos::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Something that went wrong, told calmly.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub what: Phrase,
    /// What to do.
    pub remedy: Phrase,
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
    pub(in crate::ui) unkept: StoredValue<BTreeSet<Drawer>>,
    /// What of the page itself is kept.
    pub page_kept: RwSignal<PageKept>,
    /// How text files of a known shape are read.
    pub(in crate::ui) shapes: RwSignal<KnownShapes>,
    /// What was filled in last for the scale of a sensor.
    pub scale_before: RwSignal<Option<ScaleTyped>>,
    /// When corrected beats will be measured.
    pub(in crate::ui) measuring: StoredValue<Option<TimeoutHandle>>,
    /// What lies on the bench of investigations.
    pub(in crate::ui) bench_state: BenchState,
    /// What lies on the class desk.
    pub(in crate::ui) class_state: ClassState,
    /// What a student does at home.
    pub(in crate::ui) homework_state: HomeworkState,
    /// What a teacher is about to set.
    pub(in crate::ui) setting_state: SettingState,
    /// What was handed in.
    pub(in crate::ui) hand_ins_state: HandInsState,
    pub(in crate::ui) analyst: StoredValue<Option<Analyst>, LocalStorage>,
    pub(in crate::ui) store: StoredValue<Option<Store>, LocalStorage>,
    /// What was asked for last; it is open once the worker says so.
    pub(in crate::ui) asked: StoredValue<Option<Asked>, LocalStorage>,
    /// What is open.
    pub(in crate::ui) source: StoredValue<Option<Source>, LocalStorage>,
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

    /// Lets go of what the screen that was left followed. Called before the next one is there, so that little runs
    /// again.
    pub(in crate::ui) fn forget_the_screen_before(self) {
        forget_the_gone(self.language);
        forget_the_gone(self.projector);
        forget_the_gone(self.display);
        forget_the_gone(self.opened);
        forget_the_gone(self.shown);
        forget_the_gone(self.reading);
        forget_the_gone(self.view);
        forget_the_gone(self.replaced);
    }

    /// The colours for charts on the screen.
    pub fn palette(self) -> &'static Palette {
        if self.projector.get() { &Palette::PROJECTOR } else { &Palette::LIGHT }
    }
}

/// The language that the browser is set to, as far as the app speaks it.
pub(in crate::ui) fn preferred_language() -> Language {
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
