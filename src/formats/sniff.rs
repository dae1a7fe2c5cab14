//! What a file is when it is no recording: told by its first bytes, so that the student hears more than "no numbers".

/// The first bytes of kinds of file that get dropped by mistake, and what to call them.
const SIGNATURES: [(&[u8], &str); 17] = [
    (b"%PDF", "a PDF document"),
    (b"\x89PNG", "an image (PNG)"),
    (b"\xFF\xD8\xFF", "a photo (JPEG)"),
    (b"GIF8", "an image (GIF)"),
    (b"BM\x00", "an image (BMP)"),
    (b"II*\x00", "an image (TIFF)"),
    (b"MM\x00*", "an image (TIFF)"),
    (b"\xD0\xCF\x11\xE0", "a spreadsheet or document (XLS, DOC)"),
    (b"7z\xBC\xAF", "a compressed archive (7Z)"),
    (b"Rar!", "a compressed archive (RAR)"),
    (b"BZh", "a compressed archive (BZ2)"),
    (b"RIFF", "a film or an image (AVI, WEBP)"),
    (b"ID3", "a sound (MP3)"),
    (b"OggS", "a sound (OGG)"),
    (b"SQLite format 3", "a database"),
    (b"\x7FELF", "a program"),
    (b"MZ\x90", "a program"),
];

/// What a file is when its first bytes say that it is no recording.
pub(super) fn foreign(bytes: &[u8]) -> Option<&'static str> {
    if bytes.get(4..8) == Some(b"ftyp") {
        return Some("a film or a photo (MP4, HEIC)");
    }
    if bytes.get(257..262) == Some(b"ustar") {
        return Some("an archive (TAR)");
    }
    SIGNATURES.iter().find(|(start, _)| bytes.starts_with(start)).map(|(_, kind)| *kind)
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
        assert_eq!(foreign(b"%PDF-1.7"), Some("a PDF document"));
        assert_eq!(foreign(b"0.0,1.5\n"), None);
        assert_eq!(foreign(&[&[0; 257], b"ustar".as_slice()].concat()), Some("an archive (TAR)"));
        assert!(is_saved_work(b" {\n\"beatwalk\": 1}") && !is_saved_work(b"{\"ecg\": [1]}"));
        assert!(is_binary("\0\u{1}\u{2}a") && !is_binary("t\tU [µV]\r\n0\t1\r\n"));
    }
}
