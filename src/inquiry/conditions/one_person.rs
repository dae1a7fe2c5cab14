//! Conditions compared over the beats of one person.
//!
//! The beats of one person are no sample of people: there is no p here. Each condition shows how its beats lie,
//! and the difference of the medians has the interval of two independent medians
//! (`analysis/uncertainty.rs`, k = 2: about 95 of 100). Neighbouring beats resemble each other, so that
//! interval is the narrowest possible, and the words say so.

use super::measured::Measured;
use super::no_comparison::NoComparison;
use crate::analysis::{Measurement, sampling_uncertainty};
use crate::inquiry::stats::{Estimate, FiveNumbers};
use crate::inquiry::stretch::Stretch;
use crate::words::{Phrase, phrase};

/// The fewest beats of a condition (common practice).
const NEEDED: usize = 5;

/// Conditions of one person.
#[derive(Clone, Debug, PartialEq)]
pub struct OnePerson {
    /// The conditions, in order.
    pub conditions: Vec<BeatsOf>,
    /// The median of each condition after the first, less that of the first.
    pub differences: Vec<Estimate>,
}

/// The beats of one condition.
#[derive(Clone, Debug, PartialEq)]
pub struct BeatsOf {
    /// Its name.
    pub condition: String,
    /// The value of each beat.
    pub values: Vec<f64>,
    /// Their median with spread and uncertainty.
    pub median: Measurement,
    /// How they lie.
    pub five: FiveNumbers,
}

impl OnePerson {
    /// Compares conditions by a quantity that single beats have.
    ///
    /// # Errors
    /// [`NoComparison`] when a condition is missing or holds too few beats.
    pub fn of(
        measured: Measured,
        stretches: &[(String, Stretch<'_>)],
    ) -> Result<Self, NoComparison> {
        if stretches.len() < 2 {
            return Err(NoComparison::FewConditions);
        }
        let conditions: Vec<BeatsOf> = stretches
            .iter()
            .map(|(name, stretch)| BeatsOf::of(name, measured, stretch))
            .collect::<Result<_, _>>()?;
        let first = conditions.first().map(|first| first.median);
        let differences = conditions.iter().skip(1).filter_map(|other| {
            let (first, other) = (first?, other.median);
            let off = first.expanded_uncertainty.hypot(other.expanded_uncertainty);
            Some(Estimate::around(other.value - first.value, off))
        });
        Ok(Self { differences: differences.collect(), conditions })
    }

    /// What has to be said beside the numbers.
    pub fn words(&self) -> Vec<Phrase> {
        let [first, second, ..] = &self.conditions[..] else { return Vec::new() };
        let (first_n, second_n) = (first.values.len(), second.values.len());
        let (first, second) = (&first.condition, &second.condition);
        vec![
            phrase!("conditions.words.one_person", first_n, first, second_n, second),
            phrase!("conditions.words.neighbours"),
        ]
    }
}

impl BeatsOf {
    fn of(name: &str, measured: Measured, stretch: &Stretch<'_>) -> Result<Self, NoComparison> {
        let values = measured.of_beats(stretch);
        let found = values.len();
        let condition = name.to_owned();
        let sampling = sampling_uncertainty(stretch.evidence.recording.rate);
        let known = Measurement::of(&values, sampling).zip(FiveNumbers::of(&values));
        match known.filter(|_| found >= NEEDED) {
            Some((median, five)) => Ok(Self { condition, values, median, five }),
            None => Err(NoComparison::TooFewBeats { condition, found, needed: NEEDED }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Evidence, Quantity, example};
    use crate::signal::{SampleIndex, SampleSpan};
    use crate::words::Language;

    #[test]
    fn two_parts_of_one_recording_have_a_difference_and_no_p() {
        let (recording, mut reading) = example::of_beats(20);
        // Every R of the second half comes 4 ms later in each beat: RR is 804 there.
        for (late, beat) in reading.beats.iter_mut().skip(10).enumerate() {
            beat.r = SampleIndex::new(beat.r.get() + 4 * late);
        }
        let evidence = Evidence { recording: &recording, reading: &reading };
        let part = |from, to| Stretch::between(evidence, SampleSpan::new(from, to));
        let stretches =
            [("first".to_owned(), part(0, 8000)), ("second".to_owned(), part(8000, 17_000))];
        let found = OnePerson::of(Measured::Of(Quantity::Rr), &stretches).unwrap();
        let [difference] = found.differences[..] else { panic!("{found:?}") };
        assert_eq!(difference.value, 4.0);
        assert!(!difference.holds(0.0), "{difference:?}");
        assert!(found.words()[0].in_words(Language::English).contains("there is no p"));
    }

    #[test]
    fn what_no_single_beat_has_is_refused() {
        let (recording, reading) = example::of_beats(9);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let both = ["a", "b"].map(|name| (name.to_owned(), Stretch::whole(evidence)));
        let refused = OnePerson::of(Measured::Sdnn, &both).unwrap_err();
        assert!(matches!(refused, NoComparison::TooFewBeats { found: 0, .. }));
        assert_eq!(
            OnePerson::of(Measured::Sdnn, &both[..1]).unwrap_err(),
            NoComparison::FewConditions
        );
    }
}
