//! Which beat to read: the one that was pointed at, or a clean and typical one.

use super::Session;
use crate::analysis::{Beat, Finding, Grade, Grades, Reading, Severity, Standing, median};
use crate::signal::{Landmark, Recording, SampleIndex, SampleRate, SampleSpan, Seconds};
use std::cmp::{Ordering, Reverse};

/// A beat is meant when its R lies this near to the place: the window in which two marks are the
/// same beat (EC57, 150 ms).
const SAME_BEAT: Seconds = Seconds::new(0.15);

/// The place in `reading.beats` of the beat whose R is nearest to a sample, if near enough to be meant.
pub fn beat_near(reading: &Reading, near: SampleIndex, rate: SampleRate) -> Option<usize> {
    let distance = |beat: &Beat| beat.r.minus(near).unsigned_abs();
    let (place, beat) = reading.beats.iter().enumerate().min_by_key(|(_, beat)| distance(beat))?;
    (distance(beat) <= rate.count(SAME_BEAT)).then_some(place)
}

/// The place in `reading.beats` of a good beat to read: it counts, the next one counts too, nothing
/// is wrong with the signal there, it is of the best grade, most points can be measured, and they lie
/// where they usually do.
///
/// Never the first or the last, whose waves may be cut off. When no beat is as good as that, any
/// beat that counts will do, then any beat at all; `None` when there is none.
pub fn suggest_beat(recording: &Recording, reading: &Reading) -> Option<usize> {
    best_beat(recording, reading, |_| true)
}

/// The same among the beats on which a student has not worked.
pub(super) fn suggest_unseen_beat(
    session: &Session,
    recording: &Recording,
    reading: &Reading,
) -> Option<usize> {
    let seen = |beat: &Beat| {
        session
            .work
            .iter()
            .map(|work| work.r)
            .chain(session.beat)
            .any(|r| beat.r.minus(r).unsigned_abs() <= recording.rate.count(SAME_BEAT))
    };
    best_beat(recording, reading, |beat| !seen(beat))
}

fn best_beat(
    recording: &Recording,
    reading: &Reading,
    may_be: impl Fn(&Beat) -> bool,
) -> Option<usize> {
    let usual = usual_delays(reading);
    let grades = Grades::of(recording, reading);
    let merit = |place| merit(place, grades.beat(place), &usual, recording, reading);
    (0..reading.beats.len())
        .filter(|&place| reading.beats.get(place).is_some_and(&may_be))
        // On equal merit the earlier beat wins, so that the same file always gives the same beat.
        .filter_map(|place| Some((merit(place)?, Reverse(place))))
        .max_by(|one, other| one.partial_cmp(other).unwrap_or(Ordering::Equal))
        .map(|(_, Reverse(place))| place)
}

/// What makes a beat good, the weightiest first; larger is better.
fn merit(
    place: usize,
    grade: Grade,
    usual: &[Option<f64>; 11],
    recording: &Recording,
    reading: &Reading,
) -> Option<(bool, bool, bool, Grade, usize, f64)> {
    let beat = reading.beats.get(place)?;
    let next = place.checked_sub(1).and_then(|_| reading.series(recording).next(place));
    let followed = next.is_some_and(counts);
    let spoilt = spoilt_by(beat, reading).next().is_some();
    let strangeness: f64 = beat
        .landmarks
        .iter()
        .filter_map(|(landmark, at)| {
            let usual = (*usual.get(landmark as usize)?)?;
            Some((at.minus(beat.r) as f64 - usual).abs())
        })
        .sum();
    Some((counts(beat), followed, !spoilt, grade, beat.landmarks.iter().count(), -strangeness))
}

/// What is wrong with the signal within a beat, more than a remark.
pub(super) fn spoilt_by<'a>(
    beat: &'a Beat,
    reading: &'a Reading,
) -> impl Iterator<Item = &'a Finding> {
    reading.findings.iter().filter(|finding| {
        finding.severity < Severity::Remark
            && finding.spans.iter().any(|span| span.overlaps(extent(beat)))
    })
}

fn counts(beat: &Beat) -> bool {
    beat.standing == Standing::Counts
}

/// From the first to the last point of a beat.
fn extent(beat: &Beat) -> SampleSpan {
    let places = || beat.landmarks.iter().map(|(_, at)| at.get()).chain([beat.r.get()]);
    let (first, last) = (places().min(), places().max());
    SampleSpan::new(first.unwrap_or_default(), last.unwrap_or_default() + 1)
}

/// How many samples after R each point usually comes, over the beats that count.
fn usual_delays(reading: &Reading) -> [Option<f64>; 11] {
    Landmark::ALL.map(|landmark| {
        let delays = reading
            .beats
            .iter()
            .filter(|beat| counts(beat))
            .filter_map(|beat| Some(beat.landmarks.at(landmark)?.minus(beat.r) as f32));
        median(delays).map(f64::from)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::FindingKind;
    use crate::lesson::example;

    #[test]
    fn the_first_and_the_last_beat_are_not_suggested() {
        let (recording, reading) = example::of_beats(5);
        assert_eq!(suggest_beat(&recording, &reading), Some(1));
    }

    #[test]
    fn a_strange_a_spoilt_and_a_poor_beat_are_passed_over() {
        let (recording, mut reading) = example::of_beats(7);
        let beat = &mut reading.beats[1];
        beat.landmarks
            .set(Landmark::TEnd, beat.landmarks.at(Landmark::TEnd).map(|at| at.offset(30)));
        reading.beats[2].landmarks.set(Landmark::PPeak, None);
        let spoilt = extent(&reading.beats[3]);
        reading.findings.push(Finding {
            kind: FindingKind::Noisy,
            severity: Severity::Unusable,
            spans: vec![spoilt],
        });
        assert_eq!(suggest_beat(&recording, &reading), Some(4));
    }

    #[test]
    fn something_is_suggested_whenever_there_is_a_beat() {
        for beats in 0..4 {
            let (recording, reading) = example::of_beats(beats);
            assert_eq!(suggest_beat(&recording, &reading).is_some(), beats > 0, "{beats} beats");
        }
    }

    #[test]
    fn a_beat_is_meant_only_from_nearby() {
        let (recording, reading) = example::of_beats(3);
        let r = reading.beats[1].r;
        let near = |by| beat_near(&reading, r.offset(by), recording.rate);
        assert_eq!([near(0), near(150), near(-150), near(151)], [Some(1), Some(1), Some(1), None]);
    }
}
