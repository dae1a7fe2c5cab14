//! The hand that corrects beats, by keys, mouse and finger: a line on the trace, and the beat it holds.
//!
//! The line stands on the beat that is held; let go, it marks where one could be added.

use super::grab::Grab;
use super::marks_panel::middle_of_view;
use crate::ui::state::App;
use beatwalk::analysis::{Beat, Standing};
use beatwalk::lesson::{BeatCommand, BeatDeed, Grip};
use beatwalk::signal::{SampleIndex, Seconds};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// How far one press of an arrow goes with Shift: a small square of ECG paper at 25 mm/s.
const STRIDE: Seconds = Seconds::new(0.040);

/// The hand.
#[derive(Clone, Copy)]
pub struct BeatHand {
    app: App,
    /// Where the line stands.
    line: RwSignal<Option<SampleIndex>>,
    /// Whether it holds the beat that stands there.
    holds: RwSignal<bool>,
    /// Whether a tap on the trace adds a beat.
    pub adding: RwSignal<bool>,
    /// From where the pointer came down to the beat it took, in samples, and whether it has moved it.
    pointer: StoredValue<(isize, bool)>,
}

impl BeatHand {
    /// A hand that holds nothing.
    pub fn of(app: App) -> Self {
        Self {
            app,
            line: RwSignal::new(None),
            holds: RwSignal::new(false),
            adding: RwSignal::new(false),
            pointer: StoredValue::new((0, false)),
        }
    }

    /// Lets go of everything and puts the line into the middle of the view.
    pub fn start(self) {
        self.line.set(untrack(|| middle_of_view(self.app)));
        self.holds.set(false);
        self.adding.set(false);
        self.app.deed.set(None);
    }

    /// Where the line stands.
    pub fn line(self) -> Option<SampleIndex> {
        self.line.get()
    }

    /// The beat that is held: its place, and the beat.
    pub fn held(self) -> Option<(usize, Beat)> {
        let line = self.line.get().filter(|_| self.holds.get())?;
        self.app.standing.with(|reading| {
            let beats = &reading.as_ref()?.beats;
            let place = beats.binary_search_by_key(&line, |beat| beat.r).ok()?;
            Some((place, *beats.get(place)?))
        })
    }

    /// Takes the next beat after the line, or the one before it.
    pub fn step(self, by: isize) {
        let next = untrack(|| {
            let line = self.line.get().unwrap_or(SampleIndex::new(0));
            self.app.standing.with(|reading| {
                let beats = &reading.as_ref()?.beats;
                let before = beats.partition_point(|beat| beat.r < line);
                let after = beats.partition_point(|beat| beat.r <= line);
                let place = if by < 0 { before.checked_sub(1)? } else { after };
                Some(beats.get(place)?.r)
            })
        });
        if let Some(r) = next {
            self.take(r);
        }
    }

    /// Moves the held beat, or the line, by samples.
    pub fn nudge(self, by: isize, grip: Grip) {
        let Some(line) = self.line.get_untracked() else { return };
        match untrack(|| self.held()) {
            Some(_) => self.shift(line.offset(by), grip),
            None => self.put_line(line.offset(by)),
        }
    }

    /// Adds a beat where the line stands.
    pub fn add_at_line(self) {
        if let Some(line) = self.line.get_untracked() {
            self.add(line);
        }
    }

    /// Takes the held beat away.
    pub fn take_away(self) {
        self.with_held(BeatCommand::TakeAway);
        self.holds.set(false);
    }

    /// Leaves the held beat out of averages, or counts it.
    pub fn toggle_counting(self) {
        let counts = untrack(|| self.counts());
        self.with_held(if counts { BeatCommand::LeaveOut } else { BeatCommand::Count });
    }

    /// Whether averages count the held beat.
    pub fn counts(self) -> bool {
        self.held().is_some_and(|(_, beat)| beat.standing == Standing::Counts)
    }

    /// Takes the last correction back, or makes it again, and goes where that shows.
    pub fn history(self, command: BeatCommand) {
        if let Ok(BeatDeed::Undone(Some(at)) | BeatDeed::Redone(Some(at))) =
            self.app.correct_beat(command)
        {
            self.take(at);
        }
    }

    /// Does what a key means on the trace; whether it meant anything.
    pub fn key(self, event: &KeyboardEvent) -> bool {
        let Some(rate) = untrack(|| self.app.rate()) else { return false };
        let stride = if event.shift_key() { rate.count(STRIDE).max(1) as isize } else { 1 };
        let grip = if event.repeat() { Grip::Held } else { Grip::Fresh };
        let command = event.ctrl_key() || event.meta_key();
        match event.key().as_str() {
            "ArrowRight" => self.nudge(stride, grip),
            "ArrowLeft" => self.nudge(-stride, grip),
            "ArrowUp" => self.step(-1),
            "ArrowDown" => self.step(1),
            "Delete" | "Backspace" => self.take_away(),
            "Enter" | "Insert" => self.add_at_line(),
            "Escape" if self.holds.get_untracked() => self.holds.set(false),
            "z" | "Z" if command && event.shift_key() => self.history(BeatCommand::Redo),
            "z" if command => self.history(BeatCommand::Undo),
            "y" if command => self.history(BeatCommand::Redo),
            _ => return false,
        }
        true
    }

    /// What a pointer does while beats are corrected.
    pub fn grab(self, in_use: RwSignal<bool>) -> Grab {
        let take = move |(at, reach): (SampleIndex, usize)| {
            if !in_use.get_untracked() || self.adding.get_untracked() {
                return false;
            }
            let near = self.app.standing.with_untracked(|reading| {
                let beats = reading.as_ref()?.beats.iter();
                beats.map(|beat| beat.r).min_by_key(|r| r.minus(at).abs())
            });
            let near = near.filter(|r| r.minus(at).unsigned_abs() <= reach);
            if let Some(r) = near {
                self.put_line(r);
                self.holds.set(true);
                self.pointer.set_value((r.minus(at), false));
            }
            near.is_some()
        };
        let drag = move |to: SampleIndex| {
            let (off, has_moved) = self.pointer.get_value();
            self.shift(to.offset(off), if has_moved { Grip::Held } else { Grip::Fresh });
            self.pointer.set_value((off, true));
        };
        let tap = move |at: SampleIndex| {
            if !in_use.get_untracked() {
                return;
            }
            if self.adding.get_untracked() {
                self.add(at);
            } else {
                self.holds.set(false);
                self.put_line(at);
            }
        };
        Grab { take: Callback::new(take), drag: Callback::new(drag), tap: Callback::new(tap) }
    }

    fn add(self, at: SampleIndex) {
        if let Ok(BeatDeed::Added { at, .. }) = self.app.correct_beat(BeatCommand::Add(at)) {
            self.take(at);
        }
    }

    fn shift(self, to: SampleIndex, grip: Grip) {
        let Some((_, beat)) = untrack(|| self.held()) else { return };
        let command = BeatCommand::Move { beat: beat.r, to, grip };
        if let Ok(BeatDeed::Moved(at)) = self.app.correct_beat(command) {
            self.line.set(Some(at));
        }
    }

    fn with_held(self, command: impl FnOnce(SampleIndex) -> BeatCommand) {
        if let Some((_, beat)) = untrack(|| self.held()) {
            let _ = self.app.correct_beat(command(beat.r));
        }
    }

    /// Holds the beat at a sample, if there is one, and brings it into view.
    pub fn take(self, at: SampleIndex) {
        self.put_line(at);
        self.holds.set(true);
        let app = self.app;
        if let Some(shown) = app.shown.get_untracked() {
            let rate = shown.recording.rate;
            app.view.update(|view| {
                *view = view.map(|view| match view.shows(at, rate) {
                    true => view,
                    false => view.centred(rate.time_of(at), &shown.bounds),
                });
            });
        }
    }

    /// Puts the line on the trace.
    fn put_line(self, at: SampleIndex) {
        let last = self.app.shown.with_untracked(|shown| {
            let samples = shown.as_ref()?.recording.samples.len();
            samples.checked_sub(1).map(SampleIndex::new)
        });
        self.line.set(last.map(|last| at.min(last)));
    }
}
