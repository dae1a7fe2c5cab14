//! What a file is when it is no recording: told by its first bytes, so that the student hears more than "no numbers".

use crate::words::{Phrase, phrase};

/// The first bytes of kinds of file that get dropped by mistake, and the messages that name them.
const SIGNATURES: [(&[u8], &str); 17] = [
    (b"%PDF", "faults.kind.pdf"),
    (b"\x89PNG", "faults.kind.png"),
    (b"\xFF\xD8\xFF", "faults.kind.jpeg"),
    (b"GIF8", "faults.kind.gif"),
    (b"BM\x00", "faults.kind.bmp"),
    (b"II*\x00", "faults.kind.tiff"),
    (b"MM\x00*", "faults.kind.tiff"),
    (b"\xD0\xCF\x11\xE0", "faults.kind.office"),
    (b"7z\xBC\xAF", "faults.kind.seven_zip"),
    (b"Rar!", "faults.kind.rar"),
    (b"BZh", "faults.kind.bzip"),
    (b"RIFF", "faults.kind.riff"),
    (b"ID3", "faults.kind.mp3"),
    (b"OggS", "faults.kind.ogg"),
    (b"SQLite format 3", "faults.kind.database"),
    (b"\x7FELF", "faults.kind.program"),
    (b"MZ\x90", "faults.kind.program"),
];

/// What a file is when its first bytes say that it is no recording.
pub(super) fn foreign(bytes: &[u8]) -> Option<Phrase> {
    if bytes.get(4..8) == Some(b"ftyp") {
        return Some(phrase!("faults.kind.film"));
    }
    if bytes.get(257..262) == Some(b"ustar") {
        return Some(phrase!("faults.kind.tar"));
    }
    SIGNATURES
        .iter()
        .find(|(start, _)| bytes.starts_with(start))
        .map(|(_, kind)| Phrase::message(kind))
}

/// Whether bytes begin as the documents of ours do: JSON whose first key is our name.
pub fn is_saved_work(bytes: &[u8]) -> bool {
    let object = bytes.trim_ascii_start().strip_prefix(b"{");
    object.is_some_and(|keys| keys.trim_ascii_start().starts_with(b"\"beatwalk\""))
}

/// Whether a decoded text is full of characters that no text has.
pub(super) fn is_binary(text: &str) -> bool {
    let (mut strange, mut all) = (0_usize, 0_usize);
    for sign in text.chars().take(64 * 1024) {
        all += 1;
        strange += usize::from(
            (sign.is_control() && !"\t\n\r\u{c}\u{1a}\u{85}".contains(sign)) || sign == '\u{fffd}',
        );
    }
    strange * 50 > all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_document_is_told_from_rows_of_numbers() {
        assert_eq!(foreign(b"%PDF-1.7"), Some(phrase!("faults.kind.pdf")));
        assert_eq!(foreign(b"0.0,1.5\n"), None);
        assert_eq!(
            foreign(&[&[0; 257], b"ustar".as_slice()].concat()),
            Some(phrase!("faults.kind.tar"))
        );
        assert!(is_saved_work(b" {\n\"beatwalk\": 1}") && !is_saved_work(b"{\"ecg\": [1]}"));
        assert!(is_binary("\0\u{1}\u{2}a") && !is_binary("t\tU [µV]\r\n0\t1\r\n"));
    }
}
