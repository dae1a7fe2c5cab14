//! From bytes to UTF-8: read in place where they are UTF-8 already, decoded otherwise.
//!
//! A byte order mark decides. Without one, valid UTF-8 is UTF-8; many zero bytes at every other place
//! are UTF-16; the rest is what `chardetng` makes of it, most often windows-1252.

use chardetng::{EncodingDetector, Iso2022JpDetection, Utf8Detection};
use encoding_rs::{CoderResult, Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
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

/// Decodes a whole file.
pub(super) fn decode(bytes: &[u8]) -> Decoded<'_> {
    let (encoding, mark) = Encoding::for_bom(bytes).unwrap_or((UTF_8, 0));
    let rest = bytes.get(mark..).unwrap_or_default();
    let encoding = match mark {
        0 if has_every_other_zero(rest, 1) => UTF_16LE,
        0 if has_every_other_zero(rest, 0) => UTF_16BE,
        _ => encoding,
    };
    let encoding = match std::str::from_utf8(rest) {
        Ok(text) if encoding == UTF_8 => {
            return Decoded { text: text.into(), encoding: encoding.name(), marked: mark > 0 };
        }
        // A letter of several bytes that the end of the file cuts off says nothing against UTF-8.
        Err(fault) if mark == 0 && encoding == UTF_8 && fault.error_len().is_some() => {
            let odd = rest.get(fault.valid_up_to().saturating_sub(LOOK / 2)..).unwrap_or_default();
            let mut detector = EncodingDetector::new(Iso2022JpDetection::Deny);
            let odd = odd.get(..odd.len().min(LOOK)).unwrap_or_default();
            detector.feed(odd, true);
            let guess = detector.guess(None, Utf8Detection::Deny);
            if looks_western(odd, guess) { WINDOWS_1252 } else { guess }
        }
        _ => encoding,
    };
    let text = decode_tightly(encoding, rest);
    Decoded { text: text.into(), encoding: encoding.name(), marked: mark > 0 }
}

/// Decodes into little more room than is needed: the crate's own one call sets three bytes aside for
/// each, and a table of numbers is nearly all ASCII.
fn decode_tightly(encoding: &'static Encoding, mut rest: &[u8]) -> String {
    let mut decoder = encoding.new_decoder_without_bom_handling();
    let is_wide = encoding == UTF_16LE || encoding == UTF_16BE;
    let likely = if is_wide { rest.len() / 2 } else { rest.len() };
    let mut text = String::with_capacity(likely + likely / 64 + 64);
    loop {
        let (result, read, _) = decoder.decode_to_string(rest, &mut text, true);
        rest = rest.get(read..).unwrap_or_default();
        match result {
            CoderResult::InputEmpty => return text,
            CoderResult::OutputFull => text.reserve_exact(text.len() / 8 + 64),
        }
    }
}

/// Whether a guess made from very few letters is better not followed: a table of numbers has hardly any
/// beyond ASCII, and one `µV` is not Chinese. Letters of several bytes come next to each other, those
/// of the West alone; and 0xB5 before a unit is a micro sign.
fn looks_western(bytes: &[u8], guess: &'static Encoding) -> bool {
    let micro = bytes.windows(2).any(|two| matches!(two, [0xB5, b'V' | b'v' | b's' | b'A']));
    let high = |byte: &&u8| **byte >= 0x80;
    let beside = bytes.windows(2).filter(|two| two.iter().all(|byte| *byte >= 0x80)).count();
    micro || !guess.is_single_byte() && beside * 4 < bytes.iter().filter(high).count()
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
