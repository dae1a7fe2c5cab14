//! What the marks of a recording say, so that a student can choose which text stands for what.
//!
//! Marks of beats are left out. Texts are compared without case and without spaces at the ends.

use crate::signal::{MarkKind, Recording, Seconds};

/// A text that marks of a recording carry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarkText {
    /// As the first of them has it; may be empty.
    pub text: String,
    /// How many carry it.
    pub count: usize,
}

/// The texts of the marks of a recording, in the order in which they first come.
pub fn mark_texts(recording: &Recording) -> Vec<MarkText> {
    let mut found: Vec<MarkText> = Vec::new();
    for (_, text) in notes(recording) {
        match found.iter_mut().find(|known| is_same(&known.text, text)) {
            Some(known) => known.count += 1,
            None => found.push(MarkText { text: text.trim().to_owned(), count: 1 }),
        }
    }
    found
}

/// The moments of all marks with a text, in order.
pub fn moments_marked(recording: &Recording, wanted: &str) -> Vec<Seconds> {
    notes(recording).filter(|(_, text)| is_same(text, wanted)).map(|(moment, _)| moment).collect()
}

fn notes(recording: &Recording) -> impl Iterator<Item = (Seconds, &str)> {
    let notes = recording.marks.iter().filter(|mark| mark.kind == MarkKind::Note);
    notes.map(|mark| (recording.rate.time_of(mark.at), &*mark.text))
}

fn is_same(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

/// The words of a text in small letters.
pub(super) fn words_of(text: &str) -> Vec<String> {
    let small = text.to_lowercase();
    let words = small.split(|sign: char| !sign.is_alphanumeric());
    words.filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::invented;
    use crate::signal::{BeatCode, Mark, SampleIndex};

    #[test]
    fn texts_are_counted_whatever_their_case() {
        let mut recording = invented::flat(100.0, 5.0);
        recording.marks = ["In", "out", "in ", "N"]
            .into_iter()
            .enumerate()
            .map(|(place, text)| Mark {
                at: SampleIndex::new(100 * place),
                kind: if text == "N" { MarkKind::Beat(BeatCode('N')) } else { MarkKind::Note },
                text: text.to_owned(),
            })
            .collect();
        let texts = mark_texts(&recording);
        let told: Vec<(&str, usize)> =
            texts.iter().map(|known| (&*known.text, known.count)).collect();
        assert_eq!(told, [("In", 2), ("out", 1)]);
        assert_eq!(moments_marked(&recording, "IN"), [0.0, 2.0].map(Seconds::new));
        assert_eq!(words_of("Breathe-in, 3"), ["breathe", "in", "3"]);
    }
}
