//! Text from a file, made fit to stand in a table: one line, no signs that steer, not endless.
//!
//! A name may be a megabyte long, or hold marks that turn the rest of the line around (Unicode Annex 9,
//! embeddings, overrides and isolates). Such marks and control signs go; letters of every script stay, and a text
//! that is cut ends in three dots.

/// The longest name shown, in letters.
pub(super) const NAME: usize = 120;
/// The longest answer shown, in letters: some pages.
pub(super) const ANSWER: usize = 20_000;

/// A name on one line.
pub(super) fn name(text: &str) -> String {
    let one_line = text.split_whitespace().take(NAME).collect::<Vec<_>>().join(" ");
    cut(&one_line, NAME)
}

/// A longer text with its lines.
pub(super) fn answer(text: &str) -> String {
    cut(text.trim(), ANSWER)
}

fn cut(text: &str, most: usize) -> String {
    let mut letters = text.chars().filter(|&letter| !steers(letter));
    let mut kept: String = letters.by_ref().take(most).collect();
    if letters.next().is_some() {
        kept.push('…');
    }
    kept
}

fn steers(letter: char) -> bool {
    let turns = matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || (letter.is_control() && !matches!(letter, '\n' | '\t'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_one_short_line_without_signs_that_steer() {
        assert_eq!(name(" Zoë\r\n\u{202e}7\0b "), "Zoë 7b");
        assert_eq!(name("<script>"), "<script>", "markup is text and stays so");
        assert_eq!(name("שלום"), "שלום");
        let long = name(&"x".repeat(1_000_000));
        assert_eq!((long.chars().count(), long.ends_with('…')), (NAME + 1, true));
    }

    #[test]
    fn answers_keep_their_lines() {
        assert_eq!(answer("one\r\n\ttwo\u{1b}[2J"), "one\n\ttwo[2J");
    }
}
