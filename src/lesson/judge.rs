//! One answer against what the analysis found in the same beat.
//!
//! A point without a place in the reference was not measurable: 'not here' is then right, and a
//! mark can't be called wrong. Times come from whole samples, so a mark on the very sample misses by 0.

use super::{Answer, Hint, Miss, Tolerance, Verdict};
use crate::signal::{Landmark, Landmarks, Milliseconds, SampleIndex, SampleRate};

/// Judges an answer for one point; `reference` holds the points that were found in this beat.
pub fn judge(
    landmark: Landmark,
    answer: Answer,
    reference: &Landmarks,
    rate: SampleRate,
) -> Verdict {
    let (placed, found) = match (answer, reference.at(landmark)) {
        (Answer::NotHere, None) => return Verdict::RightlyNotHere,
        (Answer::NotHere, Some(_)) => return Verdict::IsHere,
        (Answer::At(_), None) => return Verdict::CannotTell,
        (Answer::At(placed), Some(found)) => (placed, found),
    };
    let miss = miss(placed, found, rate);
    let tolerance = Tolerance::of(landmark, rate);
    if within(miss, tolerance.right) {
        Verdict::Right { miss }
    } else if within(miss, tolerance.close) {
        Verdict::Close { miss }
    } else {
        let other = nearest_other(landmark, placed, reference, rate);
        Verdict::Off { miss, hint: other.map_or(Hint::Look, Hint::OnAnotherPoint) }
    }
}

fn miss(placed: SampleIndex, found: SampleIndex, rate: SampleRate) -> Miss {
    let samples = placed.minus(found) as i64;
    Miss { samples, milliseconds: Milliseconds::new(samples as f64 * 1000.0 / rate.hz()) }
}

/// Rounding in the conversion to time must not turn a mark exactly on the limit into a miss.
fn within(miss: Miss, limit: Milliseconds) -> bool {
    miss.milliseconds.abs().milliseconds() <= limit.milliseconds() + 1e-9
}

/// Another point of the beat that the mark would be right for, the nearest one.
fn nearest_other(
    landmark: Landmark,
    placed: SampleIndex,
    reference: &Landmarks,
    rate: SampleRate,
) -> Option<Landmark> {
    reference
        .iter()
        .filter(|&(other, _)| other != landmark)
        .map(|(other, at)| (other, miss(placed, at, rate)))
        .filter(|&(other, miss)| within(miss, Tolerance::of(other, rate).right))
        .min_by_key(|(_, miss)| miss.samples.abs())
        .map(|(other, _)| other)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The invented beat of the worked example `intervals-01`, at 1000 Hz.
    fn beat() -> Landmarks {
        let mut beat = Landmarks::default();
        for (landmark, at) in [
            (Landmark::POnset, 100),
            (Landmark::PEnd, 198),
            (Landmark::QrsOnset, 240),
            (Landmark::R, 278),
            (Landmark::QrsEnd, 328),
            (Landmark::TPeak, 520),
            (Landmark::TEnd, 600),
        ] {
            beat.set(landmark, Some(SampleIndex::new(at)));
        }
        beat
    }

    fn at(landmark: Landmark, sample: usize) -> Verdict {
        let rate = SampleRate::new(1000.0).unwrap();
        judge(landmark, Answer::At(SampleIndex::new(sample)), &beat(), rate)
    }

    #[test]
    fn the_limits_of_the_onset_of_qrs() {
        // 6.5 ms at 1000 Hz: six samples are right, seven are close; 19.5 ms: twenty are off.
        assert!(matches!(at(Landmark::QrsOnset, 246), Verdict::Right { .. }));
        assert!(
            matches!(at(Landmark::QrsOnset, 233), Verdict::Close { miss } if miss.samples == -7)
        );
        assert!(matches!(at(Landmark::QrsOnset, 220), Verdict::Off { hint: Hint::Look, .. }));
    }

    #[test]
    fn a_mark_on_another_point_is_told_which() {
        let verdict = at(Landmark::TPeak, 279);
        let Verdict::Off { miss, hint } = verdict else { panic!("{verdict:?}") };
        assert_eq!(hint, Hint::OnAnotherPoint(Landmark::R));
        assert_eq!((miss.samples, miss.milliseconds.milliseconds()), (-241, -241.0));
    }

    #[test]
    fn what_could_not_be_measured_is_never_wrong() {
        let rate = SampleRate::new(1000.0).unwrap();
        assert_eq!(at(Landmark::Q, 250), Verdict::CannotTell);
        assert_eq!(judge(Landmark::Q, Answer::NotHere, &beat(), rate), Verdict::RightlyNotHere);
        assert_eq!(judge(Landmark::R, Answer::NotHere, &beat(), rate), Verdict::IsHere);
    }

    #[test]
    fn one_sample_is_right_even_where_samples_are_sparse() {
        let rate = SampleRate::new(100.0).unwrap();
        let mut beat = Landmarks::default();
        beat.set(Landmark::QrsOnset, Some(SampleIndex::new(24)));
        let verdict = judge(Landmark::QrsOnset, Answer::At(SampleIndex::new(23)), &beat, rate);
        assert!(matches!(verdict, Verdict::Right { .. }), "{verdict:?}");
    }

    proptest! {
        #[test]
        fn the_reference_passes_and_one_and_a_half_limits_off_never_does(
            hz in 50.0f64..2000.0, which in 0usize..11, at in 3000usize..4000, late: bool,
        ) {
            let (rate, landmark) = (SampleRate::new(hz).unwrap(), Landmark::ALL[which]);
            let mut beat = Landmarks::default();
            beat.set(landmark, Some(SampleIndex::new(at)));
            let verdict = |at| judge(landmark, Answer::At(SampleIndex::new(at)), &beat, rate);
            let exact = matches!(verdict(at), Verdict::Right { miss } if miss.samples == 0);
            prop_assert!(exact, "{:?}", verdict(at));
            let limit = Tolerance::of(landmark, rate).right.milliseconds();
            let off = (1.5 * limit * hz / 1000.0).ceil() as usize;
            let marked = verdict(if late { at + off } else { at - off });
            prop_assert!(!marked.is_settled(), "{marked:?}");
        }

        #[test]
        fn moving_beat_and_mark_together_changes_nothing(
            placed in 0usize..800, by in 0usize..10_000, hz in 50.0f64..2000.0, which in 0usize..11,
        ) {
            let rate = SampleRate::new(hz).unwrap();
            let landmark = Landmark::ALL[which];
            let mut moved = Landmarks::default();
            for (landmark, at) in beat().iter() {
                moved.set(landmark, Some(SampleIndex::new(at.get() + by)));
            }
            let here = judge(landmark, Answer::At(SampleIndex::new(placed)), &beat(), rate);
            let there = judge(landmark, Answer::At(SampleIndex::new(placed + by)), &moved, rate);
            prop_assert_eq!(here, there);
        }
    }
}
