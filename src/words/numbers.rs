//! Numbers as they are shown: a chosen number of decimals, none that say nothing, a real minus sign.

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
    fn zero_has_no_sign() {
        assert_eq!(decimal(-0.001, 1), "0.0");
        assert_eq!(decimal(-1.25, 2), "\u{2212}1.25");
    }
}
