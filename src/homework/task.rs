//! One task of an assignment: what is asked, what it is worth, and how near is near enough.

use crate::inquiry::Measured;
use crate::report::Unknown;
use crate::signal::Landmark;
use serde::de::Error as _;
use serde::ser::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::Value;

/// One task.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// What answers are kept under: unique, and the same for ever.
    pub key: String,
    /// What the student reads; may have several lines.
    pub text: String,
    /// What a right answer is worth.
    pub points: f64,
    /// What is asked.
    pub ask: Ask,
    /// What a later version wrote beside the ask and this one does not know.
    unknown_of_ask: Unknown,
    unknown: Unknown,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Ask {
    /// Place these points on one beat of a recording; marked against the analysis within the limits of
    /// [`crate::lesson::Tolerance`].
    Points {
        /// The key of the recording.
        material: String,
        /// Which points.
        landmarks: Vec<Landmark>,
    },
    /// A number measured on a recording; the reference is measured on it when marked.
    Measure {
        /// The key of the recording.
        material: String,
        /// What is measured.
        #[serde(with = "by_key")]
        measured: Measured,
        /// How near is right, in [`Measured::unit`].
        tolerance: Tolerance,
    },
    /// A number known beforehand.
    Number {
        /// The right value; `None` in the student's copy.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<f64>,
        /// Its unit as shown; may be empty.
        #[serde(default)]
        unit: String,
        /// How near is right, in that unit.
        tolerance: Tolerance,
    },
    /// One of several answers.
    Choice {
        /// The answers, in the order in which they are shown.
        options: Vec<String>,
        /// The place of the right one, the first being 0; `None` in the student's copy.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        right: Option<usize>,
    },
    /// Some sentences, marked by the teacher.
    Text {
        /// What the teacher looks for; `None` in the student's copy.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        guide: Option<String>,
    },
}

/// How near to the reference is right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tolerance {
    /// This far above or below, in the unit of the number.
    Within(f64),
    /// This many hundredths of the reference above or below.
    Percent(f64),
}

impl Task {
    /// A task.
    pub fn new(key: impl Into<String>, text: impl Into<String>, points: f64, ask: Ask) -> Self {
        let (key, text) = (key.into(), text.into());
        Self { key, text, points, ask, unknown_of_ask: Unknown::new(), unknown: Unknown::new() }
    }

    /// The same without what a student must not see.
    #[must_use]
    pub(super) fn for_students(&self) -> Self {
        let mut task = self.clone();
        match &mut task.ask {
            Ask::Points { .. } | Ask::Measure { .. } => {}
            Ask::Number { value, .. } => *value = None,
            Ask::Choice { right, .. } => *right = None,
            Ask::Text { guide } => *guide = None,
        }
        task
    }
}

impl Ask {
    /// The key of the recording it is about, if it is about one.
    pub fn material(&self) -> Option<&str> {
        match self {
            Self::Points { material, .. } | Self::Measure { material, .. } => Some(material),
            Self::Number { .. } | Self::Choice { .. } | Self::Text { .. } => None,
        }
    }

    /// The unit of the number it asks for; empty where it has none or asks for something else.
    pub fn unit(&self) -> &str {
        match self {
            Self::Measure { measured, .. } => measured.unit(),
            Self::Number { unit, .. } => unit,
            Self::Points { .. } | Self::Choice { .. } | Self::Text { .. } => "",
        }
    }
}

impl Tolerance {
    /// The bare number.
    pub const fn amount(self) -> f64 {
        match self {
            Self::Within(amount) | Self::Percent(amount) => amount,
        }
    }

    /// How far from a reference is still right, in the unit of the reference.
    pub fn around(self, reference: f64) -> f64 {
        match self {
            Self::Within(amount) => amount,
            Self::Percent(percent) => (reference * percent / 100.0).abs(),
        }
    }

    /// Whether a value is near enough. The limit itself is, also where binary fractions miss it by a hair.
    pub fn allows(self, value: f64, reference: f64) -> bool {
        let hair = 1e-9 * value.abs().max(reference.abs());
        (value - reference).abs() <= self.around(reference) + hair
    }
}

/// A task as it stands in a document.
#[derive(Serialize, Deserialize)]
struct Written {
    key: String,
    text: String,
    points: f64,
    ask: Unknown,
    #[serde(flatten)]
    unknown: Unknown,
}

/// An object in the fields of which `ask` is written.
fn fields_of<E>(ask: &Ask, error: impl Fn(String) -> E) -> Result<Unknown, E> {
    match serde_json::to_value(ask) {
        Ok(Value::Object(fields)) => Ok(fields),
        Ok(_) => Ok(Unknown::new()),
        Err(why) => Err(error(why.to_string())),
    }
}

impl Serialize for Task {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut ask = self.unknown_of_ask.clone();
        ask.extend(fields_of(&self.ask, S::Error::custom)?);
        let Self { key, text, points, unknown, .. } = self.clone();
        Written { key, text, points, ask, unknown }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Task {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Written { key, text, points, ask: mut fields, unknown } =
            Written::deserialize(deserializer)?;
        let ask: Ask =
            serde_json::from_value(Value::Object(fields.clone())).map_err(D::Error::custom)?;
        let known = fields_of(&ask, D::Error::custom)?;
        // An answer of no value is one that is left out.
        fields.retain(|name, value| !known.contains_key(name) && !value.is_null());
        Ok(Self { key, text, points, ask, unknown_of_ask: fields, unknown })
    }
}

/// A quantity in a document is its key.
mod by_key {
    use super::{Deserialize, Deserializer, Measured, Serializer};
    use serde::de::Error;

    pub(super) fn serialize<S: Serializer>(
        measured: &Measured,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(measured.key())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Measured, D::Error> {
        let key = String::deserialize(deserializer)?;
        let found = Measured::ALL.into_iter().find(|measured| measured.key() == key);
        found.ok_or_else(|| D::Error::custom(format!("no quantity is called {key:?}")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_itself_is_right_and_a_step_beyond_is_not() {
        let within = Tolerance::Within(0.2);
        assert!(
            within.allows(0.3, 0.1) && within.allows(-0.1, 0.1),
            "0.3 - 0.1 is above 0.2 in binary"
        );
        assert!(!within.allows(0.300_001, 0.1));
        let percent = Tolerance::Percent(5.0);
        assert!(percent.allows(63.0, 60.0) && percent.allows(-57.0, -60.0));
        assert!(!percent.allows(63.1, 60.0) && !percent.allows(0.1, 0.0));
        assert!(
            Tolerance::Within(0.0).allows(3.0, 3.0) && !Tolerance::Within(0.0).allows(3.1, 3.0)
        );
    }

    #[test]
    fn nothing_is_near_to_no_number() {
        for tolerance in [Tolerance::Within(f64::NAN), Tolerance::Within(-1.0)] {
            assert!(!tolerance.allows(1.0, 1.0));
        }
        assert!(!Tolerance::Within(1.0).allows(f64::NAN, 1.0));
    }
}
