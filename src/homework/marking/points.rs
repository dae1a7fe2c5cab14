//! Points on a trace: each against what the analysis found in the beat that the student chose.
//!
//! The credit is the share of right points among those that can be judged. A mark where the analysis could not
//! measure can't be called wrong and is left out; 'not here' is right where nothing was found. On a beat that
//! the analysis does not know, nothing counts as placed.

use super::reference::Reference;
use super::sheet::{PointLine, Verdict};
use crate::lesson::{self, Answer, Placement, beat_near, judge};
use crate::report::SavedWork;
use crate::signal::{Landmark, Landmarks};

/// Points, judged.
pub(super) struct Placed {
    pub(super) lines: Vec<PointLine>,
    pub(super) verdict: Verdict,
    /// How many are right.
    pub(super) right: usize,
    /// The part of the points that is earned, from 0 to 1; `None` where nothing can be judged.
    pub(super) share: Option<f64>,
    /// Whether the student chose a beat that the analysis does not know.
    pub(super) unknown_beat: bool,
}

/// Judges the points of a task.
pub(super) fn placed(
    landmarks: &[Landmark],
    work: Option<&SavedWork>,
    reference: &Reference,
) -> Placed {
    let beat = work.and_then(|work| beat_of(work, reference));
    let lines: Vec<PointLine> =
        landmarks.iter().map(|&landmark| line(landmark, work, beat.as_ref(), reference)).collect();
    let marked =
        |landmark: &Landmark| work.is_some_and(|work| work.session.answer(*landmark).is_some());
    let any = landmarks.iter().any(marked);
    let cannot_tell = |line: &&PointLine| line.verdict == Some(lesson::Verdict::CannotTell);
    let right = lines.iter().filter(|line| line.verdict.is_some_and(is_right)).count();
    let judged = lines.len() - lines.iter().filter(cannot_tell).count();
    let unknown_beat = any && beat.is_none();
    let verdict = match (right, judged) {
        _ if !any || unknown_beat => Verdict::Missing,
        (_, 0) => Verdict::NoReference,
        (0, _) => Verdict::Wrong,
        (right, judged) if right < judged => Verdict::Partly,
        _ => Verdict::Right,
    };
    let share = match verdict {
        Verdict::NoReference => None,
        Verdict::Missing => Some(0.0),
        _ => Some(right as f64 / judged as f64),
    };
    Placed { lines, verdict, right, share, unknown_beat }
}

const fn is_right(verdict: lesson::Verdict) -> bool {
    matches!(verdict, lesson::Verdict::Right { .. } | lesson::Verdict::RightlyNotHere)
}

/// The points that were found in the beat that the student chose.
fn beat_of(work: &SavedWork, reference: &Reference) -> Option<Landmarks> {
    let evidence = reference.evidence();
    let near = reference.here(work, work.session.beat()?)?;
    let place = beat_near(evidence.reading, near, evidence.recording.rate)?;
    Some(evidence.reading.beats.get(place)?.landmarks)
}

fn line(
    landmark: Landmark,
    work: Option<&SavedWork>,
    beat: Option<&Landmarks>,
    reference: &Reference,
) -> PointLine {
    let placement = work.and_then(|work| work.session.placement(landmark));
    let here = |work, answer| match answer {
        // What lies outside is on no beat.
        Answer::At(at) => reference.here(work, at).map(Answer::At),
        Answer::NotHere => Some(Answer::NotHere),
    };
    let answer =
        work.zip(placement.and_then(|one| one.answer)).and_then(|(work, one)| here(work, one));
    let rate = reference.evidence().recording.rate;
    PointLine {
        landmark,
        verdict: answer.zip(beat).map(|(answer, beat)| judge(landmark, answer, beat, rate)),
        tries: placement
            .map_or(0, |one: &Placement| one.tries.len().try_into().unwrap_or(u32::MAX)),
        worked: placement.is_some_and(|one| one.revealed),
    }
}
