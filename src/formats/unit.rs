//! Names of units: of voltages in every format, of times in text.
//!
//! Spellings are compared in lower case, with the micro sign and the Greek letter, which look alike,
//! both as `u`.

use super::{TimeUnit, ValueUnit};

/// The unit of voltage of this name; `None` when it is none.
pub(super) fn voltage(name: &str) -> Option<ValueUnit> {
    Some(match plain(name).as_str() {
        "mv"
        | "millivolt"
        | "millivolts"
        | "mvolt"
        | "mvolts"
        | "milivoltios"
        | "milivolts"
        | "мв"
        | "милливольт" => ValueUnit::Millivolt,
        "uv"
        | "microvolt"
        | "microvolts"
        | "uvolt"
        | "uvolts"
        | "mikrovolt"
        | "microvoltios"
        | "mkv"
        | "мкв"
        | "микровольт" => ValueUnit::Microvolt,
        "v" | "volt" | "volts" | "voltios" | "в" | "вольт" => ValueUnit::Volt,
        "adu" | "count" | "counts" | "digit" | "digits" => ValueUnit::Counts,
        _ => return None,
    })
}

/// What a logger calls the steps of its converter.
pub(super) fn counts(name: &str) -> Option<ValueUnit> {
    matches!(
        plain(name).as_str(),
        "adc"
            | "raw"
            | "lsb"
            | "analogread"
            | "bits"
            | "a/d units"
            | "adc units"
            | "adc counts"
            | "raw counts"
            | "raw adc"
            | "adc value"
            | "adc code"
            | "code"
            | "codes"
            | "steps"
    )
    .then_some(ValueUnit::Counts)
}

/// The unit of time of this name; `None` when it is none.
pub(super) fn time(name: &str) -> Option<TimeUnit> {
    Some(match plain(name).as_str() {
        "s" | "sec" | "secs" | "second" | "seconds" | "sek" | "sekunde" | "sekunden"
        | "sekunder" | "segundo" | "segundos" | "seconde" | "secondes" | "seconden" | "secondi"
        | "sekundy" | "sekunti" | "с" | "сек" | "секунды" | "秒" => TimeUnit::Second,
        "ms" | "msec" | "msecs" | "millis" | "millisec" | "millisecond" | "milliseconds"
        | "millisekunden" | "milisegundos" | "millisecondes" | "millisecondi" | "milliseconden"
        | "мс" | "毫秒" | "ミリ秒" => TimeUnit::Millisecond,
        "us" | "usec" | "usecs" | "micros" | "microsec" | "microsecond" | "microseconds"
        | "mikrosekunden" | "microsegundos" | "мкс" => TimeUnit::Microsecond,
        "min" | "mins" | "minute" | "minutes" | "minuten" | "minutos" | "minuti" | "мин" => {
            TimeUnit::Minute
        }
        "hh:mm:ss" | "hh:mm:ss.fff" | "hh:mm:ss.mmm" | "hh:mm:ss,fff" | "hh:mm:ss.sss"
        | "h:m:s" => TimeUnit::Clock,
        _ => return None,
    })
}

fn plain(name: &str) -> String {
    name.trim().to_lowercase().replace(['\u{b5}', '\u{3bc}', '\u{fffd}'], "u")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_has_many_spellings() {
        for name in ["mV", "Millivolts", " mvolt ", "мВ"] {
            assert_eq!(voltage(name), Some(ValueUnit::Millivolt), "{name}");
        }
        for name in ["\u{b5}V", "\u{3bc}V", "uV", "mkV"] {
            assert_eq!(voltage(name), Some(ValueUnit::Microvolt), "{name}");
        }
        assert_eq!((time("µs"), time("mm")), (Some(TimeUnit::Microsecond), None));
        // A megavolt is no unit of an ECG, but people write MV.
        assert_eq!(voltage("MV"), Some(ValueUnit::Millivolt));
    }
}
