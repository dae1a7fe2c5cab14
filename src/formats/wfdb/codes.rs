//! The annotation codes of WFDB: which letter each has and which of them are heartbeats.
//!
//! Source: the table of annotation codes in the WFDB Programmer's Guide (Moody, PhysioNet).

/// The letter of each code from 0; an empty text where the table has none.
const SYMBOLS: [&str; 42] = [
    "", "N", "L", "R", "a", "V", "F", "J", "A", "S", "E", "j", "/", "Q", "~", "", "|", "", "s",
    "T", "*", "D", "\"", "=", "p", "B", "^", "t", "+", "u", "?", "!", "[", "]", "e", "n", "@", "x",
    "f", "(", ")", "r",
];

/// The codes that stand for a heartbeat.
const BEATS: &str = "NLRBAaJSVrFejnE/fQ?";

/// A remark in words; at sample 0 it may describe the annotation file itself.
pub(super) const NOTE: u8 = 22;

/// The highest code an annotation can have; 42 and up are free for each project's own use.
pub(super) const HIGHEST: u8 = 49;

/// The letter of a code; a number in brackets where the table has none.
pub(super) fn symbol(code: u8) -> String {
    match SYMBOLS.get(usize::from(code)) {
        Some(&symbol) if !symbol.is_empty() => symbol.to_owned(),
        _ => format!("[{code}]"),
    }
}

/// The letter of a code that stands for a heartbeat, else `None`.
pub(super) fn beat(code: u8) -> Option<char> {
    let letter = SYMBOLS.get(usize::from(code))?.chars().next()?;
    BEATS.contains(letter).then_some(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beats_are_told_from_the_rest() {
        assert_eq!(beat(1), Some('N'));
        assert_eq!(beat(12), Some('/'));
        assert_eq!(beat(41), Some('r'));
        assert_eq!((0..=HIGHEST).filter_map(beat).count(), 19);
        assert_eq!((beat(28), symbol(28).as_str()), (None, "+"));
        assert_eq!((beat(45), symbol(45).as_str()), (None, "[45]"));
    }
}
