//! Typical resting values, whom they are for and where they come from.
//!
//! They are shown beside a result, never used to judge it: a range holds most healthy people, not
//! all, and one lead on a class sensor reads P, QRS and QT some milliseconds short of the twelve
//! leads that the ranges come from. No table for 16 to 18 years is at hand: they see both groups.

use super::Quantity;
use crate::analysis::QtCorrection;
use Group::{Adults, Boys12To16, Girls12To16, Men, Women};
use RangeSource::{CommonTeaching, Rautaharju2009, Rijnbeek2001, Surawicz2009};

/// A range of healthy people at rest.
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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

impl Group {
    /// All of them.
    pub const ALL: [Self; 5] = [Adults, Men, Women, Boys12To16, Girls12To16];

    /// The key of its name.
    pub const fn name_key(self) -> &'static str {
        match self {
            Adults => "ranges.group.adults",
            Men => "ranges.group.men",
            Women => "ranges.group.women",
            Boys12To16 => "ranges.group.boys_12_to_16",
            Girls12To16 => "ranges.group.girls_12_to_16",
        }
    }
}

/// Where a range comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RangeSource {
    /// Limits that textbooks and teaching pages agree on.
    CommonTeaching,
    /// Surawicz et al. 2009, J Am Coll Cardiol 53:976, as quoted in a university teaching note.
    Surawicz2009,
    /// Rautaharju et al. 2009, J Am Coll Cardiol 53:982, as quoted in teaching pages.
    Rautaharju2009,
    /// Rijnbeek et al. 2001, Eur Heart J 22:702: 2nd to 98th percentile of 1912 healthy children,
    /// from transcriptions of its tables.
    Rijnbeek2001,
}

impl RangeSource {
    /// All of them.
    pub const ALL: [Self; 4] = [CommonTeaching, Surawicz2009, Rautaharju2009, Rijnbeek2001];

    /// The key of its citation.
    pub const fn name_key(self) -> &'static str {
        match self {
            CommonTeaching => "ranges.source.common_teaching",
            Surawicz2009 => "ranges.source.surawicz_2009",
            Rautaharju2009 => "ranges.source.rautaharju_2009",
            Rijnbeek2001 => "ranges.source.rijnbeek_2001",
        }
    }
}

const fn adults(group: Group, low: Option<f64>, high: f64, source: RangeSource) -> TypicalRange {
    TypicalRange { group, low, high, median: None, source }
}

const fn teenagers(group: Group, median: f64, low: f64, high: f64) -> TypicalRange {
    TypicalRange { group, low: Some(low), high, median: Some(median), source: Rijnbeek2001 }
}

/// A minute in the unit of RR.
const MINUTE: f64 = 60_000.0;

/// Typical values of a quantity, in its unit. QT has none: it follows the rate, so compare QTc.
/// The teenagers' QTc is Bazett's; the limits for adults are for any QT adjusted for rate.
pub const fn typical_ranges(quantity: Quantity) -> &'static [TypicalRange] {
    match quantity {
        Quantity::Pr => {
            const {
                &[
                    adults(Adults, Some(120.0), 200.0, CommonTeaching),
                    teenagers(Boys12To16, 139.0, 107.0, 178.0),
                    teenagers(Girls12To16, 135.0, 106.0, 176.0),
                ]
            }
        }
        Quantity::Qrs => {
            const {
                &[
                    adults(Adults, None, 110.0, Surawicz2009),
                    teenagers(Boys12To16, 91.0, 78.0, 111.0),
                    teenagers(Girls12To16, 87.0, 72.0, 106.0),
                ]
            }
        }
        Quantity::Qt => &[],
        Quantity::Qtc(QtCorrection::Bazett) => {
            const {
                &[
                    adults(Men, Some(390.0), 450.0, Rautaharju2009),
                    adults(Women, Some(390.0), 460.0, Rautaharju2009),
                    teenagers(Boys12To16, 407.0, 362.0, 449.0),
                    teenagers(Girls12To16, 414.0, 370.0, 457.0),
                ]
            }
        }
        Quantity::Qtc(_) => {
            const {
                &[
                    adults(Men, Some(390.0), 450.0, Rautaharju2009),
                    adults(Women, Some(390.0), 460.0, Rautaharju2009),
                ]
            }
        }
        // Turned round from the rate.
        Quantity::Rr => {
            const {
                &[
                    adults(Adults, Some(MINUTE / 100.0), MINUTE / 60.0, CommonTeaching),
                    teenagers(Boys12To16, MINUTE / 73.0, MINUTE / 99.0, MINUTE / 48.0),
                    teenagers(Girls12To16, MINUTE / 76.0, MINUTE / 107.0, MINUTE / 54.0),
                ]
            }
        }
        Quantity::Rate => {
            const {
                &[
                    adults(Adults, Some(60.0), 100.0, CommonTeaching),
                    teenagers(Boys12To16, 73.0, 48.0, 99.0),
                    teenagers(Girls12To16, 76.0, 54.0, 107.0),
                ]
            }
        }
    }
}

/// Whether a value can be a heart at all. Outside, the first question is whether the marks stand
/// where they were meant. Wide on purpose, and common practice.
pub fn plausible(quantity: Quantity, value: f64) -> bool {
    let possible = match quantity {
        Quantity::Pr => 80.0..=300.0,
        Quantity::Qrs => 40.0..=160.0,
        Quantity::Qt | Quantity::Qtc(_) => 200.0..=600.0,
        Quantity::Rr => MINUTE / 220.0..=MINUTE / 30.0,
        Quantity::Rate => 30.0..=220.0,
    };
    possible.contains(&value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_typical_value_is_plausible_and_lies_in_order() {
        for quantity in Quantity::ALL {
            for range in typical_ranges(quantity) {
                let values: Vec<f64> =
                    [range.low, range.median, Some(range.high)].into_iter().flatten().collect();
                assert!(values.is_sorted(), "{quantity:?} {range:?}");
                let low = range.low.unwrap_or(range.high);
                assert!(plausible(quantity, low) && plausible(quantity, range.high), "{range:?}");
            }
        }
    }
}
