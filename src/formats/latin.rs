//! Text in the headers of binary formats: UTF-8 by the letter or in practice, else Latin-1.

/// The text of some bytes. Every byte that is no UTF-8 is the character of its number.
pub(super) fn decode(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => bytes.iter().copied().map(char::from).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_spellings_of_a_microvolt_are_one() {
        assert_eq!(decode(b"\xB5V"), "\u{b5}V");
        assert_eq!(decode("\u{b5}V".as_bytes()), "\u{b5}V");
    }
}
