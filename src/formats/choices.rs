//! How a text file was understood, and what the student says it should be instead.

use crate::signal::VoltageUnit;
use serde::{Deserialize, Serialize};

/// What the student chose. Anything left out is found from the file.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Choices {
    /// What separates the columns.
    pub delimiter: Option<Delimiter>,
    /// What stands before the decimals.
    pub decimal_mark: Option<DecimalMark>,
    /// The column that holds the time.
    pub time_column: Option<TimeColumn>,
    /// The column that holds the voltage, counted from 0.
    pub value_column: Option<usize>,
    /// What one unit of the time column is.
    pub time_unit: Option<TimeUnit>,
    /// What one unit of the voltage column is.
    pub value_unit: Option<ValueUnit>,
    /// Samples a second, in place of what the file says.
    pub rate_hz: Option<f64>,
}

/// How the rows and columns of a text file were understood, to be shown and corrected.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TextLayout {
    /// The name of the encoding, as the WHATWG encoding standard has it.
    pub encoding: String,
    /// What separates the columns.
    pub delimiter: Delimiter,
    /// What stands before the decimals.
    pub decimal_mark: DecimalMark,
    /// What each column is called; made up (`column 1` …) where the file has no names.
    pub columns: Vec<String>,
    /// The column that holds the time.
    pub time_column: TimeColumn,
    /// What one unit of the time column is, when there is such a column.
    pub time_unit: Option<TimeUnit>,
    /// The column that holds the voltage, counted from 0.
    pub value_column: usize,
    /// What one unit of the voltage column is.
    pub value_unit: ValueUnit,
    /// The line on which the numbers begin, counted from 1.
    pub first_data_line: usize,
    /// The sampling rate found, in Hz.
    pub rate_hz: Option<f64>,
    /// The first rows of numbers as they stand in the file, for the preview.
    pub preview: Vec<Vec<String>>,
}

/// What separates columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Delimiter {
    /// `,`
    Comma,
    /// `;`
    Semicolon,
    /// A tabulator.
    Tab,
    /// One or more spaces.
    Space,
    /// `|`
    Bar,
}

impl Delimiter {
    /// Every one.
    pub(super) const ALL: [Self; 5] =
        [Self::Tab, Self::Semicolon, Self::Bar, Self::Comma, Self::Space];
}

/// What stands between the whole number and its decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DecimalMark {
    /// `0.25`
    Point,
    /// `0,25`
    Comma,
}

impl DecimalMark {
    /// The one that this is not.
    pub(super) const fn other(self) -> Self {
        match self {
            Self::Point => Self::Comma,
            Self::Comma => Self::Point,
        }
    }
}

/// Where the time stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TimeColumn {
    /// Nowhere: the samples are evenly spaced at a rate said elsewhere.
    Absent,
    /// In this column, counted from 0.
    At(usize),
}

/// What one unit of the time column is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TimeUnit {
    /// Seconds.
    Second,
    /// Milliseconds.
    Millisecond,
    /// Microseconds.
    Microsecond,
    /// Nanoseconds.
    Nanosecond,
    /// Minutes.
    Minute,
    /// Hours.
    Hour,
    /// Days, as spreadsheets count dates.
    Day,
    /// A time of day, `HH:MM:SS` with or without decimals, or a date and time after ISO 8601.
    Clock,
    /// The number of the sample.
    SampleNumber,
}

/// What one unit of the voltage column is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ValueUnit {
    /// Volts.
    Volt,
    /// Millivolts.
    Millivolt,
    /// Microvolts.
    Microvolt,
    /// Nanovolts.
    Nanovolt,
    /// Steps of a converter.
    Counts,
    /// The file does not say.
    Unstated,
}

impl ValueUnit {
    /// What a sample has to be multiplied with, and the unit it then has.
    pub const fn to_recording(self) -> (f64, VoltageUnit) {
        match self {
            Self::Volt => (1000.0, VoltageUnit::Millivolt),
            Self::Millivolt => (1.0, VoltageUnit::Millivolt),
            Self::Microvolt => (0.001, VoltageUnit::Millivolt),
            Self::Nanovolt => (1e-6, VoltageUnit::Millivolt),
            Self::Counts => (1.0, VoltageUnit::Counts),
            Self::Unstated => (1.0, VoltageUnit::Unstated),
        }
    }
}
