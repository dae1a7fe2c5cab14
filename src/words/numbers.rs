//! Numbers as they are shown: the decimal mark of the language, a chosen number of decimals, none that
//! say nothing, a real minus sign; and as they are typed, with a point or a comma.

use super::Language;

/// A value with just so many decimals and a true minus sign; never minus zero.
pub fn decimal(language: Language, value: f64, decimals: usize) -> String {
    let written = format!("{value:.decimals$}");
    let (sign, digits) = match written.strip_prefix('-') {
        Some(rest) if rest.chars().all(|letter| matches!(letter, '0' | '.')) => ("", rest),
        Some(rest) => ("\u{2212}", rest),
        None => ("", &*written),
    };
    format!("{sign}{}", digits.replace('.', language.decimal_mark()))
}

/// A value rounded to at most so many decimals, without zeros at the end. Not a number gives a dash.
pub fn figure(language: Language, value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let written = decimal(language, value, decimals);
    let mark = language.decimal_mark();
    match written.split_once(mark) {
        Some(_) => written.trim_end_matches('0').trim_end_matches(mark).to_owned(),
        None => written,
    }
}

/// A value and how far it may be off: that to one digit, to two where the first is 1 or 2 (common
/// practice; JCGM 100:2008, 7.2.6 allows two at most), the value to a tenth at most. They stay on
/// one line.
pub fn with_uncertainty(language: Language, value: f64, uncertainty: f64) -> String {
    let decimals: usize = match uncertainty {
        3.0.. => 0,
        0.3.. => 1,
        0.03.. => 2,
        _ => 3,
    };
    let value = figure(language, value, decimals.min(1));
    format!("{value}\u{a0}±\u{a0}{}", figure(language, uncertainty, decimals))
}

/// A number as somebody types it, with a point or a comma, or as it was shown here; `None` for
/// anything else.
pub fn typed(text: &str) -> Option<f64> {
    let plain = text.trim().replace(',', ".").replace('\u{2212}', "-");
    plain.parse().ok().filter(|value: &f64| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_decimals_that_say_something() {
        let written = [(4.0, 1), (2.78, 1), (-2.78, 1), (-0.04, 1), (120.0, 0), (f64::NAN, 1)]
            .map(|(value, decimals)| figure(Language::English, value, decimals));
        assert_eq!(written, ["4", "2.8", "−2.8", "0", "120", "–"]);
    }

    #[test]
    fn an_uncertainty_has_the_digits_that_say_something() {
        let written = [(140.0, 0.82), (138.89, 2.6), (402.49, 17.4), (75.23, 0.077), (75.0, 0.0)]
            .map(|(value, off)| with_uncertainty(Language::English, value, off));
        let right = ["140 ± 0.8", "138.9 ± 2.6", "402 ± 17", "75.2 ± 0.08", "75 ± 0"];
        assert_eq!(written.map(|written| written.replace('\u{a0}', " ")), right);
    }

    #[test]
    fn numbers_are_read_as_they_are_typed_and_shown() {
        let read = ["3.3", " 3,3 ", "\u{2212}0.5", "1e3"].map(typed);
        assert_eq!(read, [Some(3.3), Some(3.3), Some(-0.5), Some(1000.0)]);
        assert_eq!(["", "five", "1,000,000", "inf", "NaN", "3 V"].map(typed), [None; 6]);
    }

    #[test]
    fn zero_has_no_sign() {
        assert_eq!(decimal(Language::English, -0.001, 1), "0.0");
        assert_eq!(decimal(Language::English, -1.25, 2), "\u{2212}1.25");
    }

    #[test]
    fn the_decimal_mark_is_that_of_the_language() {
        assert_eq!(decimal(Language::Spanish, -1.25, 2), "\u{2212}1,25");
        assert_eq!(figure(Language::Spanish, 2.50, 2), "2,5");
        assert_eq!(figure(Language::Spanish, 3.0, 2), "3");
    }
}
