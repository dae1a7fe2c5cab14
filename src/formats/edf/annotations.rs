//! EDF+ annotations: text in the place of samples, with a time.
//!
//! Source: Kemp and Olivan 2003, section 2.2.2. Each list reads `+onset[ 0x15 duration] 0x14 text
//! 0x14 [text 0x14] 0x00`, in seconds since the start of the file. The first list of a record has an
//! empty first text and says when the record begins.

use crate::formats::latin;

/// What stands in the annotations of one record.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Annotations {
    /// When the record begins, in seconds.
    pub(super) record_onset: Option<f64>,
    /// Texts and their times in seconds.
    pub(super) texts: Vec<(f64, String)>,
    /// How many lists can't be read.
    pub(super) damaged: usize,
}

impl Annotations {
    /// Adds what stands in one annotation signal of a record.
    pub(super) fn add(&mut self, bytes: &[u8]) {
        for list in bytes.split(|&byte| byte == 0).filter(|list| !list.is_empty()) {
            let mut parts = list.split(|&byte| byte == 0x14);
            let onset = parts.next().and_then(onset);
            let Some(onset) = onset.filter(|_| list.last() == Some(&0x14)) else {
                self.damaged += 1;
                continue;
            };
            for (place, text) in parts.enumerate() {
                if !text.is_empty() {
                    self.texts.push((onset, latin::decode(text).trim().to_owned()));
                } else if place == 0 && self.record_onset.is_none() {
                    self.record_onset = Some(onset);
                }
            }
        }
    }
}

/// `+12.5`, or with a duration `+12.5 0x15 3`, which a mark has no place for.
fn onset(field: &[u8]) -> Option<f64> {
    let onset = field.split(|&byte| byte == 0x15).next()?;
    latin::decimal(std::str::from_utf8(onset).ok().filter(|text| text.starts_with(['+', '-']))?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_by_hand() {
        let mut found = Annotations::default();
        found.add(
            "+2.5\u{14}\u{14}\0+3\u{15}0.5\u{14}P\u{e9}dale\u{14}left arm\u{14}\0\0\0".as_bytes(),
        );
        let texts = [(3.0, "P\u{e9}dale".to_owned()), (3.0, "left arm".to_owned())];
        assert_eq!(found, Annotations { record_onset: Some(2.5), texts: texts.into(), damaged: 0 });
    }

    #[test]
    fn damage_is_counted() {
        let mut found = Annotations::default();
        found.add(b"2.5\x14\x14\0+1\x14cut of");
        assert_eq!(found, Annotations { damaged: 2, ..Annotations::default() });
        found.add(&[0; 20]);
        assert_eq!(found.damaged, 2);
    }
}
