//! The class desk: the numbers of many recordings in one table, each known by a code and a condition.
//!
//! A reading of ours is measured anew from its own recording, with all that was set and corrected in it; an
//! investigation gives an entry for each of its recordings. Nothing of a recording but its numbers is kept.

mod table;

pub use table::pool_csv;

use super::{EXTENSION, SavedError, SavedInquiry, SavedReading};
use crate::analysis::{Reading, Standing, read_corrected};
use crate::inquiry::{Investigation, Measured, Role, Stretch};
use crate::lesson::Evidence;
use crate::signal::Recording;
use serde::{Deserialize, Serialize};

/// How many quantities there are.
const QUANTITIES: usize = Measured::ALL.len();

/// The numbers of one recording.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PoolEntry {
    /// The file it came from.
    pub file: String,
    /// Whose it is: a code, as entered or else from the name of the file; may be empty.
    pub code: String,
    /// The condition, as far as the file tells; may be empty.
    pub condition: String,
    /// How long it is, s.
    pub seconds: f64,
    /// How many beats count.
    pub counted: usize,
    /// The values, in the order of [`Measured::ALL`]; `None` is not measurable.
    pub values: [Option<f64>; QUANTITIES],
}

impl PoolEntry {
    /// The numbers of a recording, its code and condition told from the name of the file.
    pub fn of(file: &str, recording: &Recording, reading: &Reading) -> Self {
        let (code, condition) = told_by_name(file);
        let stretch = Stretch::whole(Evidence { recording, reading });
        Self { code, condition, ..Self::of_stretch(file, &stretch) }
    }

    fn of_stretch(file: &str, stretch: &Stretch<'_>) -> Self {
        let counts = |beat: &&crate::analysis::Beat| beat.standing == Standing::Counts;
        let rate = stretch.evidence.recording.rate;
        Self {
            file: file.to_owned(),
            code: String::new(),
            condition: String::new(),
            seconds: stretch.span.len() as f64 * rate.interval().seconds(),
            counted: stretch.beats().iter().filter(counts).count(),
            values: Measured::ALL.map(|measured| measured.of(stretch)),
        }
    }

    /// One of its values; `None` is not measurable.
    pub fn value(&self, measured: Measured) -> Option<f64> {
        let place = Measured::ALL.iter().position(|one| *one == measured)?;
        self.values.get(place).copied().flatten()
    }
}

/// The entries of a document of ours.
///
/// # Errors
/// [`SavedError`] when it is something else, newer or damaged.
pub fn entries_of_saved(file: &str, text: &str) -> Result<Vec<PoolEntry>, SavedError> {
    match SavedReading::from_json(text) {
        Ok(saved) => Ok(vec![of_reading(file, &saved)]),
        Err(error @ SavedError::SomethingElse { .. }) => SavedInquiry::from_json(text)
            .map(|saved| of_inquiry(file, &saved))
            .map_err(|other| match other {
                SavedError::SomethingElse { .. } => error,
                other => other,
            }),
        Err(error) => Err(error),
    }
}

fn of_reading(file: &str, saved: &SavedReading) -> PoolEntry {
    let (recording, reading) = measured_again(saved);
    let entry = PoolEntry::of(file, &recording, &reading);
    let code = own_or(&saved.work.student, entry.code.clone());
    PoolEntry { code, ..entry }
}

/// An entry a recording; the one long file of a recovery gives rest and recovery.
fn of_inquiry(file: &str, saved: &SavedInquiry) -> Vec<PoolEntry> {
    let sheet = &saved.sheet;
    let code = own_or(&sheet.student, told_by_name(file).0);
    let entry = |stretch: &Stretch<'_>, condition: &str| PoolEntry {
        code: code.clone(),
        condition: condition.to_owned(),
        ..PoolEntry::of_stretch(file, stretch)
    };
    let found: Vec<(Role, (Recording, Reading))> =
        saved.readings.iter().map(|(role, saved)| (*role, measured_again(saved))).collect();
    let evidence = |wanted: Role| {
        let (_, (recording, reading)) = found.iter().find(|(role, _)| *role == wanted)?;
        Some(Evidence { recording, reading })
    };
    match sheet.investigation {
        Investigation::Recovery => {
            let Some(after) = evidence(Role::Recovery) else { return Vec::new() };
            let (rest, after) = sheet.recovery.stretches(evidence(Role::Rest), after);
            let both = [(rest, Role::Rest), (after, Role::Recovery)];
            let some = both.iter().filter(|(stretch, _)| !stretch.span.is_empty());
            some.map(|(stretch, role)| entry(stretch, role.key())).collect()
        }
        Investigation::Breathing | Investigation::Conditions => {
            let named = found.iter().filter_map(|(role, _)| Some((*role, evidence(*role)?)));
            named
                .map(|(role, evidence)| entry(&Stretch::whole(evidence), &sheet.condition(role)))
                .collect()
        }
        // Muscle, not heart: there is nothing to pool with heartbeats.
        Investigation::Reflex => Vec::new(),
    }
}

fn measured_again(saved: &SavedReading) -> (Recording, Reading) {
    let raw = &saved.recording.recording;
    let recording = saved.work.settings.prepare(raw);
    let reading = read_corrected(&recording, &saved.work.settings.beats_on(raw), &mut |_| {});
    (recording, reading)
}

fn own_or(code: &str, other: String) -> String {
    if code.trim().is_empty() { other } else { code.trim().to_owned() }
}

/// Code and condition from the name of a file: what stands before and after the last dash, line or space.
fn told_by_name(file: &str) -> (String, String) {
    let stem = file.strip_suffix(EXTENSION).unwrap_or(file);
    let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem).trim();
    match stem.rsplit_once(['-', '_', ' ']) {
        Some((code, condition)) if !code.is_empty() && !condition.is_empty() => {
            (code.to_owned(), condition.to_owned())
        }
        _ => (stem.to_owned(), String::new()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_tell_code_and_condition() {
        for (file, code, condition) in [
            ("Q03-lying.csv", "Q03", "lying"),
            ("q-03_after stairs.edf", "q-03_after", "stairs"),
            ("Q03-rest.beatwalk.json", "Q03", "rest"),
            ("trace.csv", "trace", ""),
            ("-rest.csv", "-rest", ""),
            ("", "", ""),
        ] {
            assert_eq!(told_by_name(file), (code.to_owned(), condition.to_owned()), "{file}");
        }
    }

    #[test]
    fn what_is_no_document_of_ours_is_refused() {
        for text in ["", "{}", "{\"beatwalk\": \"work\", \"version\": 1}"] {
            assert!(entries_of_saved("x.json", text).is_err(), "{text}");
        }
    }
}
