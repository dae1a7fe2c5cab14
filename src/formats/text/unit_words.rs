//! Units as people write them in the head of a table: `Time (s)`, `t/ms`, `ecg_mV`, `U [µV]`.
//!
//! A unit stands in brackets, after a stroke or an underscore, as the last word of the name, or alone.

use super::super::unit as names;
use super::super::{TimeUnit, ValueUnit};

/// A column's unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unit {
    Time(TimeUnit),
    Value(ValueUnit),
}

/// The unit that this word is; `None` when it is none.
pub(super) fn unit(word: &str) -> Option<Unit> {
    let word = word.trim().trim_matches([
        '(', ')', '[', ']', '{', '}', '<', '>', '|', '"', '\'', '.', '\u{ff08}', '\u{ff09}',
    ]);
    let value = || names::voltage(word).or_else(|| names::counts(word)).map(Unit::Value);
    names::time(word).map(Unit::Time).or_else(value)
}

/// The name of a column without its unit, and the unit.
pub(super) fn name_and_unit(head: &str) -> (String, Option<Unit>) {
    let head = head.trim();
    if let Some(found) = unit(head) {
        return (head.to_owned(), Some(found));
    }
    if let Some(open) = head.rfind(['(', '[', '{', '<', '|', '\u{ff08}'])
        && let (name, inside) = head.split_at(open)
        && let Some(found) = unit(inside)
    {
        return (name.trim().to_owned(), Some(found));
    }
    if let Some((name, inside)) = scaled_unit(head) {
        return (name.to_owned(), inside);
    }
    if let Some((name, last)) = head.rsplit_once(|sign: char| " _/,-:".contains(sign))
        // Half of what stands in brackets is another unit: `(10^-3 V)`.
        && !(head.ends_with([')', ']']) && name.contains(['(', '[']))
        && let Some(found) = unit(last)
    {
        let name = name.trim_end_matches([' ', '_', '/', ',', '-', ':']);
        // `time in s`, `Zeit in ms`
        let name = name.strip_suffix(" in").unwrap_or(name);
        return (name.trim().to_owned(), Some(found));
    }
    if let Some(found) = camel_case_unit(head) {
        return found;
    }
    (head.to_owned(), value_unit_in(head))
}

/// `ecg / m V`, `ecg 10^-3 V`: a unit of two words, which is not the one of its second word alone; none when
/// the first is a scale without a unit of ours.
fn scaled_unit(head: &str) -> Option<(&str, Option<Unit>)> {
    let (rest, last) = head.rsplit_once(' ')?;
    let rest = rest.trim_end();
    let from = rest.rfind([' ', '/', ',']).map_or(0, |at| at + 1);
    let (name, scale) = rest.split_at_checked(from)?;
    // A number alone is a channel's: `lead 2 mV`.
    let ten = scale.trim_start_matches(['x', '×', '*']);
    let exponent = ten.strip_prefix("10").or_else(|| ten.strip_prefix("1e"));
    let is_power =
        exponent.is_some_and(|rest| rest.starts_with(|sign: char| !sign.is_ascii_digit()));
    let is_scale = is_power || ["m", "u", "µ", "μ", "n", "k"].contains(&scale);
    let both = || unit(&format!("{scale} {last}"));
    (is_scale && matches!(unit(last), Some(Unit::Value(_))) && !head.ends_with([')', ']']))
        .then(|| (name.trim_end_matches([' ', '/', ',', ':']), both()))
}

/// `timeMs`, `ecgMv`, `leadImV`: a unit joined to the name and told by its capitals.
fn camel_case_unit(head: &str) -> Option<(String, Option<Unit>)> {
    ["Ms", "Us", "Mv", "mV", "MV", "uV", "µV", "Sec", "Seconds", "Millis", "Micros"]
        .iter()
        .find_map(|ending| {
            let name = head.strip_suffix(ending)?;
            let joins = name.ends_with(|sign: char| sign.is_lowercase() || sign.is_ascii_digit());
            joins.then(|| (name.to_owned(), unit(ending)))
        })
}

/// `raw ecg`, `ADC value`, `EKG in mV, Abtastrate 200 Hz`: any word of two letters or more. Beside a number,
/// as in `(10 uV)`, a voltage may be scaled and is not believed.
fn value_unit_in(head: &str) -> Option<Unit> {
    head.split([',', ';', '(', ')', '[', ']']).find_map(|part| {
        let numbered = part.contains(|sign: char| sign.is_ascii_digit());
        part.split(|sign: char| !sign.is_alphanumeric())
            .filter(|word| word.chars().count() > 1)
            .find_map(|word| {
                unit(word).filter(|unit| match unit {
                    Unit::Value(ValueUnit::Counts) => true,
                    Unit::Value(_) => !numbered,
                    Unit::Time(_) => false,
                })
            })
    })
}

/// Words that name a time column, in lower case.
const TIME: [&str; 30] = [
    "t",
    "time",
    "times",
    "timestamp",
    "zeit",
    "tiempo",
    "temps",
    "tempo",
    "clock",
    "uhrzeit",
    "hora",
    "when",
    "date",
    "datetime",
    "elapsed",
    "stamp",
    "epoch",
    "tijd",
    "tid",
    "zeitstempel",
    "fecha",
    "czas",
    "aika",
    "idő",
    "čas",
    "süre",
    "время",
    "時間",
    "时间",
    "millis",
];

/// Words that name a column of sample numbers, in lower case.
const MARK: [&str; 26] = [
    "mark",
    "marks",
    "marker",
    "markers",
    "event",
    "events",
    "trigger",
    "trig",
    "tap",
    "taps",
    "note",
    "notes",
    "comment",
    "comments",
    "annotation",
    "annotations",
    "label",
    "labels",
    "button",
    "marke",
    "ereignis",
    "evento",
    "marca",
    "nota",
    "repère",
    "événement",
];
const NUMBER: [&str; 12] = [
    "sample", "samples", "index", "idx", "n", "no", "nr", "number", "row", "seq", "sequence",
    "counter",
];

fn words(name: &str) -> Vec<String> {
    name.split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}

/// Whether a column of this name holds a time.
pub(super) fn names_time(name: &str) -> bool {
    words(name).iter().any(|word| TIME.contains(&word.as_str()) || word.starts_with("timestamp"))
}

/// Whether a column of this name holds marks.
pub(super) fn names_mark(name: &str) -> bool {
    words(name)
        .iter()
        .any(|word| MARK.contains(&word.trim_end_matches(|sign: char| sign.is_ascii_digit())))
}

/// Whether a column of this name holds sample numbers.
pub(super) fn names_sample_number(name: &str) -> bool {
    name.trim() == "#" || words(name).iter().any(|word| NUMBER.contains(&word.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_is_found_in_any_usual_place() {
        let milli = Some(Unit::Value(ValueUnit::Millivolt));
        for head in [
            "ecg_mV",
            "lead 2 mV",
            "lead 10 mV",
            "ECG (mV)",
            "lead I [mV]",
            "I/mV",
            "ecg, mV",
            "ecgMv",
            "EKG in mV",
            "mV",
        ] {
            assert_eq!(name_and_unit(head).1, milli, "{head}");
        }
        for head in ["U [µV]", "I/uV", "ecg_μV", "I (microvolts)"] {
            assert_eq!(name_and_unit(head).1, Some(Unit::Value(ValueUnit::Microvolt)), "{head}");
        }
        for (head, unit) in [
            ("Zeit (s)", TimeUnit::Second),
            ("t/ms", TimeUnit::Millisecond),
            ("timeMs", TimeUnit::Millisecond),
            ("time_us", TimeUnit::Microsecond),
            ("elapsed [min]", TimeUnit::Minute),
        ] {
            assert_eq!(name_and_unit(head).1, Some(Unit::Time(unit)), "{head}");
        }
    }

    #[test]
    fn the_name_of_a_lead_is_not_a_unit() {
        for head in ["I", "V1", "aVR", "ecg", "EKG", "lead II", "items"] {
            assert_eq!(name_and_unit(head), (head.to_owned(), None));
        }
        assert_eq!(name_and_unit("ECG (mV)").0, "ECG");
    }

    #[test]
    fn a_scaled_unit_is_not_taken_for_the_plain_one() {
        for head in ["ecg (10^-2 V)", "ecg / 10^-2 V", "ECG (10 uV)", "U (0.1 mV)"] {
            assert_eq!(name_and_unit(head).1, None, "{head}");
        }
        for head in ["ecg (10^-3 V)", "ecg (m V)", "ecg [x10-3 V]", "ecg / m V", "ecg, 10^-3 V"] {
            let milli = Some(Unit::Value(ValueUnit::Millivolt));
            assert_eq!(name_and_unit(head), ("ecg".to_owned(), milli), "{head}");
        }
    }
}
