//! The chunks of a RIFF file: four letters, a length, as many bytes, and one more when they are odd.

use super::fault::WavFault;

/// The two chunks that matter.
#[derive(Debug, PartialEq)]
pub(super) struct Chunks<'a> {
    /// What the samples are.
    pub(super) format: &'a [u8],
    /// The samples, as far as the file has them.
    pub(super) data: &'a [u8],
    /// How many bytes of samples the file promises; `None` when the recorder never wrote it.
    pub(super) promised: Option<usize>,
}

/// Whether a file begins as WAV does.
pub(super) fn begins(bytes: &[u8]) -> bool {
    let is_riff = [b"RIFF", b"RF64", b"BW64"].iter().any(|start| bytes.starts_with(*start));
    is_riff && bytes.get(8..12) == Some(b"WAVE")
}

impl<'a> Chunks<'a> {
    /// Finds both. What follows the samples is not looked at once the format is known.
    pub(super) fn find(bytes: &'a [u8]) -> Result<Self, WavFault> {
        if !begins(bytes) {
            return Err(WavFault::OtherKind);
        }
        let whole = word(bytes, 4).unwrap_or(0);
        let (mut format, mut data, mut long) = (None, None, None);
        let mut at = 12;
        while let Some(length) = word(bytes, at + 4) {
            let begin = at + 8;
            let rest = bytes.get(begin..).unwrap_or_default();
            let held = rest.get(..length).unwrap_or(rest);
            match bytes.get(at..at + 4) {
                Some(b"fmt ") => format = format.or(Some(held)),
                // The length of the samples in eight bytes; a file that can come here needs four.
                Some(b"ds64") => long = word(held, 8).filter(|_| word(held, 12) == Some(0)),
                Some(b"data") if data.is_none() => {
                    // A recorder writes both lengths last: 0 or all ones stand for "not yet".
                    let never_closed =
                        length == u32::MAX as usize || (length == 0 && whole <= begin);
                    data = Some(match (never_closed, long) {
                        (true, None) => (rest, None),
                        (true, Some(long)) => (rest.get(..long).unwrap_or(rest), Some(long)),
                        (false, _) => (held, Some(length)),
                    });
                }
                _ => {}
            }
            if format.is_some() && data.is_some() {
                break;
            }
            at = begin.saturating_add(length).saturating_add(length % 2);
            if at > bytes.len() {
                break;
            }
        }
        let format = format.ok_or(WavFault::ChunkMissing { chunk: "fmt" })?;
        let (data, promised) = data.ok_or(WavFault::ChunkMissing { chunk: "data" })?;
        Ok(Self { format, data, promised })
    }
}

/// Four bytes as a number, low byte first.
pub(super) fn word(bytes: &[u8], at: usize) -> Option<usize> {
    let four: [u8; 4] = bytes.get(at..at.checked_add(4)?)?.try_into().ok()?;
    usize::try_from(u32::from_le_bytes(four)).ok()
}

/// Two bytes as a number, low byte first.
pub(super) fn half(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(bytes.get(at..at.checked_add(2)?)?.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn riff(length: u32, chunks: &[(&[u8; 4], u32, &[u8])]) -> Vec<u8> {
        let mut file = [b"RIFF".as_slice(), &length.to_le_bytes(), b"WAVE"].concat();
        for (name, length, bytes) in chunks {
            file.extend([name.as_slice(), &length.to_le_bytes(), bytes].concat());
        }
        file
    }

    #[test]
    fn odd_chunks_are_filled_up_and_others_skipped() {
        let chunks: [(&[u8; 4], u32, &[u8]); 4] = [
            (b"LIST", 3, b"abc\0"),
            (b"fmt ", 2, b"FF"),
            (b"fact", 8, b"12345678"),
            (b"data", 3, b"xyz\0"),
        ];
        let file = riff(60, &chunks);
        let found = Chunks::find(&file).unwrap();
        assert_eq!(found, Chunks { format: b"FF", data: b"xyz", promised: Some(3) });
    }

    #[test]
    fn lengths_never_written_reach_to_the_end() {
        for (whole, length) in [(0, 0), (22, 0), (u32::MAX, u32::MAX)] {
            let file = riff(whole, &[(b"fmt ", 2, b"FF"), (b"data", length, b"wxyz")]);
            let found = Chunks::find(&file).unwrap();
            assert_eq!((found.data, found.promised), (b"wxyz".as_slice(), None));
        }
        let closed = riff(60, &[(b"fmt ", 2, b"FF"), (b"data", 0, b""), (b"LIST", 2, b"ab")]);
        assert_eq!(Chunks::find(&closed).unwrap().promised, Some(0));
    }

    #[test]
    fn a_long_length_stands_in_a_chunk_of_its_own() {
        let sizes = [0u64, 3, 1, 0].map(u64::to_le_bytes).concat();
        let chunks: [(&[u8; 4], u32, &[u8]); 3] =
            [(b"ds64", 28, &sizes[..28]), (b"fmt ", 2, b"FF"), (b"data", u32::MAX, b"xyzLIST")];
        let mut file = riff(u32::MAX, &chunks);
        file[..4].copy_from_slice(b"RF64");
        let found = Chunks::find(&file).unwrap();
        assert_eq!((found.data, found.promised), (b"xyz".as_slice(), Some(3)));
    }

    #[test]
    fn what_is_missing_is_named() {
        assert_eq!(Chunks::find(b"RIFF....AVI "), Err(WavFault::OtherKind));
        let file = riff(0, &[(b"fmt ", 2, b"FF")]);
        assert_eq!(Chunks::find(&file), Err(WavFault::ChunkMissing { chunk: "data" }));
    }
}
