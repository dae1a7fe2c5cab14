//! From bytes to UTF-8: read in place where they are UTF-8 already, decoded otherwise.
//!
//! A byte order mark decides. Without one, valid UTF-8 is UTF-8; many zero bytes at every other place
//! are UTF-16; for the rest see [`older`], most often windows-1252.

use super::decoding::decoded;
use super::older;
use std::borrow::Cow;

/// A text and how it was encoded.
#[derive(Debug)]
pub(super) struct Decoded<'a> {
    /// The text, without a byte order mark.
    pub(super) text: Cow<'a, str>,
    /// The name of the encoding in the WHATWG encoding standard.
    pub(super) encoding: &'static str,
    /// Whether a byte order mark was taken off.
    pub(super) marked: bool,
}

/// How many bytes are looked at to find an encoding.
const LOOK: usize = 64 * 1024;

/// How many lines with letters beyond ASCII are enough to tell the encoding, in bytes.
const ENOUGH: usize = 4 * 1024;

const MARKS: [(&[u8], &str); 3] =
    [(b"\xEF\xBB\xBF", "UTF-8"), (b"\xFF\xFE", "UTF-16LE"), (b"\xFE\xFF", "UTF-16BE")];

/// Decodes a whole file.
pub(super) fn decode(bytes: &[u8]) -> Decoded<'_> {
    let mark = MARKS.iter().find(|(mark, _)| bytes.starts_with(mark));
    let rest = bytes.get(mark.map_or(0, |(mark, _)| mark.len())..).unwrap_or_default();
    let (marked, encoding) = match mark {
        Some((_, encoding)) => (true, *encoding),
        None if has_every_other_zero(rest, 1) => (false, "UTF-16LE"),
        None if has_every_other_zero(rest, 0) => (false, "UTF-16BE"),
        None => (false, "UTF-8"),
    };
    let text = match encoding {
        "UTF-16LE" => two_bytes_each(rest, u16::from_le_bytes).into(),
        "UTF-16BE" => two_bytes_each(rest, u16::from_be_bytes).into(),
        _ => match std::str::from_utf8(rest) {
            Ok(text) => text.into(),
            // A letter of several bytes that the end of the file cuts off says nothing against UTF-8.
            Err(fault) if !marked && fault.error_len().is_some() => {
                let odd = rest.get(fault.valid_up_to().saturating_sub(LOOK / 2)..);
                let encoding = older::guess(&odd_lines(odd.unwrap_or_default()));
                let text = by_lines(encoding, rest).into();
                return Decoded { text, encoding, marked };
            }
            Err(_) => String::from_utf8_lossy(rest),
        },
    };
    Decoded { text, encoding, marked }
}

/// The first lines that are not ASCII, whole ones.
fn odd_lines(bytes: &[u8]) -> Vec<u8> {
    let mut odd = Vec::new();
    for line in bytes.get(..bytes.len().min(LOOK)).unwrap_or_default().split_inclusive(is_end) {
        if !line.is_ascii() && odd.len() < ENOUGH {
            odd.extend_from_slice(line.get(..line.len().min(ENOUGH)).unwrap_or_default());
        }
    }
    odd
}

/// Decodes only the lines that are not ASCII, those next to each other at once: a table of numbers is
/// nearly all ASCII, and no letter of several bytes has the end of a line within it.
fn by_lines(encoding: &str, mut bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() + bytes.len() / 64 + 64);
    while !bytes.is_empty() {
        let plain = bytes.iter().position(|byte| !byte.is_ascii()).unwrap_or(bytes.len());
        let (before, _) = bytes.split_at(plain);
        let start = before.iter().rposition(is_end).map_or(0, |end| end + 1);
        let (before, rest) = bytes.split_at(if plain == bytes.len() { plain } else { start });
        let odd: usize =
            rest.split_inclusive(is_end).take_while(|line| !line.is_ascii()).map(<[u8]>::len).sum();
        let (odd, after) = rest.split_at(odd);
        text.push_str(&String::from_utf8_lossy(before));
        match decoded(encoding, odd) {
            Some(lines) => text.push_str(&lines),
            None => text.extend(odd.iter().map(|&byte| char::from(byte))),
        }
        bytes = after;
    }
    text
}

fn is_end(byte: &u8) -> bool {
    *byte == b'\n'
}

/// UTF-16; halves of letters and a last single byte become U+FFFD.
fn two_bytes_each(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> String {
    let (pairs, single) = bytes.as_chunks::<2>();
    let mut text = String::with_capacity(pairs.len() + pairs.len() / 64 + 64);
    let letters = char::decode_utf16(pairs.iter().map(|&pair| unit(pair)));
    text.extend(letters.map(|letter| letter.unwrap_or(char::REPLACEMENT_CHARACTER)));
    if !single.is_empty() {
        text.push(char::REPLACEMENT_CHARACTER);
    }
    text
}

/// Whether at least half of the bytes at even (`0`) or odd (`1`) places are zero, and few of the others.
fn has_every_other_zero(bytes: &[u8], parity: usize) -> bool {
    let look = bytes.get(..bytes.len().min(LOOK) & !1).unwrap_or_default();
    let zeros =
        |parity: usize| look.iter().skip(parity).step_by(2).filter(|&&byte| byte == 0).count();
    look.len() >= 4 && zeros(parity) * 4 >= look.len() && zeros(1 - parity) * 40 <= look.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn utf8_is_read_in_place() {
        let decoded = decode(b"\xEF\xBB\xBFt,ecg");
        assert!(matches!(decoded.text, Cow::Borrowed("t,ecg")) && decoded.marked);
    }

    #[test]
    fn two_bytes_a_character_with_or_without_a_mark() {
        let little: Vec<u8> = "t\tµV\n1".encode_utf16().flat_map(u16::to_le_bytes).collect();
        let big: Vec<u8> = "t\tµV\n1".encode_utf16().flat_map(u16::to_be_bytes).collect();
        assert_eq!(decode(&little).text, "t\tµV\n1");
        assert_eq!(decode(&big).text, "t\tµV\n1");
        assert_eq!(decode(&[b"\xFF\xFE", little.as_slice()].concat()).text, "t\tµV\n1");
    }

    #[test]
    fn one_byte_letters_beyond_ascii_are_windows_1252() {
        let decoded = decode(b"Zeit;Spannung [\xB5V] f\xFCr EKG\n0;1\n");
        assert_eq!((decoded.text.contains("µV"), decoded.encoding), (true, "windows-1252"));
    }
}
