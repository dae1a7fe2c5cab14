//! The names that binary formats give a unit of voltage.

use super::ValueUnit;

/// The unit of this name; `None` when it is no voltage.
pub(super) fn named(name: &str) -> Option<ValueUnit> {
    Some(match name.trim().to_lowercase().as_str() {
        "mv" | "millivolt" | "millivolts" | "mvolt" | "mvolts" => ValueUnit::Millivolt,
        // The micro sign and the Greek letter look alike but are two characters.
        "uv" | "\u{b5}v" | "\u{3bc}v" | "microvolt" | "microvolts" | "uvolt" | "uvolts"
        | "\u{b5}volt" | "\u{3bc}volt" => ValueUnit::Microvolt,
        "v" | "volt" | "volts" => ValueUnit::Volt,
        "adu" | "count" | "counts" | "digit" | "digits" => ValueUnit::Counts,
        _ => return None,
    })
}
