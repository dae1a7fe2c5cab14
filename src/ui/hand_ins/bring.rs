//! Bringing files to be marked: told apart by what they are, and marked by a worker of their own.

use super::HandIns;
use crate::ui::browser::{Dropped, read_bytes};
use crate::ui::state::Problem;
use crate::worker::{Answer, Request};
use beatwalk::formats::{SourceFile, unpacked};
use beatwalk::homework::{Assignment, Marked, Marks};
use beatwalk::words::Phrase;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// The table is built anew for so many hand-ins together.
const TOGETHER: usize = 10;

impl HandIns {
    /// Connects the worker; called once, at the root.
    pub fn connect(self) {
        self.queue.connect(move |answer, _| self.hear(answer));
    }

    /// Takes files: the assignment, marks that were saved, hand-ins.
    pub fn take(self, files: Dropped) {
        spawn_local(async move {
            let mut hand_ins = Vec::new();
            // Said at the end: an assignment among the files has everything marked anew.
            let mut refused = Vec::new();
            for file in files {
                let name = file.name();
                let sorted = match read_bytes(&[file]).await {
                    Err(fault) => Err(fault),
                    Ok(read) => read.into_iter().try_for_each(|(name, bytes)| {
                        self.sort(SourceFile { name, bytes }, &mut hand_ins)
                    }),
                };
                if let Err((what, remedy)) = sorted {
                    refused.push((name, what, remedy));
                }
            }
            for (name, what, remedy) in refused {
                self.refuse(name, what, remedy);
            }
            self.mark(hand_ins);
        });
    }

    /// Takes an assignment or marks up; what else there is may be a hand-in.
    fn sort(
        self,
        file: SourceFile,
        hand_ins: &mut Vec<(String, Vec<u8>)>,
    ) -> Result<(), (Phrase, Phrase)> {
        let members = unpacked(file).map_err(|error| (error.said(), error.remedy()))?;
        for SourceFile { name, bytes } in members {
            let text = String::from_utf8_lossy(&bytes);
            if let Ok(assignment) = Assignment::from_json(&text) {
                self.mark_for(assignment);
            } else if let Ok(marks) = Marks::from_json(&text) {
                self.marks.set(marks);
            } else {
                hand_ins.push((name, bytes));
            }
        }
        Ok(())
    }

    /// Marks hand-ins for this assignment from now on.
    fn mark_for(self, assignment: Assignment) {
        let fingerprint = assignment.fingerprint();
        let same = self.marks.with_untracked(|marks| marks.fingerprint == fingerprint);
        if !same {
            self.marks.set(Marks::of(&assignment));
        }
        self.assignment.set(Some(Arc::new(assignment)));
        self.keep_assignment();
        // Sheets of an earlier visit stay: what they were marked from is not kept.
        let from_before = same && self.texts.with_value(Vec::is_empty);
        if !from_before {
            self.mark_again();
        }
    }

    /// Marks all hand-ins anew.
    pub fn mark_again(self) {
        self.stop();
        let texts = self.texts.get_value();
        self.clear_sheets();
        self.mark(texts);
    }

    fn mark(self, hand_ins: Vec<(String, Vec<u8>)>) {
        if hand_ins.is_empty() {
            return;
        }
        self.texts.update_value(|texts| texts.extend(hand_ins.iter().cloned()));
        if self.assignment.with_untracked(Option::is_none) {
            // They are marked as soon as the assignment comes.
            return;
        }
        if self.queue.add(hand_ins) {
            self.begin();
        }
    }

    /// Hands everything that waits to the worker.
    fn begin(self) {
        let set = self.assignment.with_untracked(|set| set.as_ref().map(|set| set.to_json()));
        let Some(Ok(set)) = set else { return self.queue.stop() };
        let (names, mut texts): (Vec<String>, Vec<Vec<u8>>) = self.queue.all().into_iter().unzip();
        texts.insert(0, set.into_bytes());
        let request = Request::Mark { names, takes_others: self.takes_others.get_untracked() };
        self.queue.open(&request, &texts);
    }

    /// Stops marking; what is marked stays.
    pub fn stop(self) {
        self.queue.stop();
        self.show_found();
    }

    fn hear(self, answer: Answer) {
        match answer {
            Answer::Marked(marked) => self.take_marked(*marked),
            Answer::Failed { what, remedy } => {
                self.stop();
                self.app.fail(what, remedy);
            }
            _ => {}
        }
    }

    fn take_marked(self, Marked { file, outcome }: Marked) {
        match outcome {
            Ok(sheet) => self.found.update_value(|found| found.push(sheet)),
            Err(fault) => self.refuse(file, fault.said, fault.remedy),
        }
        let Some((done, of)) = self.queue.one_done() else { return };
        if done % TOGETHER == 0 || done == of {
            self.show_found();
        }
        if done == of {
            self.keep_sheets();
        } else if done + self.queue.waiting() == of {
            // The worker has nothing more to mark, but files came meanwhile.
            self.begin();
        }
    }

    fn refuse(self, file: String, what: Phrase, remedy: Phrase) {
        // A path in an archive may be of any length.
        let file = file.chars().take(120).collect();
        self.refused.update(|refused| refused.push((file, Problem { what, remedy })));
    }

    /// Puts what was marked into the table.
    fn show_found(self) {
        let found = self.found.try_update_value(std::mem::take).unwrap_or_default();
        if !found.is_empty() {
            self.sheets.update(|sheets| sheets.extend(found));
        }
    }
}
