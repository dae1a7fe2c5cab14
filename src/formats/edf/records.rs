//! The whole records of a file, and what the annotations in them say.

use super::annotations::Annotations;
use super::header::{Header, Signal, Width};
use super::repair::EdfNote;

/// The bytes of all whole records.
#[derive(Clone, Copy, Debug)]
pub(super) struct Records<'a> {
    data: &'a [u8],
    /// Bytes to a record; at least 1.
    size: usize,
    width: Width,
}

impl<'a> Records<'a> {
    /// Counts the whole records. What is guessed or left out goes to `notes`.
    pub(super) fn find(header: &Header, bytes: &'a [u8], notes: &mut Vec<EdfNote>) -> Self {
        let expected = header.expected_length();
        if let Some(stated) = header.stated_length.filter(|&stated| stated != expected) {
            notes.push(EdfNote::HeaderLength { expected, stated, taken: header.length });
        }
        let data = bytes.get(header.length..).unwrap_or_default();
        let size = header.record_bytes();
        let whole = data.len().checked_div(size).unwrap_or(0);
        let bytes = data.len() - whole * size;
        let taken = match header.records {
            None => {
                notes.push(EdfNote::RecordsCounted { records: whole });
                whole
            }
            Some(stated) if stated > whole as u64 => {
                notes.push(EdfNote::Truncated { stated, whole, bytes });
                whole
            }
            Some(stated) => {
                let taken = usize::try_from(stated).unwrap_or(whole);
                let bytes = data.len() - taken * size;
                if bytes > 0 {
                    notes.push(EdfNote::LeftOver { stated, bytes });
                }
                taken
            }
        };
        let data = data.get(..taken * size).unwrap_or_default();
        Self { data, size: size.max(1), width: header.width }
    }

    /// How many there are.
    pub(super) const fn count(&self) -> usize {
        self.data.len() / self.size
    }

    /// The bytes of one signal in some records, one after the other.
    pub(super) fn parts(
        self,
        signal: &Signal,
        first: usize,
        count: usize,
    ) -> impl Iterator<Item = &'a [u8]> {
        let begin = first.saturating_mul(self.size);
        let end = begin.saturating_add(count.saturating_mul(self.size)).min(self.data.len());
        let length = signal.per_record.saturating_mul(self.width.bytes());
        let part = signal.offset..signal.offset.saturating_add(length);
        let records = self.data.get(begin..end).unwrap_or_default().chunks_exact(self.size);
        records.map(move |record| record.get(part.clone()).unwrap_or_default())
    }

    /// When each record begins, as far as it says so, and all texts with their times in seconds.
    pub(super) fn annotations(
        self,
        header: &Header,
        notes: &mut Vec<EdfNote>,
    ) -> (Vec<Option<f64>>, Vec<(f64, String)>) {
        let (mut onsets, mut texts, mut count) = (Vec::new(), Vec::new(), 0);
        let signals: Vec<&Signal> =
            header.signals.iter().filter(|signal| signal.is_annotations()).collect();
        if signals.is_empty() {
            return (onsets, texts);
        }
        for record in 0..self.count() {
            let mut found = Annotations::default();
            for signal in &signals {
                self.parts(signal, record, 1).for_each(|part| found.add(part));
            }
            onsets.push(found.record_onset);
            texts.append(&mut found.texts);
            count += found.damaged;
        }
        if count > 0 {
            notes.push(EdfNote::AnnotationsDamaged { count });
        }
        (onsets, texts)
    }
}
