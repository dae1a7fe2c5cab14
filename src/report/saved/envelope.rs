//! Kind and version around each document, checked before anything else is looked at.

use super::{SavedError, VERSION};
use crate::words::{Phrase, phrase};
use serde::de::value::MapAccessDeserializer;
use serde::de::{
    DeserializeOwned, DeserializeSeed, IgnoredAny, IntoDeserializer, MapAccess, Visitor,
};
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::Value;
use std::fmt;
use std::marker::PhantomData;

/// Those two fields as they may come, whatever else is there.
#[derive(Deserialize)]
struct Label {
    beatwalk: Option<Value>,
    version: Option<Value>,
}

/// The fields of a document without those two: they must not come back among its unknown fields.
///
/// `flatten` around the document would do the same and double the code that reads all that is in it.
struct Unlabelled<A>(A);

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Unlabelled<A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, A::Error> {
        while let Some(name) = self.0.next_key::<String>()? {
            if name != "beatwalk" && name != "version" {
                return seed.deserialize(name.into_deserializer()).map(Some);
            }
            self.0.next_value::<IgnoredAny>()?;
        }
        Ok(None)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, A::Error> {
        self.0.next_value_seed(seed)
    }
}

/// Reads a document from such fields.
struct Content<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for Content<T> {
    type Value = T;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a document")
    }

    fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<T, A::Error> {
        T::deserialize(MapAccessDeserializer::new(Unlabelled(fields)))
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
    let mut json = serde_json::Deserializer::from_str(text);
    let content = json.deserialize_map(Content(PhantomData)).map_err(|error| damaged(&error))?;
    json.end().map_err(|error| damaged(&error))?;
    Ok(content)
}

fn damaged(error: &serde_json::Error) -> SavedError {
    SavedError::Damaged { why: error.to_string() }
}
