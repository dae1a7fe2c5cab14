//! What notes call delimiters and units.

use super::super::{Delimiter, TimeUnit, ValueUnit};

pub(super) const fn separated_by(delimiter: Delimiter) -> &'static str {
    match delimiter {
        Delimiter::Comma => "commas",
        Delimiter::Semicolon => "semicolons",
        Delimiter::Tab => "tabs",
        Delimiter::Space => "spaces",
    }
}

pub(super) const fn unit_name(unit: ValueUnit) -> &'static str {
    match unit {
        ValueUnit::Volt => "V",
        ValueUnit::Millivolt => "mV",
        ValueUnit::Microvolt => "µV",
        ValueUnit::Counts => "converter counts",
        ValueUnit::Unstated => "an unknown unit",
    }
}

pub(super) const fn time_unit_name(unit: TimeUnit) -> &'static str {
    match unit {
        TimeUnit::Second => "seconds",
        TimeUnit::Millisecond => "milliseconds",
        TimeUnit::Microsecond => "microseconds",
        TimeUnit::Minute => "minutes",
        TimeUnit::Clock => "times of day",
        TimeUnit::SampleNumber => "sample numbers",
    }
}
