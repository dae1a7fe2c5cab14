//! Kind and version around each document, checked before anything else is looked at.

use super::{SavedError, VERSION};
use crate::words::{Phrase, phrase};
use serde::de::{DeserializeOwned, IgnoredAny};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// The two fields that every document starts with, and what follows them.
#[derive(Serialize)]
struct Envelope<'a, T> {
    beatwalk: &'static str,
    version: u32,
    #[serde(flatten)]
    content: &'a T,
}

/// Those two fields as they may come, whatever else is there.
#[derive(Deserialize)]
struct Label {
    beatwalk: Option<Value>,
    version: Option<Value>,
}

/// A document without them: they must not come back among its unknown fields.
#[derive(Deserialize)]
struct Opened<T> {
    #[serde(rename = "beatwalk")]
    _beatwalk: IgnoredAny,
    #[serde(rename = "version")]
    _version: IgnoredAny,
    #[serde(flatten)]
    content: T,
}

/// A document as text, with its kind and version on top.
pub(crate) fn write<T: Serialize>(kind: &'static str, content: &T) -> Result<String, SavedError> {
    serde_json::to_string_pretty(&Envelope { beatwalk: kind, version: VERSION, content })
        .map_err(|error| SavedError::Unwritable { why: error.to_string() })
}

fn named(kind: &str) -> Phrase {
    match kind {
        "work" => phrase!("faults.saved.wanted.work"),
        "recording" => phrase!("faults.saved.wanted.recording"),
        "investigation" => phrase!("faults.saved.wanted.investigation"),
        "assignment" => phrase!("faults.saved.wanted.assignment"),
        "homework" => phrase!("faults.saved.wanted.homework"),
        "hand_in" => phrase!("faults.saved.wanted.hand_in"),
        "marks" => phrase!("faults.saved.wanted.marks"),
        _ => phrase!("faults.saved.wanted.reading"),
    }
}

/// The content of a document of this kind.
pub(crate) fn open<T: DeserializeOwned>(kind: &'static str, text: &str) -> Result<T, SavedError> {
    let label: Label = serde_json::from_str(text).map_err(|error| damaged(&error))?;
    if label.beatwalk.as_ref().and_then(Value::as_str) != Some(kind) {
        return Err(SavedError::SomethingElse { wanted: named(kind) });
    }
    match label.version.as_ref().and_then(Value::as_u64) {
        Some(found) if found > u64::from(VERSION) => return Err(SavedError::Newer { found }),
        Some(1..) => {}
        _ => return Err(SavedError::SomethingElse { wanted: named(kind) }),
    }
    let opened: Opened<T> = serde_json::from_str(text).map_err(|error| damaged(&error))?;
    Ok(opened.content)
}

fn damaged(error: &serde_json::Error) -> SavedError {
    SavedError::Damaged { why: error.to_string() }
}
