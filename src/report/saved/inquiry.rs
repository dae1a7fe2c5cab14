//! An investigation as one document: each recording with the work on it, how they are parted, and what was
//! written about the outcome.

use super::recording::Written;
use super::{SavedError, SavedReading, SavedWork, Unknown, envelope};
use crate::inquiry::{BreathingPlan, Investigation, Measured, RecoveryPlan, ReflexPlan, Role};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Everything about one investigation.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedInquiry {
    /// What was chosen and written.
    pub sheet: InquirySheet,
    /// The recordings, by what they stand for.
    pub readings: BTreeMap<Role, SavedReading>,
    /// What a later version wrote and this one does not know.
    unknown: Unknown,
}

/// The small part of an investigation: what was chosen and written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct InquirySheet {
    /// Which investigation it is.
    pub investigation: Investigation,
    /// A code or first name, as the teacher asks for; may be empty.
    #[serde(default)]
    pub student: String,
    /// How the recordings of a recovery are parted.
    #[serde(default)]
    pub recovery: RecoveryPlan,
    /// How breaths are told.
    #[serde(default)]
    pub breathing: BreathingPlan,
    /// How reflexes are looked for.
    #[serde(default)]
    pub reflex: ReflexPlan,
    /// What the conditions of a comparison are called.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub conditions: BTreeMap<Role, String>,
    /// The quantity they are compared by, as its key; empty for the first.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub measured: String,
    /// What was written under each prompt of the card, by its name.
    #[serde(default)]
    pub written: BTreeMap<String, String>,
    /// What a later version wrote and this one does not know.
    #[serde(flatten)]
    unknown: Unknown,
}

/// The document, the part that a person reads first.
#[derive(Serialize, Deserialize)]
struct Document {
    sheet: InquirySheet,
    readings: Vec<Seat>,
    #[serde(flatten)]
    unknown: Unknown,
}

/// One recording of the document.
#[derive(Serialize, Deserialize)]
struct Seat {
    role: Role,
    work: SavedWork,
    recording: Written,
}

impl InquirySheet {
    /// An empty sheet.
    pub fn of(investigation: Investigation) -> Self {
        Self {
            investigation,
            student: String::new(),
            recovery: RecoveryPlan::default(),
            breathing: BreathingPlan::default(),
            reflex: ReflexPlan::default(),
            conditions: BTreeMap::new(),
            measured: String::new(),
            written: BTreeMap::new(),
            unknown: Unknown::new(),
        }
    }

    /// What was chosen, without who wrote what.
    #[must_use]
    pub fn unwritten(&self) -> Self {
        Self { student: String::new(), written: BTreeMap::new(), ..self.clone() }
    }

    /// What the condition of a recording is called: as entered, or else by its place.
    pub fn condition(&self, role: Role) -> String {
        let entered = self.conditions.get(&role).map(|name| name.trim());
        entered.filter(|name| !name.is_empty()).unwrap_or(role.key()).to_owned()
    }

    /// The quantity that conditions are compared by.
    pub fn measured(&self) -> Measured {
        let [first, ..] = Measured::ALL;
        Measured::ALL.into_iter().find(|one| one.key() == self.measured).unwrap_or(first)
    }
}

impl SavedInquiry {
    /// Joins the parts.
    pub fn new(sheet: InquirySheet, readings: BTreeMap<Role, SavedReading>) -> Self {
        Self { sheet, readings, unknown: Unknown::new() }
    }

    /// The document as text.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn to_json(&self) -> Result<String, SavedError> {
        let seat = |(role, reading): (&Role, &SavedReading)| Seat {
            role: *role,
            work: reading.work.clone(),
            recording: reading.recording.written(),
        };
        let document = Document {
            sheet: self.sheet.clone(),
            readings: self.readings.iter().map(seat).collect(),
            unknown: self.unknown.clone(),
        };
        envelope::write(KIND, &document)
    }

    /// Opens the document, and checks every number in it.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged, or when the parts don't belong together.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        let Document { sheet, readings, unknown } = envelope::open(KIND, text)?;
        let mut checked = BTreeMap::new();
        for Seat { role, work, recording } in readings {
            let recording = recording.checked()?;
            work.fits(&recording)?;
            checked.insert(role, SavedReading::new(work, recording));
        }
        Ok(Self { sheet, readings: checked, unknown })
    }
}

/// How the document names its kind.
const KIND: &str = "investigation";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::example;
    use crate::report::SavedRecording;
    use crate::signal::{SampleIndex, Seconds};

    fn example() -> SavedInquiry {
        let (recording, _) = example::of_beats(3);
        let reading = |file: &str| {
            let recording = SavedRecording::new(file, recording.clone());
            SavedReading::new(SavedWork::default(), recording)
        };
        let mut sheet = InquirySheet::of(Investigation::Recovery);
        sheet.recovery = RecoveryPlan {
            exercise_until: Some(SampleIndex::new(1000)),
            waited: Seconds::new(7.5),
            ..RecoveryPlan::default()
        };
        sheet.written.insert("curve".to_owned(), "It levels off.".to_owned());
        let readings = [(Role::Rest, reading("rest.csv")), (Role::Recovery, reading("after.csv"))];
        SavedInquiry::new(sheet, readings.into())
    }

    #[test]
    fn what_is_kept_comes_back() {
        let kept = example();
        assert_eq!(SavedInquiry::from_json(&kept.to_json().unwrap()), Ok(kept));
    }

    #[test]
    fn what_a_later_version_added_is_kept() {
        let text = example().to_json().unwrap();
        let later = text.replacen("\"student\"", "\"weather\": \"rain\",\n\"student\"", 1);
        let again = SavedInquiry::from_json(&later).unwrap().to_json().unwrap();
        assert!(again.contains("\"weather\": \"rain\""), "{again}");
    }

    #[test]
    fn a_reading_is_no_investigation_and_damage_is_seen() {
        let kept = example();
        let reading = kept.readings.values().next().unwrap().to_json().unwrap();
        let refused = SavedInquiry::from_json(&reading);
        assert!(matches!(refused, Err(SavedError::SomethingElse { .. })), "{refused:?}");
        let text = kept.to_json().unwrap();
        let short = text.replacen("\"sample_count\": ", "\"sample_count\": 9", 1);
        assert!(matches!(SavedInquiry::from_json(&short), Err(SavedError::SampleCount { .. })));
        assert!(matches!(
            SavedInquiry::from_json(text.get(..text.len() / 2).unwrap()),
            Err(SavedError::Damaged { .. })
        ));
    }
}
