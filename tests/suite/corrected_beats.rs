//! Beats corrected by hand: what is measured follows them, and all of it can be taken back.
//!
//! Traces are invented, so that the true beats are known ([`super::invented`]).

use super::invented::{Shape, even, trace};
use beatwalk::analysis::{
    BeatEdits, Corrected, Origin, Reading, Standing, WhySetAside, closest, read, read_corrected,
    rhythm,
};
use beatwalk::lesson::{
    BeatCommand, BeatDeed, BeatEditor, BeatRefusal, Command, Evidence, Grip, Lesson, ResultsTable,
};
use beatwalk::report::{SavedRecording, SavedWork, Settings, results_csv};
use beatwalk::signal::{Landmark, Recording, SampleIndex, SampleSpan};
use proptest::prelude::*;
use std::sync::LazyLock;

/// 16 s at 75 beats a minute, 250 samples a second, in which the tenth beat is too small to be found.
static HEART: LazyLock<Recording> = LazyLock::new(|| {
    let shape = |beat| {
        let mut shape = Shape::ordinary(0.8);
        if beat == 9 {
            shape.qrs.iter_mut().for_each(|bell| bell.height *= 0.04);
        }
        shape
    };
    trace(&even(0.8, 16.0, shape), 16.0, 250.0, 0.004, true)
});

static FOUND: LazyLock<Reading> = LazyLock::new(|| read(&HEART, &mut ()));

/// A student at work on a recording, as the page does it, without waiting for the trace to be read.
struct Desk<'a> {
    recording: &'a Recording,
    reading: Reading,
    editor: BeatEditor,
    settings: Settings,
    raw: &'a Recording,
}

impl<'a> Desk<'a> {
    fn on(recording: &'a Recording, reading: &Reading) -> Self {
        let (editor, settings) = (BeatEditor::default(), Settings::default());
        Self { recording, reading: reading.clone(), editor, settings, raw: recording }
    }

    fn apply(&mut self, command: BeatCommand) -> Result<BeatDeed, BeatRefusal> {
        let evidence = Evidence { recording: self.recording, reading: &self.reading };
        let first = self.settings.first_sample();
        let deed = self.editor.apply(command, &mut self.settings.beats, first, evidence);
        let edits = self.settings.beats_on(self.raw);
        self.reading = self.reading.until_read_again(&edits, self.recording.rate);
        deed
    }

    fn read_again(&self) -> Reading {
        read_corrected(self.recording, &self.settings.beats_on(self.raw), &mut ())
    }

    /// R of a beat, the first being 0.
    fn r(&self, beat: usize) -> SampleIndex {
        self.reading.beats[beat].r
    }
}

fn at(seconds: f64) -> SampleIndex {
    SampleIndex::new((seconds * 250.0).round() as usize)
}

fn rate(reading: &Reading) -> f64 {
    reading.intervals.rate_bpm.unwrap().value
}

#[test]
fn without_corrections_the_reading_is_that_of_the_detector() {
    assert_eq!(read_corrected(&HEART, &BeatEdits::default(), &mut ()), *FOUND);
    let places: Vec<_> = FOUND.beats.iter().map(|beat| beat.r).collect();
    assert_eq!((places, FOUND.corrected), (FOUND.found.clone(), Corrected::default()));
}

#[test]
fn a_missed_beat_is_added_on_its_crest_and_measured_like_any_other() {
    let truth = at(0.6137 + 9.0 * 0.8);
    assert_eq!(FOUND.beats.len(), 18, "the tenth of 19 is too small for the detector");
    let late = Standing::SetAside(WhySetAside::Late);
    assert_eq!(FOUND.beats[9].standing, late);
    let mut desk = Desk::on(&HEART, &FOUND);
    let Ok(BeatDeed::Added { at, off }) = desk.apply(BeatCommand::Add(truth.offset(-6))) else {
        panic!("it can be added")
    };
    assert!(at.minus(truth).abs() <= 1 && (5..=7).contains(&off), "{at:?} {off}");
    let again = desk.read_again();
    let beat = again.beats[9];
    assert_eq!((beat.r, beat.origin), (at, Origin::Added));
    assert!(beat.landmarks.at(Landmark::TPeak).is_some(), "its waves are measured");
    // Its complex is small, but its time is right, and the one after it is no longer late.
    assert_eq!(again.beats[10].standing, Standing::Counts);
    assert_eq!(again.found, FOUND.found);
    assert_eq!(again.corrected, Corrected { added: 1, ..Corrected::default() });
}

#[test]
fn the_table_of_results_says_what_was_corrected() {
    let mut desk = Desk::on(&HEART, &FOUND);
    desk.apply(BeatCommand::Add(at(0.6137 + 9.0 * 0.8))).unwrap();
    let usual = desk.r(3);
    desk.apply(BeatCommand::LeaveOut(usual)).unwrap();
    let reading = desk.read_again();
    let evidence = Evidence { recording: &HEART, reading: &reading };
    let last_cells = |beat: usize| {
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(reading.beats[beat].r), evidence).unwrap();
        let results = ResultsTable::of(lesson.session(), evidence);
        let csv = results_csv(&SavedWork::default(), "a.csv", &results);
        let lines = csv.lines().skip(1).map(str::to_owned);
        let cells = lines.map(|line| line.rsplitn(3, ',').take(2).collect::<Vec<_>>().join(" "));
        let mut cells: Vec<String> = cells.collect();
        cells.dedup();
        cells
    };
    assert_eq!(last_cells(9), ["2 added"]);
    assert_eq!(last_cells(5), ["2 found"]);
}

#[test]
fn the_rate_follows_the_beats_that_stand() {
    let mut desk = Desk::on(&HEART, &FOUND);
    assert!((rate(&FOUND) - 75.0).abs() < 0.1);
    // Every second beat of the first eight is said to be none: three true intervals of 1.6 s.
    for beat in [1, 2, 3, 4] {
        let r = desk.r(beat);
        desk.apply(BeatCommand::TakeAway(r)).unwrap();
    }
    let again = desk.read_again();
    assert_eq!(again.beats.len(), 14);
    assert!(rate(&again) < 74.0, "{}", rate(&again));
    let n = |reading: &Reading| rhythm(reading.series(&HEART)).variability.unwrap().n;
    assert!(n(&again) < n(&FOUND));
    // A beat that is moved by 20 ms makes one interval longer and the other shorter.
    let mut desk = Desk::on(&HEART, &FOUND);
    let beat = desk.r(5);
    desk.apply(BeatCommand::Move { beat, to: beat.offset(5), grip: Grip::Fresh }).unwrap();
    let again = desk.read_again();
    let (before, after) = (rhythm(FOUND.series(&HEART)), rhythm(again.series(&HEART)));
    let change = |i: usize| (after.intervals[i].rr - before.intervals[i].rr).milliseconds();
    assert!((change(4) - 20.0).abs() < 1e-9 && (change(5) + 20.0).abs() < 1e-9);
    assert!(after.variability.unwrap().sdnn > before.variability.unwrap().sdnn);
}

#[test]
fn the_student_has_the_last_word_on_what_counts() {
    let mut desk = Desk::on(&HEART, &FOUND);
    let (late, usual) = (desk.r(9), desk.r(3));
    desk.apply(BeatCommand::Count(late)).unwrap();
    desk.apply(BeatCommand::LeaveOut(usual)).unwrap();
    let again = desk.read_again();
    assert_eq!(again.beats[9].standing, Standing::Counts);
    assert_eq!(again.beats[3].standing, Standing::SetAside(WhySetAside::ByHand));
    assert_eq!(again.corrected, Corrected { counted: 1, left_out: 1, ..Corrected::default() });
    desk.apply(BeatCommand::Count(usual)).unwrap();
    desk.apply(BeatCommand::LeaveOut(late)).unwrap();
    assert_eq!(desk.read_again(), *FOUND);
}

#[test]
fn corrections_stay_on_the_trace_when_the_part_changes() {
    let mut work = SavedWork::default();
    let mut desk = Desk::on(&HEART, &FOUND);
    for (beat, by) in [(2, 4), (12, -3)] {
        let r = desk.r(beat);
        desk.apply(BeatCommand::Move { beat: r, to: r.offset(by), grip: Grip::Fresh }).unwrap();
    }
    work.settings = desk.settings.clone();
    let whole = desk.read_again();
    let part = SampleSpan::new(at(4.0).get(), at(14.0).get());
    work.use_part(Some(part), HEART.samples.len());
    let taken = work.settings.prepare(&HEART);
    let edits = work.settings.beats_on(&HEART);
    let again = read_corrected(&taken, &edits, &mut ());
    assert_eq!(again.corrected, Corrected { moved: 1, ..Corrected::default() });
    let moved = again.beats.iter().find(|beat| beat.origin == Origin::Moved).unwrap();
    assert_eq!(moved.r.get() + part.start().get(), whole.beats[12].r.get());
    // A correction made on the part is one of the whole.
    let mut on_part = Desk {
        recording: &taken,
        reading: again,
        editor: BeatEditor::default(),
        settings: work.settings.clone(),
        raw: &HEART,
    };
    let first = on_part.r(0);
    on_part.apply(BeatCommand::TakeAway(first)).unwrap();
    work.settings = on_part.settings;
    work.use_part(None, HEART.samples.len());
    let all = read_corrected(&HEART, &work.settings.beats_on(&HEART), &mut ());
    assert_eq!(all.corrected, Corrected { moved: 2, taken_away: 1, ..Corrected::default() });
    assert!(all.beats.iter().all(|beat| beat.r.get() != first.get() + part.start().get()));
}

#[test]
fn corrections_survive_turning_over_and_cleaning() {
    let mut desk = Desk::on(&HEART, &FOUND);
    let (third, fifth) = (desk.r(2), desk.r(4));
    desk.apply(BeatCommand::TakeAway(third)).unwrap();
    desk.apply(BeatCommand::Move { beat: fifth, to: fifth.offset(2), grip: Grip::Fresh }).unwrap();
    desk.settings.orientation = desk.settings.orientation.turned();
    let turned = desk.settings.prepare(&HEART);
    let again = read_corrected(&turned, &desk.settings.beats_on(&HEART), &mut ());
    assert_eq!(again.corrected.all(), 2);
    assert!(again.beats.iter().any(|beat| beat.r == fifth.offset(2)));
    assert!(!again.beats.iter().any(|beat| beat.r.minus(third).abs() < 20));
}

/// A command about one of the beats or a place on the trace.
#[derive(Clone, Copy, Debug)]
enum Wish {
    Add(usize),
    Move(usize, usize, bool),
    TakeAway(usize),
    LeaveOut(usize),
    Count(usize),
    Other(BeatCommand),
}

impl Wish {
    /// The command; beats are named by their place among those that stand now.
    fn command(self, reading: &Reading) -> BeatCommand {
        let r = |beat: usize| {
            let count = reading.beats.len().max(1);
            reading.beats.get(beat % count).map_or(SampleIndex::new(0), |beat| beat.r)
        };
        match self {
            Self::Add(at) => BeatCommand::Add(SampleIndex::new(at)),
            Self::Move(beat, to, held) => BeatCommand::Move {
                beat: r(beat),
                to: SampleIndex::new(to),
                grip: if held { Grip::Held } else { Grip::Fresh },
            },
            Self::TakeAway(beat) => BeatCommand::TakeAway(r(beat)),
            Self::LeaveOut(beat) => BeatCommand::LeaveOut(r(beat)),
            Self::Count(beat) => BeatCommand::Count(r(beat)),
            Self::Other(command) => command,
        }
    }
}

fn any_wish() -> impl Strategy<Value = Wish> {
    prop_oneof![
        3 => (0usize..4200).prop_map(Wish::Add),
        3 => (0usize..40, 0usize..4200, any::<bool>()).prop_map(|(a, b, c)| Wish::Move(a, b, c)),
        2 => (0usize..40).prop_map(Wish::TakeAway),
        1 => (0usize..40).prop_map(Wish::LeaveOut),
        1 => (0usize..40).prop_map(Wish::Count),
        1 => Just(Wish::Other(BeatCommand::PutAllBack)),
        1 => Just(Wish::Other(BeatCommand::Undo)),
        1 => Just(Wish::Other(BeatCommand::Redo)),
    ]
}

/// A desk after some wishes; a refused one has changed nothing.
fn desk_after(wishes: &[Wish]) -> Desk<'static> {
    let mut desk = Desk::on(&HEART, &FOUND);
    for wish in wishes {
        let command = wish.command(&desk.reading);
        let before = (desk.settings.clone(), desk.reading.clone());
        if desk.apply(command).is_err() {
            assert_eq!((desk.settings.clone(), desk.reading.clone()), before, "{command:?}");
        }
    }
    desk
}

/// Everything about beats that needs no measuring.
fn standing_beats(reading: &Reading) -> (Vec<(SampleIndex, Origin)>, Corrected) {
    let beats = reading.beats.iter().map(|beat| (beat.r, beat.origin)).collect();
    (beats, reading.corrected)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn taking_everything_back_leaves_the_detectors_beats(
        wishes in proptest::collection::vec(any_wish(), 0..40),
    ) {
        let mut desk = desk_after(&wishes);
        while desk.editor.can_redo() {
            desk.apply(BeatCommand::Redo).unwrap();
        }
        let all = desk.settings.clone();
        while desk.editor.can_undo() {
            desk.apply(BeatCommand::Undo).unwrap();
        }
        prop_assert!(desk.settings.beats.is_empty());
        prop_assert_eq!(standing_beats(&desk.reading), standing_beats(&FOUND));
        while desk.editor.can_redo() {
            desk.apply(BeatCommand::Redo).unwrap();
        }
        prop_assert_eq!(desk.settings, all);
    }

    #[test]
    fn reading_again_finds_the_beats_where_the_page_has_drawn_them(
        wishes in proptest::collection::vec(any_wish(), 0..30),
    ) {
        let desk = desk_after(&wishes);
        let again = desk.read_again();
        prop_assert_eq!(standing_beats(&again), standing_beats(&desk.reading));
        prop_assert_eq!(&again.found, &FOUND.found);
        let apart = again.beats.windows(2).map(|pair| pair[1].r.minus(pair[0].r).unsigned_abs());
        prop_assert!(apart.min().is_none_or(|apart| apart >= closest(HEART.rate)));
        prop_assert!(again.beats.iter().all(|beat| beat.r.get() < HEART.samples.len()));
    }

    #[test]
    fn corrected_work_is_opened_as_it_was_saved(
        wishes in proptest::collection::vec(any_wish(), 0..40), part in any::<bool>(),
    ) {
        let mut work = SavedWork::default();
        work.settings = desk_after(&wishes).settings;
        if part {
            work.use_part(Some(SampleSpan::new(1000, 3000)), HEART.samples.len());
        }
        let opened = SavedWork::from_json(&work.to_json().unwrap()).unwrap();
        prop_assert_eq!(&opened, &work);
        prop_assert!(opened.fits(&SavedRecording::new("a.csv", HEART.clone())).is_ok());
    }
}
