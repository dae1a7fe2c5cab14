//! Annotation files: what somebody marked along a record, in the MIT form.
//!
//! Source: annot(5) in the WFDB Applications Guide (Moody, PhysioNet). The file is a run of 16-bit
//! words, low byte first; the six high bits are a code, the ten low bits count samples since the
//! annotation before. Codes above 49 are not annotations but belong to one (the text that goes with
//! it, a long step in time). A word of 0 ends the file.
//!
//! Annotations come out in order of time. A file in which something other than this stands is not
//! an annotation file: `None`. Never more annotations than `most`, so that no file takes more
//! memory than its record warrants.

use super::codes::{HIGHEST, NOTE};
use crate::signal::put_in_order;

/// The annotations of one file.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Annotations {
    /// What was marked, in order of time.
    pub(super) list: Vec<Annotation>,
    /// How many steps of time a second has, when the file says so; else they are frames.
    pub(super) resolution_hz: Option<f64>,
    /// Whether the file ends where it says that it ends.
    pub(super) is_whole: bool,
}

/// One annotation.
#[derive(Debug, PartialEq)]
pub(super) struct Annotation {
    /// Frames (or steps of `resolution_hz`) since the first sample.
    pub(super) time: u64,
    /// What it is.
    pub(super) code: u8,
    /// The text that came with it; empty when there was none.
    pub(super) text: String,
}

const SKIP: u8 = 59;
const NUMBER: u8 = 60;
const CHANNEL: u8 = 62;
const TEXT: u8 = 63;

/// Reads the bytes of an annotation file.
pub(super) fn read(bytes: &[u8], most: usize) -> Option<Annotations> {
    let mut rest = bytes;
    let mut time: i64 = 0;
    let mut found = Annotations::default();
    while let Some(word) = take_word(&mut rest) {
        let (code, low) = ((word >> 10) as u8, word & 0x3FF);
        match code {
            0 if low == 0 => {
                found.is_whole = true;
                break;
            }
            0 => time = time.checked_add(i64::from(low))?,
            1..=HIGHEST => {
                time = time.checked_add(i64::from(low))?;
                let time = u64::try_from(time).ok()?;
                found.list.push(Annotation { time, code, text: String::new() });
            }
            SKIP => {
                // The high half comes first, each half low byte first.
                let Some((high, low)) = take_word(&mut rest).zip(take_word(&mut rest)) else {
                    break;
                };
                let step =
                    i32::from_le_bytes((u32::from(high) << 16 | u32::from(low)).to_le_bytes());
                time = time.checked_add(i64::from(step))?;
            }
            // Subtype, channel and number say nothing that a mark holds.
            NUMBER..=CHANNEL => {}
            TEXT => {
                let length = usize::from(low);
                let text = rest.get(..length.min(rest.len())).unwrap_or_default();
                rest = rest.get(length + length % 2..).unwrap_or_default();
                found.list.last_mut()?.text = plain(text);
            }
            _ => return None,
        }
        if found.list.len() > most {
            return None;
        }
    }
    found.take_description();
    put_in_order(&mut found.list, |it| usize::try_from(it.time).unwrap_or(usize::MAX));
    Some(found)
}

impl Annotations {
    /// Takes out the notes at sample 0 that describe the file: its time resolution, its own codes.
    fn take_description(&mut self) {
        let is_description =
            |annotation: &Annotation| annotation.code == NOTE && annotation.time == 0;
        let described = self.list.iter().take_while(|&first| is_description(first)).count();
        let mut in_definitions = false;
        let mut kept = Vec::new();
        for note in self.list.drain(..described) {
            if let Some(hz) = note.text.strip_prefix("## time resolution:") {
                self.resolution_hz =
                    hz.trim().parse().ok().filter(|hz: &f64| hz.is_finite() && *hz > 0.0);
            } else if note.text.starts_with("## annotation type definitions") {
                in_definitions = true;
            } else if note.text.starts_with("## end of definitions") {
                in_definitions = false;
            } else if !in_definitions {
                kept.push(note);
            }
        }
        self.list.splice(0..0, kept);
    }
}

/// The next word; `None` at the end, where a single byte may be left.
fn take_word(rest: &mut &[u8]) -> Option<u16> {
    let (word, after) = rest.split_first_chunk()?;
    *rest = after;
    Some(u16::from_le_bytes(*word))
}

/// Text without the zeros and line ends around it.
fn plain(text: &[u8]) -> String {
    String::from_utf8_lossy(text)
        .trim_matches(|sign: char| sign.is_control() || sign == ' ')
        .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(words: &[(u16, u16)]) -> Vec<u8> {
        words.iter().flat_map(|&(code, low)| (code << 10 | low & 0x3FF).to_le_bytes()).collect()
    }

    fn times(bytes: &[u8]) -> Vec<(u64, u8, String)> {
        let found = read(bytes, 100).unwrap();
        found.list.into_iter().map(|one| (one.time, one.code, one.text)).collect()
    }

    #[test]
    fn times_add_up_and_text_belongs_to_the_one_before() {
        let mut bytes = file(&[(28, 18), (63, 3)]);
        bytes.extend(b"(N\0\0");
        bytes.extend(file(&[(1, 59), (61, 2), (59, 0)]));
        bytes.extend([0x01, 0x00, 0x02, 0x00]);
        bytes.extend(file(&[(5, 1), (0, 0), (7, 7)]));
        let expected = [
            (18, 28, "(N".to_owned()),
            (77, 1, String::new()),
            (77 + 65536 + 2 + 1, 5, String::new()),
        ];
        assert_eq!(times(&bytes), expected);
        assert!(read(&bytes, 100).unwrap().is_whole);
        assert!(!read(&bytes[..14], 100).unwrap().is_whole);
    }

    #[test]
    fn a_file_may_describe_itself_first() {
        let mut bytes = file(&[(22, 0), (63, 24)]);
        bytes.extend(b"## time resolution: 1000");
        bytes.extend(file(&[(22, 0), (63, 2)]));
        bytes.extend(b"hi");
        bytes.extend(file(&[(1, 500), (0, 0)]));
        let found = read(&bytes, 100).unwrap();
        assert_eq!(found.resolution_hz, Some(1000.0));
        assert_eq!(times(&bytes), [(0, 22, "hi".to_owned()), (500, 1, String::new())]);
    }

    #[test]
    fn other_bytes_are_not_annotations() {
        assert_eq!(read(&file(&[(55, 1)]), 100), None, "a code that nobody defined");
        assert_eq!(read(&file(&[(63, 2)]), 100), None, "text that belongs to nothing");
        assert_eq!(read(&file(&[(1, 0); 9]), 8), None, "more marks than samples");
        assert_eq!(read(&[], 8), Some(Annotations::default()));
    }
}
