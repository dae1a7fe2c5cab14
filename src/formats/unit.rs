//! Names of units: of voltages in every format, of times in text.
//!
//! Spellings are compared in lower case, with the micro sign and the Greek letter, which look alike,
//! both as `u`.

use super::{TimeUnit, ValueUnit};

/// The unit of voltage of this name; `None` when it is none.
pub(super) fn voltage(name: &str) -> Option<ValueUnit> {
    let name = plain(name);
    if let Some(power) = power_of_volts(&name) {
        return power;
    }
    Some(match name.as_str() {
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
        "nv" | "nanovolt" | "nanovolts" | "nvolt" | "nvolts" | "nanovoltios" | "нв" => {
            ValueUnit::Nanovolt
        }
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
        "ns" | "nsec" | "nsecs" | "nanos" | "nanosec" | "nanosecond" | "nanoseconds"
        | "nanosekunden" | "nanosegundos" | "нс" => TimeUnit::Nanosecond,
        "h" | "hr" | "hrs" | "hour" | "hours" | "stunde" | "stunden" | "std" | "horas"
        | "heure" | "heures" | "uur" | "ч" => TimeUnit::Hour,
        "day" | "days" | "tag" | "tage" | "tagen" | "día" | "días" | "dia" | "dias" | "jour"
        | "jours" | "giorni" | "dagen" | "datenum" => TimeUnit::Day,
        "hh:mm:ss" | "hh:mm:ss.fff" | "hh:mm:ss.mmm" | "hh:mm:ss,fff" | "hh:mm:ss.sss"
        | "h:m:s" => TimeUnit::Clock,
        _ => return None,
    })
}

/// `10^-3 v`, `x10-6 v`, `1e-3 v`, `10**-9 v`: the unit, or none for a power without a name of ours.
/// Nothing when it is no power.
fn power_of_volts(name: &str) -> Option<Option<ValueUnit>> {
    let tens = name.strip_suffix("volts").or_else(|| name.strip_suffix('v'))?.trim_end();
    let tens = tens.trim_end_matches(['*', '·', '×', ' ']).trim_start_matches(['x', '×', '*', ' ']);
    let exponent = tens.strip_prefix("10").or_else(|| tens.strip_prefix("1e"))?;
    let exponent =
        exponent.trim_start_matches(['^', '*', '(', '{', ' ']).trim_end_matches([')', '}']);
    let known = [
        (["-3", "\u{2212}3", "\u{207b}\u{b3}"], ValueUnit::Millivolt),
        (["-6", "\u{2212}6", "\u{207b}\u{2076}"], ValueUnit::Microvolt),
        (["-9", "\u{2212}9", "\u{207b}\u{2079}"], ValueUnit::Nanovolt),
    ];
    Some(known.iter().find(|(spelt, _)| spelt.contains(&exponent)).map(|(_, unit)| *unit))
}

/// In lower case, micro as `u`, and without the space after the one letter of a prefix: `m V`.
fn plain(name: &str) -> String {
    let name = name.trim().to_lowercase().replace(['\u{b5}', '\u{3bc}', '\u{fffd}'], "u");
    match name.split_once(' ') {
        Some((prefix @ ("m" | "u" | "n"), unit)) => format!("{prefix}{}", unit.trim_start()),
        _ => name,
    }
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
        for name in ["m V", "10^-3 V", "x10-3 V", "1e-3 V", "10\u{207b}\u{b3} V", "10^(-3) volts"] {
            assert_eq!(voltage(name), Some(ValueUnit::Millivolt), "{name}");
        }
        assert_eq!(
            (voltage("nV"), voltage("10^-9 V")),
            (Some(ValueUnit::Nanovolt), Some(ValueUnit::Nanovolt))
        );
        assert_eq!((voltage("10 V"), voltage("10^-2 V"), voltage("10 uV")), (None, None, None));
        assert_eq!((time("µs"), time("mm")), (Some(TimeUnit::Microsecond), None));
        // A megavolt is no unit of an ECG, but people write MV.
        assert_eq!(voltage("MV"), Some(ValueUnit::Millivolt));
    }
}
