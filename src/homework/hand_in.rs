//! What a student hands in: the homework with the recordings that the student brought, under a seal.
//!
//! The seal is the SHA-256 of the document without the seal itself, in its one form. It tells a file that was
//! cut, mixed up or changed by accident or by a quick hand from one that is as it was written. It is no proof:
//! nothing in it is secret, and who knows how can seal anything.

use super::canonical;
use super::work::Homework;
use crate::report::{SavedError, Unknown, WrittenRecording, envelope};
use crate::signal::map_of;
use crate::words::{Phrase, phrase};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// How the document names its kind.
const KIND: &str = "hand_in";
/// Where the seal stands in it.
const SEAL: &str = "seal";
/// The field of the recordings that the student brought.
const OWN: &str = "own";

/// A homework that was handed in.
#[derive(Clone, Debug, PartialEq)]
pub struct HandIn {
    /// What was handed in, with the recordings that the student brought.
    pub homework: Homework,
    /// Whether it is as it was written.
    pub seal: Seal,
    /// The seal as it should be: what tells this hand-in from any other.
    pub content: String,
}

/// Whether a hand-in is as it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Seal {
    /// The seal fits.
    Whole,
    /// The seal does not fit: something was changed.
    Broken,
    /// There is no seal.
    Missing,
}

impl Seal {
    /// What it shows, for the teacher.
    pub const fn said(self) -> Phrase {
        match self {
            Self::Whole => phrase!("homework.seal.whole"),
            Self::Broken => phrase!("homework.seal.broken"),
            Self::Missing => phrase!("homework.seal.missing"),
        }
    }
}

/// The document as it is written.
#[derive(Serialize)]
struct Document {
    #[serde(skip_serializing_if = "Option::is_none")]
    seal: Option<Value>,
    #[serde(flatten)]
    homework: Homework,
    own: BTreeMap<String, WrittenRecording>,
}

/// What stands in it beside the fields of the homework. It is read apart from them: reading both at once by
/// `flatten` would double the code that reads a work.
#[derive(Deserialize)]
struct Enclosed {
    #[serde(default)]
    seal: Option<Value>,
    #[serde(default)]
    own: BTreeMap<String, WrittenRecording>,
}

impl Homework {
    /// The homework as one file to hand in, sealed; `handed_in` is the time that the clock of the computer says.
    ///
    /// # Errors
    /// [`SavedError::Unwritable`] when the JSON writer gives up.
    pub fn hand_in(&self, handed_in: String) -> Result<String, SavedError> {
        let own = map_of(self.own.iter().map(|(key, own)| (key.clone(), own.written())));
        let mut homework = self.clone();
        homework.handed_in = handed_in;
        let mut document = Document { seal: None, homework, own };
        let content = content_of(&envelope::write(KIND, &document)?)?;
        document.seal = Some(Value::String(content));
        envelope::write(KIND, &document)
    }
}

impl HandIn {
    /// Opens a hand-in and checks every number in it. Whether work fits a recording that the assignment gives is
    /// for [`Homework::fits`] to say.
    ///
    /// # Errors
    /// [`SavedError`] when it is something else, newer or damaged.
    pub fn from_json(text: &str) -> Result<Self, SavedError> {
        let homework: Homework = envelope::open(KIND, text)?;
        let Enclosed { seal, own } = envelope::open(KIND, text)?;
        let mut homework = homework.with_times_in_order().without(&[SEAL, OWN]);
        for (key, written) in own {
            let recording = written.checked()?;
            if let Some(work) = homework.works.get(&key) {
                work.fits(&recording)?;
            }
            homework.own.insert(key, recording);
        }
        let content = content_of(text)?;
        let seal = match seal {
            None | Some(Value::Null) => Seal::Missing,
            Some(Value::String(seal)) if seal == content => Seal::Whole,
            Some(_) => Seal::Broken,
        };
        Ok(Self { homework, seal, content })
    }
}

/// The fingerprint of a document without its seal.
fn content_of(text: &str) -> Result<String, SavedError> {
    let mut fields: Unknown = serde_json::from_str(text)
        .map_err(|error| SavedError::Damaged { why: error.to_string() })?;
    fields.remove(SEAL);
    Ok(canonical::fingerprint(&Value::Object(fields)))
}
