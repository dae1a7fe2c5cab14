//! Kind and version around each document, checked before anything else is looked at.

use super::{SavedError, VERSION};
use crate::words::{Phrase, phrase};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::{Map, Value};

/// Those two fields as they may come, whatever else is there.
#[derive(Deserialize)]
struct Label {
    beatwalk: Option<Value>,
    version: Option<Value>,
}

/// What a later version wrote and this one does not know, to be written again: all but those two fields,
/// which are not content.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(transparent)]
pub(crate) struct Unknown(Map<String, Value>);

impl Unknown {
    pub(crate) fn new() -> Self {
        Self::default()
    }
}

impl<'de> Deserialize<'de> for Unknown {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mut fields = Map::deserialize(deserializer)?;
        fields.retain(|name, _| name != "beatwalk" && name != "version");
        Ok(Self(fields))
    }
}

/// A document as text, with its kind and version on top.
pub(crate) fn write<T: Serialize>(kind: &'static str, content: &T) -> Result<String, SavedError> {
    let text = serde_json::to_string_pretty(content)
        .map_err(|error| SavedError::Unwritable { why: error.to_string() })?;
    // Every document has fields. One that holds another by `flatten` would double the code that writes it.
    let fields = text.strip_prefix('{').unwrap_or_default();
    Ok(format!("{{\n  \"beatwalk\": \"{kind}\",\n  \"version\": {VERSION},{fields}"))
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
    serde_json::from_str(text).map_err(|error| damaged(&error))
}

fn damaged(error: &serde_json::Error) -> SavedError {
    SavedError::Damaged { why: error.to_string() }
}
