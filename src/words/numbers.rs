//! Numbers as they are shown: a chosen number of decimals, none that say nothing, a real minus sign;
//! and as they are typed, with a point or a comma.

/// A value with just so many decimals and a true minus sign; never minus zero.
pub fn decimal(value: f64, decimals: usize) -> String {
    let written = format!("{value:.decimals$}");
    match written.strip_prefix('-') {
        Some(rest) if rest.chars().all(|letter| matches!(letter, '0' | '.')) => rest.to_owned(),
        Some(rest) => format!("\u{2212}{rest}"),
        None => written,
    }
}

/// A value rounded to at most so many decimals, without zeros at the end. Not a number gives a dash.
pub fn figure(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let written = decimal(value, decimals);
    match written.split_once('.') {
        Some(_) => written.trim_end_matches('0').trim_end_matches('.').to_owned(),
        None => written,
    }
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
            .map(|(value, decimals)| figure(value, decimals));
        assert_eq!(written, ["4", "2.8", "−2.8", "0", "120", "–"]);
    }

    #[test]
    fn numbers_are_read_as_they_are_typed_and_shown() {
        let read = ["3.3", " 3,3 ", "\u{2212}0.5", "1e3"].map(typed);
        assert_eq!(read, [Some(3.3), Some(3.3), Some(-0.5), Some(1000.0)]);
        assert_eq!(["", "five", "1,000,000", "inf", "NaN", "3 V"].map(typed), [None; 6]);
    }

    #[test]
    fn zero_has_no_sign() {
        assert_eq!(decimal(-0.001, 1), "0.0");
        assert_eq!(decimal(-1.25, 2), "\u{2212}1.25");
    }
}
