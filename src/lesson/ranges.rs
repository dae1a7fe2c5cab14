//! Typical resting values.
use super::Quantity;

/// A typical range of healthy people at rest, whom it is for, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalRange {
    /// Whom it is for.
    pub group: Group,
    /// The lower end; `None` when only the upper end is stated.
    pub low: Option<f64>,
    /// The upper end.
    pub high: f64,
    /// The middle of the group, where stated.
    pub median: Option<f64>,
    /// Where it comes from.
    pub source: RangeSource,
}

/// Whom a range is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Adults.
    Adults,
    /// Men.
    Men,
    /// Women.
    Women,
    /// Boys of 12 to 16 years.
    Boys12To16,
    /// Girls of 12 to 16 years.
    Girls12To16,
}

/// Where a range comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RangeSource {
    /// d
    CommonTeaching,
}

/// d
pub fn typical_ranges(_quantity: Quantity) -> &'static [TypicalRange] {
    &[]
}
/// d
pub fn plausible(_quantity: Quantity, _value: f64) -> bool {
    true
}
