//! Keeping the marking: in this browser at each change, so that it can go on tomorrow.

use super::HandIns;
use crate::ui::browser::{Drawer, Store};
use crate::ui::reactive::follow_gathered;
use beatwalk::homework::{Assignment, Marks, Sheet};
use leptos::prelude::*;
use std::sync::Arc;

impl HandIns {
    /// Writes each point and comment into the browser's storage.
    pub fn keep_up(self) {
        let changed = move || {
            self.marks.track();
            self.assignment.read().is_some()
        };
        follow_gathered(changed, move || {
            if let Ok(text) = self.marks.with_untracked(Marks::to_json) {
                self.app.write(Drawer::Marks, text);
            }
        });
    }

    pub(super) fn keep_assignment(self) {
        let text = self.assignment.with_untracked(|set| set.as_ref().map(|set| set.to_json()));
        if let Some(Ok(text)) = text {
            self.app.write(Drawer::MarkedFor, text);
        }
    }

    pub(super) fn keep_sheets(self) {
        self.sheets.with_untracked(|sheets| self.app.write_data(Drawer::Sheets, sheets));
    }

    pub(super) fn forget(self) {
        for drawer in [Drawer::MarkedFor, Drawer::Sheets, Drawer::Marks] {
            self.app.write(drawer, String::new());
        }
    }

    /// Takes up the marking that this browser kept; what can't be read any more is not missed.
    pub(in crate::ui) async fn resume(self, store: &Store) {
        let Some(set) = store.text(Drawer::MarkedFor).await else { return };
        let Ok(assignment) = Assignment::from_json(&set) else { return };
        let marks = store.text(Drawer::Marks).await.and_then(|marks| Marks::from_json(&marks).ok());
        let sheets = store.text(Drawer::Sheets).await;
        let sheets: Vec<Sheet> =
            sheets.and_then(|sheets| serde_json::from_str(&sheets).ok()).unwrap_or_default();
        // Something may have been brought while the storage was being read: that is newer.
        if self.assignment.with_untracked(Option::is_some) {
            return;
        }
        self.marks.set(marks.unwrap_or_else(|| Marks::of(&assignment)));
        self.sheets.set(sheets);
        self.assignment.set(Some(Arc::new(assignment)));
    }
}
