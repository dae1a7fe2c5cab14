//! Laying edits over found beats.
//!
//! The found beats may have changed since an edit was made: another part, another filter, a trace
//! turned over. So the beat that was meant is the nearest one found within half of the least time between
//! two beats; no two beats can both be that near. Where none is found there now, a beat that was moved
//! stands as one that was added. A found beat too near to one that the student placed is the same
//! beat, and the student's place stands.

use super::{BeatEdits, Corrected};
use crate::analysis::reading::Origin;
use crate::signal::SampleIndex;

/// A beat in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PlacedBeat {
    /// The sample of R.
    pub r: SampleIndex,
    /// Who put it there.
    pub origin: Origin,
    /// What the student says about counting it, if anything.
    pub word: Option<bool>,
}

impl BeatEdits {
    /// The beats after the edits, in order, and how many were corrected. `found`: where beats were
    /// found, in order; `closest`: two beats are at least so many samples apart.
    pub fn over(&self, found: &[SampleIndex], closest: usize) -> (Vec<PlacedBeat>, Corrected) {
        let word = |r: SampleIndex| {
            let is_in = |list: &[SampleIndex]| list.binary_search(&r).is_ok();
            is_in(&self.counted).then_some(true).or(is_in(&self.left_out).then_some(false))
        };
        let placed = |(r, origin)| PlacedBeat { r, origin, word: word(r) };
        let mut corrected = Corrected::default();
        let mut untouched = vec![true; found.len()];
        let mut lifted = |from| {
            let place = meant(found, from, closest / 2).filter(|&place| untouched[place]);
            if let Some(place) = place {
                untouched[place] = false;
            }
            place.is_some()
        };
        corrected.taken_away = self.taken_away.iter().filter(|&&from| lifted(from)).count();
        let moved = self.moved.iter().map(|moved| {
            (moved.to, if lifted(moved.from) { Origin::Moved } else { Origin::Added })
        });
        let mut by_hand: Vec<(SampleIndex, Origin)> = moved.collect();
        by_hand.extend(self.added.iter().map(|&at| (at, Origin::Added)));
        by_hand.sort_unstable();
        by_hand.dedup_by_key(|(r, _)| *r);
        corrected.moved = by_hand.iter().filter(|(_, origin)| *origin == Origin::Moved).count();
        corrected.added = by_hand.len() - corrected.moved;
        let alone = |r: SampleIndex| {
            let after = by_hand.partition_point(|(other, _)| *other < r);
            let near = |place: usize| {
                by_hand.get(place).is_some_and(|(other, _)| other.minus(r).unsigned_abs() < closest)
            };
            !near(after) && !after.checked_sub(1).is_some_and(near)
        };
        let stay = found.iter().zip(&untouched).filter(|&(&r, &stays)| stays && alone(r));
        let mut beats: Vec<PlacedBeat> = stay.map(|(&r, _)| placed((r, Origin::Found))).collect();
        beats.extend(by_hand.iter().copied().map(placed));
        beats.sort_unstable();
        corrected.counted = beats.iter().filter(|beat| beat.word == Some(true)).count();
        corrected.left_out = beats.iter().filter(|beat| beat.word == Some(false)).count();
        (beats, corrected)
    }
}

/// The place of the found beat nearest to a sample, if within reach.
fn meant(found: &[SampleIndex], at: SampleIndex, reach: usize) -> Option<usize> {
    let after = found.partition_point(|&r| r < at);
    let distance = |&place: &usize| Some(found.get(place)?.minus(at).unsigned_abs());
    [after.checked_sub(1), Some(after)]
        .into_iter()
        .flatten()
        .filter(|place| distance(place).is_some_and(|distance| distance <= reach))
        .min_by_key(distance)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(samples: &[usize]) -> Vec<SampleIndex> {
        samples.iter().copied().map(SampleIndex::new).collect()
    }

    fn one(sample: usize) -> SampleIndex {
        SampleIndex::new(sample)
    }

    /// Where beats stand after edits, 200 samples being the least between two.
    fn after(found: &[usize], edit: impl FnOnce(&mut BeatEdits)) -> (Vec<(usize, Origin)>, usize) {
        let mut edits = BeatEdits::default();
        edit(&mut edits);
        let (beats, corrected) = edits.over(&at(found), 200);
        (beats.iter().map(|beat| (beat.r.get(), beat.origin)).collect(), corrected.all())
    }

    #[test]
    fn each_edit_does_what_it_says_and_is_counted() {
        use Origin::{Added, Found, Moved};
        let found = [1000, 2000, 3000];
        let all = after(&found, |edits| {
            edits.add(one(500), 200);
            edits.shift(one(2000), one(2300));
            edits.take_away(one(3000));
            edits.leave_out(one(1000));
        });
        assert_eq!(all, (vec![(500, Added), (1000, Found), (2300, Moved)], 4));
        assert_eq!(after(&[], |edits| edits.shift(one(9), one(8))), (vec![(8, Added)], 1));
        assert_eq!(after(&found, |_| ()).1, 0);
    }

    #[test]
    fn a_beat_found_a_little_beside_is_the_one_that_was_meant() {
        use Origin::{Found, Moved};
        let shifted = after(&[1030, 1990], |edits| {
            edits.take_away(one(1000));
            edits.shift(one(2000), one(2040));
        });
        assert_eq!(shifted, (vec![(2040, Moved)], 2));
        let gone = after(&[1130], |edits| edits.take_away(one(1000)));
        assert_eq!(gone, (vec![(1130, Found)], 0));
    }

    #[test]
    fn a_beat_is_not_doubled_when_it_is_found_after_all() {
        let doubled = after(&[1000, 1950], |edits| edits.add(one(2000), 200));
        assert_eq!(doubled.0, [(1000, Origin::Found), (2000, Origin::Added)]);
    }

    #[test]
    fn a_word_about_counting_belongs_to_the_place() {
        let mut edits = BeatEdits::default();
        edits.count(one(1000));
        edits.leave_out(one(2000));
        edits.leave_out(one(2500));
        let (beats, corrected) = edits.over(&at(&[1000, 2000, 3000]), 200);
        let words: Vec<_> = beats.iter().map(|beat| beat.word).collect();
        assert_eq!(words, [Some(true), Some(false), None]);
        assert_eq!((corrected.counted, corrected.left_out), (1, 1));
    }
}
