//! Beat scoring as ANSI/AAMI EC57 has it: one to one, within 150 ms either way.
//!
//! Described in the WFDB Applications Guide (`bxb`). A found beat that is nearer to the next marked
//! one is left for it. Sensitivity is TP / (TP + FN), positive predictivity TP / (TP + FP).

use std::ops::AddAssign;

/// How far a found beat may lie from a marked one, s.
pub(crate) const WINDOW: f64 = 0.150;

/// What came of a comparison.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Score {
    /// Marked and found.
    pub(crate) hit: usize,
    /// Marked, not found.
    pub(crate) missed: usize,
    /// Found, not marked.
    pub(crate) extra: usize,
}

impl Score {
    /// Compares two lists of moments, each in order, in s.
    pub(crate) fn of(marked: &[f64], found: &[f64]) -> Self {
        let (mut i, mut j, mut score) = (0, 0, Self::default());
        while let (Some(&mark), Some(&beat)) = (marked.get(i), found.get(j)) {
            let apart = (beat - mark).abs();
            let nearer = |other: Option<&f64>, to: f64| {
                other.is_some_and(|other| (other - to).abs() < apart)
            };
            // Where the next two are a pair of their own, these two are one.
            let next_pair = matches!(
                (marked.get(i + 1), found.get(j + 1)),
                (Some(mark), Some(beat)) if (beat - mark).abs() <= WINDOW
            );
            if apart > WINDOW {
                if beat < mark {
                    (j, score.extra) = (j + 1, score.extra + 1);
                } else {
                    (i, score.missed) = (i + 1, score.missed + 1);
                }
            } else if !next_pair && nearer(found.get(j + 1), mark) {
                (j, score.extra) = (j + 1, score.extra + 1);
            } else if !next_pair && nearer(marked.get(i + 1), beat) {
                (i, score.missed) = (i + 1, score.missed + 1);
            } else {
                (i, j, score.hit) = (i + 1, j + 1, score.hit + 1);
            }
        }
        score.missed += marked.len() - i;
        score.extra += found.len() - j;
        score
    }

    /// How many of the marked beats were found, in percent; 100 when there are none.
    pub(crate) fn sensitivity(self) -> f64 {
        percent(self.hit, self.missed)
    }

    /// How many of the found beats were marked, in percent; 100 when there are none.
    pub(crate) fn positive_predictivity(self) -> f64 {
        percent(self.hit, self.extra)
    }
}

impl AddAssign for Score {
    fn add_assign(&mut self, other: Self) {
        self.hit += other.hit;
        self.missed += other.missed;
        self.extra += other.extra;
    }
}

fn percent(right: usize, wrong: usize) -> f64 {
    if right + wrong == 0 { 100.0 } else { 100.0 * right as f64 / (right + wrong) as f64 }
}

mod tests {
    use super::*;
    use crate::worked_examples::{assert_near, examples, numbers};

    fn count(value: &serde_json::Value) -> usize {
        value.as_u64().unwrap() as usize
    }

    #[test]
    fn the_hand_example_scores_as_it_should() {
        let example = &examples("ec57")[0];
        assert_eq!(example["id"], "ec57");
        let (inputs, right) = (&example["inputs"], &example["expected"]);
        let score = Score::of(&numbers(&inputs["ref_s"]), &numbers(&inputs["test_s"]));
        let (hit, missed, extra) = (count(&right["TP"]), count(&right["FN"]), count(&right["FP"]));
        assert_eq!(score, Score { hit, missed, extra });
        assert_near(score.sensitivity(), &right["Se_pct"], 1e-9, "Se");
        assert_near(score.positive_predictivity(), &right["PPV_pct"], 1e-9, "+P");
    }

    #[test]
    fn published_counts_give_the_published_percentages() {
        let mut seen = 0;
        for example in examples("qrs-").into_iter().chain(examples("ec57-pt")) {
            let (inputs, right) = (&example["inputs"], &example["expected"]);
            let all = inputs.get("annotated").or(inputs.get("total")).unwrap();
            let (missed, extra) = (count(&inputs["FN"]), count(&inputs["FP"]));
            let score = Score { hit: count(all) - missed, missed, extra };
            assert_near(score.sensitivity(), &right["Se_pct"], 0.005, "Se");
            assert_near(score.positive_predictivity(), &right["PPV_pct"], 0.005, "+P");
            seen += 1;
        }
        assert_eq!(seen, 4);
    }

    #[test]
    fn each_beat_is_used_once_and_by_the_nearest() {
        let hit = |hit, missed, extra| Score { hit, missed, extra };
        assert_eq!(Score::of(&[1.0], &[0.9, 1.05]), hit(1, 0, 1));
        assert_eq!(Score::of(&[0.9, 1.05], &[1.0]), hit(1, 1, 0));
        assert_eq!(Score::of(&[1.0, 1.2], &[1.1, 1.25]), hit(2, 0, 0));
        assert_eq!(Score::of(&[], &[1.0]), hit(0, 0, 1));
        assert_eq!(Score::of(&[1.0], &[]), hit(0, 1, 0));
    }
}
