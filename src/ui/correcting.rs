//! Correcting beats: the edit is drawn at once, and measured when the hand rests.

use super::state::App;
use crate::worker::{Analyst, Stage};
use beatwalk::lesson::{BeatCommand, BeatDeed, BeatEditor, BeatRefusal, Evidence};
use leptos::prelude::*;
use std::time::Duration;

/// How long the hand rests before the trace is read again: a drag makes sixty edits a second.
const REST: Duration = Duration::from_millis(300);

impl App {
    /// Carries out what the student asks for about the beats.
    ///
    /// # Errors
    /// [`BeatRefusal`] when it can't be done; the page says why.
    pub fn correct_beat(self, command: BeatCommand) -> Result<BeatDeed, BeatRefusal> {
        let outcome = untrack(|| {
            let (shown, reading) = (self.shown.get()?, self.standing.get()?);
            let evidence = Evidence { recording: &shown.recording, reading: &reading };
            let mut settings = self.work.with(|work| work.settings.clone());
            let first = settings.first_sample();
            let apply = |editor: &mut BeatEditor| {
                editor.apply(command, &mut settings.beats, first, evidence)
            };
            let outcome = self.editor.try_update(apply)?;
            if outcome.is_ok() {
                self.work.update(|work| work.settings = settings);
                self.measure_soon();
            }
            Some(outcome)
        });
        let outcome = outcome.unwrap_or(Err(BeatRefusal::NoBeatThere));
        self.deed.set(Some(outcome));
        outcome
    }

    /// Whether the trace is being read again while what was known of it still stands.
    pub fn measures_again(self) -> bool {
        let reads = self.job.with(|job| matches!(job, Some((Stage::Reading, _))));
        reads && self.reading.read().is_some()
    }

    /// Forgets what could be taken back: another recording was opened.
    pub(super) fn correct_anew(self) {
        self.editor.set(BeatEditor::default());
        self.deed.set(None);
    }

    fn measure_soon(self) {
        if let Some(waiting) = self.measuring.try_update_value(Option::take).flatten() {
            waiting.clear();
        }
        let waiting = set_timeout_with_handle(move || self.measure_again(), REST);
        self.measuring.set_value(waiting.ok());
    }

    fn measure_again(self) {
        self.measuring.set_value(None);
        let Some(shown) = self.shown.get_untracked() else { return };
        match self.job.get_untracked() {
            // Another recording is on its way.
            Some((Stage::Opening, _)) => return,
            // It would be finished first, and for nothing.
            Some((Stage::Reading, _)) => self.with_analyst(Analyst::cancel),
            None => {}
        }
        self.begin(Stage::Reading);
        self.ask_to_read(&shown);
    }
}
