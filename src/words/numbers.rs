//! Numbers as they are shown: a chosen number of decimals, none that say nothing, a real minus sign.

/// A value rounded to at most so many decimals, without zeros at the end. Not a number gives a dash.
pub fn figure(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let written = format!("{value:.decimals$}");
    let short = match written.split_once('.') {
        Some(_) => written.trim_end_matches('0').trim_end_matches('.'),
        None => &written,
    };
    match short.strip_prefix('-') {
        Some("0") => "0".to_owned(),
        Some(size) => format!("−{size}"),
        None => short.to_owned(),
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
}
