//! The lines that something happened on: how many, and the first few by number.

use crate::words::{Phrase, phrase};

/// The lines that something happened on: how many, and the first few.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LineList {
    count: usize,
    first: Vec<usize>,
}

impl LineList {
    const SHOWN: usize = 5;

    pub(super) fn add(&mut self, line: usize) {
        self.count += 1;
        if self.first.len() < Self::SHOWN {
            self.first.push(line);
        }
    }

    /// Takes in the lines of another list.
    pub(super) fn append(&mut self, other: &Self) {
        self.count += other.count;
        let room = Self::SHOWN - self.first.len();
        self.first.extend(other.first.iter().take(room));
    }

    /// How many lines.
    pub const fn count(&self) -> usize {
        self.count
    }

    /// The first line, when there is any.
    pub fn first(&self) -> Option<usize> {
        self.first.first().copied()
    }
}

impl Extend<usize> for LineList {
    fn extend<I: IntoIterator<Item = usize>>(&mut self, lines: I) {
        lines.into_iter().for_each(|line| self.add(line));
    }
}

impl From<&LineList> for Phrase {
    fn from(lines: &LineList) -> Self {
        let names = |lines: &[usize]| {
            Self::names(&lines.iter().map(ToString::to_string).collect::<Vec<_>>())
        };
        let more = lines.count - lines.first.len();
        match lines.first.as_slice() {
            [line] => phrase!("repairs.lines.one", line),
            [first @ .., last] if more == 0 => {
                let lines = names(first);
                phrase!("repairs.lines.few", lines, last)
            }
            all => {
                let lines = names(all);
                phrase!("repairs.lines.many", lines, more)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_lines_reads_as_a_sentence() {
        let list = |lines: std::ops::Range<usize>| {
            let mut list = LineList::default();
            list.extend(lines);
            Phrase::from(&list).in_words(crate::words::Language::English)
        };
        assert_eq!(list(7..8), "line 7");
        assert_eq!(list(7..10), "lines 7, 8 and 9");
        assert_eq!(list(7..20), "lines 7, 8, 9, 10, 11 and 8 more");
    }
}
