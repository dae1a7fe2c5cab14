//! What came out: the student's values beside the computed ones and typical resting values.
//!
//! RR runs from this beat to the next. The student marks one beat, so the far end of RR is the next
//! R as the analysis found it. RR across a hole is not measured, and without RR no QTc and no rate.

use super::quantity::{Cycle, Sampled};
use super::{Evidence, Quantity, Session, TypicalRange, plausible, typical_ranges};
use crate::analysis::{Beat, Corrected, Measurement, Origin, Standing, median};
use crate::signal::{Landmark, SampleIndex};

/// One quantity: what the student measured beside what the analysis did.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultRow {
    /// What is measured; all values are in [`Quantity::unit`].
    pub quantity: Quantity,
    /// From the student's own marks; `None` while a mark is missing.
    pub student: Option<Sampled>,
    /// What the analysis found in the same beat; `None` where it could not measure.
    pub computed: Option<Sampled>,
    /// Over all beats that count.
    pub all_beats: Option<Measurement>,
    /// Typical resting values; empty where none can be given.
    pub typical: &'static [TypicalRange],
    /// Whether the student's value is so far out that a mark is probably not where it was meant.
    pub ask_where: bool,
}

/// Everything that came out for the chosen beat.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultsTable {
    /// One row a quantity, in the order of [`Quantity::ALL`].
    pub rows: Vec<ResultRow>,
    /// Who put the chosen beat where it is; `None` without one.
    pub beat: Option<Origin>,
    /// How many beats were corrected by hand, the chosen one or others.
    pub corrected: Corrected,
}

impl ResultsTable {
    /// Measures the chosen beat; without one, only the values over all beats are there.
    pub fn of(session: &Session, evidence: Evidence<'_>) -> Self {
        let chosen = evidence.chosen(session);
        let computed = chosen.map(|(place, beat)| cycle_of(place, beat, evidence));
        let student = chosen.map(|(place, _)| {
            let next = next_r(place, evidence);
            let r = session.mark(Landmark::R);
            let rr = r.zip(next).and_then(|(r, next)| next.get().checked_sub(r.get()));
            Cycle { points: session.marks(), rr, rate: evidence.recording.rate }
        });
        let rows = Quantity::ALL.map(|quantity| {
            let own = student.as_ref().and_then(|cycle| cycle.measure(quantity));
            ResultRow {
                quantity,
                student: own,
                computed: computed.as_ref().and_then(|cycle| cycle.measure(quantity)),
                all_beats: over_all_beats(quantity, evidence),
                typical: typical_ranges(quantity),
                ask_where: own.is_some_and(|own| !plausible(quantity, own.value)),
            }
        });
        let beat = chosen.map(|(_, beat)| beat.origin);
        Self { rows: rows.into(), beat, corrected: evidence.reading.corrected }
    }
}

fn cycle_of(place: usize, beat: &Beat, evidence: Evidence<'_>) -> Cycle {
    let rr = next_r(place, evidence).and_then(|next| next.get().checked_sub(beat.r.get()));
    Cycle { points: beat.landmarks, rr, rate: evidence.recording.rate }
}

/// R of the next beat, unless something is missing before it.
fn next_r(place: usize, evidence: Evidence<'_>) -> Option<SampleIndex> {
    evidence.series().next(place).map(|next| next.r)
}

/// What the analysis states over all beats. It has no QTc: that one is taken beat by beat, each with
/// its own RR, where this beat and the next both count.
fn over_all_beats(quantity: Quantity, evidence: Evidence<'_>) -> Option<Measurement> {
    let reading = evidence.reading;
    match quantity {
        Quantity::Pr => reading.intervals.pr_ms,
        Quantity::Qrs => reading.intervals.qrs_ms,
        Quantity::Qt => reading.intervals.qt_ms,
        Quantity::Rr => reading.intervals.rr_ms,
        Quantity::Rate => reading.intervals.rate_bpm,
        Quantity::Qtc(_) => {
            let counts = |place: usize| {
                reading.beats.get(place).filter(|beat| beat.standing == Standing::Counts)
            };
            let measured: Vec<Sampled> = (0..reading.beats.len())
                .filter_map(|place| {
                    let beat = counts(place)?;
                    counts(place + 1)?;
                    cycle_of(place, beat, evidence).measure(quantity)
                })
                .collect();
            let values: Vec<f64> = measured.iter().map(|one| one.value).collect();
            // From one beat to the next it differs as little as RR does.
            let sampling = median(measured.iter().map(|one| one.expanded_uncertainty as f32))?;
            Measurement::of(&values, f64::from(sampling))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Command, Grip, Lesson, example};
    use crate::signal::{Hole, HoleCause, SampleSpan};

    #[test]
    fn own_marks_give_own_values_beside_the_computed_ones() {
        let (recording, reading) = example::of_beats(4);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(reading.beats[1].r), evidence).unwrap();
        for (landmark, at) in
            [(Landmark::POnset, 895), (Landmark::QrsOnset, 1043), (Landmark::R, 1078)]
        {
            let at = SampleIndex::new(at);
            lesson.apply(Command::Place { landmark, at, grip: Grip::Fresh }, evidence).unwrap();
        }
        let rows = ResultsTable::of(lesson.session(), evidence).rows;
        let value = |one: Option<Sampled>| one.map(|one| one.value);
        let pairs: Vec<_> =
            rows.iter().map(|row| (value(row.student), value(row.computed))).collect();
        assert_eq!(pairs[0], (Some(148.0), Some(140.0)));
        assert_eq!(pairs[1], (None, Some(88.0)));
        assert_eq!(pairs[7], (Some(800.0), Some(800.0)));
        assert_eq!(rows[3].all_beats.unwrap().n, 3);
        assert!(!rows[0].ask_where);
    }

    #[test]
    fn nothing_is_measured_across_a_hole() {
        let (mut recording, reading) = example::of_beats(3);
        recording.holes =
            vec![Hole { span: SampleSpan::new(1500, 1600), cause: HoleCause::NoValue }];
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(reading.beats[1].r), evidence).unwrap();
        let rows = ResultsTable::of(lesson.session(), evidence).rows;
        let computed: Vec<_> = rows.iter().map(|row| row.computed.map(|one| one.value)).collect();
        assert_eq!(computed[..3], [Some(140.0), Some(88.0), Some(360.0)]);
        assert_eq!(computed[3..], [None; 6], "neither RR nor what needs it");
        assert_eq!(rows[3].all_beats.unwrap().n, 1);
    }

    #[test]
    fn a_value_far_out_asks_where_the_mark_was_meant() {
        let (recording, reading) = example::of_beats(3);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        lesson.apply(Command::ChooseBeat(reading.beats[1].r), evidence).unwrap();
        for (landmark, at) in [(Landmark::QrsOnset, 1040), (Landmark::QrsEnd, 1400)] {
            let at = SampleIndex::new(at);
            lesson.apply(Command::Place { landmark, at, grip: Grip::Fresh }, evidence).unwrap();
        }
        let rows = ResultsTable::of(lesson.session(), evidence).rows;
        assert_eq!(
            rows.iter().map(|row| row.ask_where).collect::<Vec<_>>()[..3],
            [false, true, false]
        );
    }
}
