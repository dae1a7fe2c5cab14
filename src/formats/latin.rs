//! Text and numbers in the headers of binary formats, as writers really leave them.

/// The text of some bytes: UTF-8, else Latin-1, where every byte is the character of its number.
pub(super) fn decode(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => bytes.iter().copied().map(char::from).collect(),
    }
}

/// A finite number. A decimal comma is taken for a point, the minus of typesetters for a hyphen.
pub(super) fn decimal(field: &str) -> Option<f64> {
    let number = field.parse().ok().or_else(|| {
        field.replace(',', ".").replace(['\u{2212}', '\u{2013}', '\u{96}'], "-").parse().ok()
    });
    number.filter(|number: &f64| number.is_finite())
}

/// A whole number, also when it is written as `10.0`.
pub(super) fn whole(field: &str) -> Option<i64> {
    let exact = |number: &f64| number.fract() == 0.0 && number.abs() < 2f64.powi(53);
    field.parse().ok().or_else(|| decimal(field).filter(exact).map(|number| number as i64))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_spellings_of_a_microvolt_are_one() {
        assert_eq!(decode(b"\xB5V"), "\u{b5}V");
        assert_eq!(decode("\u{b5}V".as_bytes()), "\u{b5}V");
    }

    #[test]
    fn numbers_are_read_as_people_write_them() {
        for (text, number) in [("-5", -5.0), ("+1,5", 1.5), ("\u{2212}2.5", -2.5), ("1e3", 1000.0)]
        {
            assert_eq!(decimal(text), Some(number), "{text}");
        }
        for text in ["", "x", "1,000.5", "nan", "inf", "1 0"] {
            assert_eq!(decimal(text), None, "{text}");
        }
        assert_eq!(
            (whole("-1"), whole("10.0"), whole("2.5"), whole("1e30")),
            (Some(-1), Some(10), None, None)
        );
    }
}
