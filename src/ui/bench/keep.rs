//! Keeping the bench: in this browser at each change, in a file when the student asks.

use super::Bench;
use crate::ui::browser::Drawer;
use crate::ui::reactive::{follow, follow_gathered};
use crate::ui::state::Screen;
use beatwalk::report::{InquirySheet, SavedError, SavedInquiry};
use beatwalk::signal::map_of;
use leptos::prelude::*;

impl Bench {
    /// Everything on the bench as one document; `None` while no investigation is chosen.
    pub fn saved(self) -> Option<SavedInquiry> {
        let sheet = self.sheet.get()?;
        let readings = self
            .seats
            .with(|seats| map_of(seats.iter().map(|(role, seat)| (*role, (*seat.saved).clone()))));
        Some(SavedInquiry::new(sheet, readings))
    }

    /// Writes each change into the browser's storage: recordings, which are large, only when they change.
    pub fn keep_up(self) {
        follow(move || {
            self.seats.track();
            if let Some(Ok(text)) = untrack(|| self.saved()).map(|saved| saved.to_json()) {
                self.app.write(Drawer::Bench, text);
            }
        });
        let write =
            move || self.sheet.with_untracked(|sheet| self.app.write_data(Drawer::Sheet, sheet));
        follow_gathered(move || self.sheet.read().is_some(), write);
    }

    /// Lays a document out on the bench and shows it.
    pub fn open_saved(self, text: &str) -> Result<(), SavedError> {
        self.lay_out(SavedInquiry::from_json(text)?);
        self.app.screen.set(Screen::Investigate);
        Ok(())
    }

    /// Lays out what this browser kept; what can't be read any more is not missed.
    pub(in crate::ui) fn resume(self, bench: &str, sheet: Option<InquirySheet>) {
        let Ok(mut saved) = SavedInquiry::from_json(bench) else { return };
        // The sheet was written since: it belongs to these recordings when it is of the same investigation.
        if let Some(sheet) = sheet.filter(|it| it.investigation == saved.sheet.investigation) {
            saved.sheet = sheet;
        }
        if self.sheet.with_untracked(Option::is_none) {
            self.lay_out(saved);
        }
    }

    fn lay_out(self, saved: SavedInquiry) {
        self.sweep();
        self.sheet.set(Some(saved.sheet));
        for (role, reading) in saved.readings {
            self.put(role, reading);
        }
    }
}
