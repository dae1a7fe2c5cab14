//! What a student corrected about the beats that were found: data laid over them, never in their place.
//!
//! A beat is known by its sample. [`BeatEdits`] holds what stands now, not how it came about: a beat
//! that is added and taken away again leaves nothing. [`BeatEdits::over`] lays it over found beats.

mod over;
mod snap;

use crate::signal::{SampleIndex, SampleSpan};
use serde::{Deserialize, Serialize};

pub use over::PlacedBeat;
pub use snap::{closest, crest};

/// Beats added, moved and taken away by hand, and those that count, or don't, by the student's word.
/// Lists are in order of time; every sample stands in each at most once.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct BeatEdits {
    /// Beats where none was found.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    added: Vec<SampleIndex>,
    /// Beats that were found elsewhere.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    moved: Vec<Moved>,
    /// Found beats that are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    taken_away: Vec<SampleIndex>,
    /// Beats, where they stand now, that averages leave out because the student says so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_out: Vec<SampleIndex>,
    /// Beats, where they stand now, that averages count because the student says so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    counted: Vec<SampleIndex>,
}

/// A found beat at another place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
struct Moved {
    from: SampleIndex,
    to: SampleIndex,
}

/// How many beats were corrected.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Corrected {
    /// Added.
    pub added: usize,
    /// Moved.
    pub moved: usize,
    /// Taken away.
    pub taken_away: usize,
    /// Left out of averages.
    pub left_out: usize,
    /// Counted in averages although they look or come otherwise.
    pub counted: usize,
}

impl Corrected {
    /// All of them.
    pub const fn all(self) -> usize {
        self.added + self.moved + self.taken_away + self.left_out + self.counted
    }
}

impl BeatEdits {
    /// Whether nothing was corrected.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Adds a beat. `near` says which samples are too near to be another beat: where a found beat was
    /// taken away there, it is that one again, moved.
    pub fn add(&mut self, at: SampleIndex, near: usize) {
        let close = |away: &&SampleIndex| away.minus(at).unsigned_abs() < near;
        match self.taken_away.iter().filter(close).min_by_key(|away| away.minus(at).abs()) {
            Some(&from) => {
                drop_from(&mut self.taken_away, from);
                self.stand(from, at);
            }
            None => insert(&mut self.added, at),
        }
    }

    /// Moves a beat that stands somewhere now.
    pub fn shift(&mut self, now: SampleIndex, to: SampleIndex) {
        if now == to {
            return;
        }
        if drop_from(&mut self.added, now) {
            insert(&mut self.added, to);
        } else {
            let from = self.lift(now);
            self.stand(from, to);
        }
        for word in [&mut self.left_out, &mut self.counted] {
            if drop_from(word, now) {
                insert(word, to);
            }
        }
    }

    /// Takes a beat away that stands somewhere now.
    pub fn take_away(&mut self, now: SampleIndex) {
        if !drop_from(&mut self.added, now) {
            let from = self.lift(now);
            insert(&mut self.taken_away, from);
        }
        drop_from(&mut self.left_out, now);
        drop_from(&mut self.counted, now);
    }

    /// Leaves a beat out of averages. One that only the student's word counted is judged as before.
    pub fn leave_out(&mut self, now: SampleIndex) {
        if !drop_from(&mut self.counted, now) {
            insert(&mut self.left_out, now);
        }
    }

    /// Counts a beat in averages. One that only the student's word left out is judged as before.
    pub fn count(&mut self, now: SampleIndex) {
        if !drop_from(&mut self.left_out, now) {
            insert(&mut self.counted, now);
        }
    }

    /// The edits on a part of the recording, in samples of the part.
    #[must_use]
    pub fn on(&self, part: SampleSpan) -> Self {
        let inside = |at: SampleIndex| {
            let start = part.start().get() as isize;
            part.contains(at).then(|| at.offset(-start))
        };
        let all = |list: &[SampleIndex]| list.iter().copied().filter_map(inside).collect();
        let mut on = Self {
            added: all(&self.added),
            moved: Vec::new(),
            taken_away: all(&self.taken_away),
            left_out: all(&self.left_out),
            counted: all(&self.counted),
        };
        for moved in &self.moved {
            match (inside(moved.from), inside(moved.to)) {
                (Some(from), Some(to)) => on.moved.push(Moved { from, to }),
                (Some(from), None) => insert(&mut on.taken_away, from),
                (None, Some(to)) => insert(&mut on.added, to),
                (None, None) => {}
            }
        }
        on
    }

    /// A sample that lies outside a recording of so many, or out of order, if any does.
    pub fn misplaced(&self, samples: usize) -> Option<SampleIndex> {
        let from: Vec<SampleIndex> = self.moved.iter().map(|moved| moved.from).collect();
        let lists = [&self.added, &from, &self.taken_away, &self.left_out, &self.counted];
        let unordered = |list: &[SampleIndex]| !list.is_sorted_by(|a, b| a < b);
        let outside = |at: &SampleIndex| at.get() >= samples;
        lists
            .iter()
            .find_map(|list| list.iter().copied().find(outside))
            .or_else(|| self.moved.iter().map(|moved| moved.to).find(outside))
            .or_else(|| lists.iter().find(|list| unordered(list))?.first().copied())
    }

    /// Where the beat was found that stands somewhere now; it is not moved any more.
    fn lift(&mut self, now: SampleIndex) -> SampleIndex {
        match self.moved.iter().position(|moved| moved.to == now) {
            Some(place) => self.moved.remove(place).from,
            None => now,
        }
    }

    /// Lets the beat that was found at `from` stand at `to`.
    fn stand(&mut self, from: SampleIndex, to: SampleIndex) {
        if from != to {
            let place = self.moved.partition_point(|moved| moved.from < from);
            self.moved.insert(place, Moved { from, to });
        }
    }
}

/// Puts a sample into its place of an ordered list, once.
fn insert(list: &mut Vec<SampleIndex>, at: SampleIndex) {
    if let Err(place) = list.binary_search(&at) {
        list.insert(place, at);
    }
}

/// Takes a sample out of an ordered list; whether it was there.
fn drop_from(list: &mut Vec<SampleIndex>, at: SampleIndex) -> bool {
    let place = list.binary_search(&at);
    place.is_ok_and(|place| list.remove(place) == at)
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn at(sample: usize) -> SampleIndex {
        SampleIndex::new(sample)
    }

    fn edits(make: impl FnOnce(&mut BeatEdits)) -> BeatEdits {
        let mut edits = BeatEdits::default();
        make(&mut edits);
        edits
    }

    #[test]
    fn what_is_undone_by_hand_leaves_nothing() {
        assert!(edits(|it| (it.add(at(5), 20), it.take_away(at(5))).1).is_empty());
        assert!(edits(|it| (it.shift(at(5), at(9)), it.shift(at(9), at(5))).1).is_empty());
        assert!(edits(|it| (it.take_away(at(5)), it.add(at(5), 20)).1).is_empty());
        assert!(edits(|it| (it.leave_out(at(5)), it.count(at(5))).1).is_empty());
        assert!(edits(|it| (it.count(at(5)), it.leave_out(at(5))).1).is_empty());
    }

    #[test]
    fn a_beat_keeps_its_origin_and_its_word_wherever_it_goes() {
        let moved = edits(|it| {
            it.leave_out(at(500));
            it.shift(at(500), at(510));
            it.shift(at(510), at(520));
        });
        assert_eq!(moved.moved, [Moved { from: at(500), to: at(520) }]);
        assert_eq!(moved.left_out, [at(520)]);
        let gone = edits(|it| {
            it.shift(at(500), at(510));
            it.take_away(at(510));
        });
        assert_eq!((gone.taken_away.as_slice(), gone.moved.len()), ([at(500)].as_slice(), 0));
        let back = edits(|it| {
            it.take_away(at(500));
            it.add(at(503), 20);
        });
        assert_eq!(back.moved, [Moved { from: at(500), to: at(503) }]);
        assert!(back.taken_away.is_empty() && back.added.is_empty());
    }

    #[test]
    fn a_part_has_the_edits_that_lie_in_it() {
        let all = edits(|it| {
            it.add(at(150), 20);
            it.add(at(900), 20);
            it.shift(at(90), at(110));
            it.shift(at(390), at(410));
            it.shift(at(200), at(210));
            it.take_away(at(300));
        });
        let on = all.on(SampleSpan::new(100, 400));
        let expected = edits(|it| {
            it.add(at(10), 1);
            it.add(at(50), 1);
            it.shift(at(100), at(110));
            it.take_away(at(200));
            it.take_away(at(290));
        });
        assert_eq!(on, expected);
        assert_eq!(all.on(SampleSpan::new(0, 1000)), all);
    }

    #[test]
    fn what_lies_outside_or_out_of_order_is_named() {
        let all = edits(|it| (it.add(at(10), 1), it.shift(at(20), at(99))).1);
        assert_eq!((all.misplaced(100), all.misplaced(99)), (None, Some(at(99))));
        let unordered = BeatEdits { counted: vec![at(7), at(3)], ..BeatEdits::default() };
        assert_eq!(unordered.misplaced(100), Some(at(7)));
    }

    #[test]
    fn nothing_is_written_where_nothing_was_done() {
        assert_eq!(serde_json::to_string(&BeatEdits::default()).unwrap(), "{}");
        let all = edits(|it| (it.add(at(10), 1), it.shift(at(20), at(99))).1);
        let json = serde_json::to_string(&all).unwrap();
        assert_eq!(json, r#"{"added":[10],"moved":[{"from":20,"to":99}]}"#);
        assert_eq!(serde_json::from_str::<BeatEdits>(&json).unwrap(), all);
    }
}
