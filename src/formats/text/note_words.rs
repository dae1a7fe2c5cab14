//! What notes call delimiters, units, and the reasons to leave a column out.

use super::super::{Delimiter, TimeUnit, ValueUnit};
use crate::words::{Phrase, phrase};

/// Why a column of numbers was not taken for a trace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// The same value everywhere.
    Constant,
    /// Two values only: a switch.
    Switch,
    /// A number that counts up.
    Counter,
    /// Words that are the same on all rows, or others on nearly every one.
    Words,
}

pub(super) const fn separated_by(delimiter: Delimiter) -> Phrase {
    match delimiter {
        Delimiter::Comma => phrase!("repairs.text.by.comma"),
        Delimiter::Semicolon => phrase!("repairs.text.by.semicolon"),
        Delimiter::Tab => phrase!("repairs.text.by.tab"),
        Delimiter::Space => phrase!("repairs.text.by.space"),
        Delimiter::Bar => phrase!("repairs.text.by.bar"),
    }
}

pub(super) fn unit_name(unit: ValueUnit) -> Phrase {
    match unit {
        ValueUnit::Volt => "V".into(),
        ValueUnit::Millivolt => "mV".into(),
        ValueUnit::Microvolt => "µV".into(),
        ValueUnit::Nanovolt => "nV".into(),
        ValueUnit::Counts => phrase!("repairs.text.counts"),
        ValueUnit::Unstated => phrase!("repairs.text.no_unit"),
    }
}

pub(super) const fn time_unit_name(unit: TimeUnit) -> Phrase {
    match unit {
        TimeUnit::Second => phrase!("repairs.text.time_unit.second"),
        TimeUnit::Millisecond => phrase!("repairs.text.time_unit.millisecond"),
        TimeUnit::Microsecond => phrase!("repairs.text.time_unit.microsecond"),
        TimeUnit::Minute => phrase!("repairs.text.time_unit.minute"),
        TimeUnit::Nanosecond => phrase!("repairs.text.time_unit.nanosecond"),
        TimeUnit::Hour => phrase!("repairs.text.time_unit.hour"),
        TimeUnit::Day => phrase!("repairs.text.time_unit.day"),
        TimeUnit::Clock => phrase!("repairs.text.time_unit.clock"),
        TimeUnit::SampleNumber => phrase!("repairs.text.time_unit.sample_number"),
    }
}

pub(super) const fn left_out_because(why: LeftOut) -> Phrase {
    match why {
        LeftOut::Constant => phrase!("repairs.text.why.constant"),
        LeftOut::Switch => phrase!("repairs.text.why.switch"),
        LeftOut::Counter => phrase!("repairs.text.why.counter"),
        LeftOut::Words => phrase!("repairs.text.why.words"),
    }
}
