//! What is measured on a cycle, and how it follows from the marks.

use crate::analysis::{QtCorrection, corrected_qt, sampling_uncertainty};
use crate::signal::{Landmark, Landmarks, Milliseconds, SampleRate};

/// A quantity of one cycle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// P onset to QRS onset, ms.
    Pr,
    /// QRS onset to QRS end, ms.
    Qrs,
    /// QRS onset to T end, ms.
    Qt,
    /// QT corrected for rate by one of the formulas, ms.
    Qtc(QtCorrection),
    /// R to the next R, ms.
    Rr,
    /// 60 000 / RR, beats a minute.
    Rate,
}

impl Quantity {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 9] = [
        Self::Pr,
        Self::Qrs,
        Self::Qt,
        Self::Qtc(QtCorrection::Bazett),
        Self::Qtc(QtCorrection::Fridericia),
        Self::Qtc(QtCorrection::Framingham),
        Self::Qtc(QtCorrection::Hodges),
        Self::Rr,
        Self::Rate,
    ];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pr => "pr",
            Self::Qrs => "qrs",
            Self::Qt => "qt",
            Self::Qtc(QtCorrection::Bazett) => "qtc_bazett",
            Self::Qtc(QtCorrection::Fridericia) => "qtc_fridericia",
            Self::Qtc(QtCorrection::Framingham) => "qtc_framingham",
            Self::Qtc(QtCorrection::Hodges) => "qtc_hodges",
            Self::Rr => "rr",
            Self::Rate => "rate",
        }
    }

    /// The key of its name as shown.
    pub fn name_key(self) -> String {
        format!("quantities.{}.name", self.key())
    }

    /// The key of what it means, and how it is measured.
    pub fn explain_key(self) -> String {
        format!("quantities.{}.explain", self.key())
    }

    /// The unit of its values: `ms` or `/min`.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Rate => "/min",
            _ => "ms",
        }
    }
}

/// The points of one cycle and the distance to the next R, in samples: what the quantities follow from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cycle {
    pub(super) points: Landmarks,
    pub(super) rr: Option<usize>,
    pub(super) rate: SampleRate,
}

/// What one beat gives: a value, and how far it may be off through the gap between samples alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sampled {
    /// The value, in [`Quantity::unit`].
    pub value: f64,
    /// Expanded, k = 2, about 95 of 100; in the same unit.
    pub expanded_uncertainty: f64,
}

impl Cycle {
    /// A quantity of this cycle; `None` when a point it needs has no place.
    ///
    /// Both ends of an interval are known to a sample ([`sampling_uncertainty`]). What is computed
    /// from intervals follows by the law of propagation (JCGM 100:2008, 5.1.2).
    pub(super) fn measure(&self, quantity: Quantity) -> Option<Sampled> {
        use Landmark::{POnset, QrsEnd, QrsOnset, TEnd};
        match quantity {
            Quantity::Pr => self.interval(self.points.between(POnset, QrsOnset)),
            Quantity::Qrs => self.interval(self.points.between(QrsOnset, QrsEnd)),
            Quantity::Qt => self.interval(self.points.between(QrsOnset, TEnd)),
            Quantity::Qtc(by) => self.corrected(by),
            Quantity::Rr => self.interval(self.rr),
            Quantity::Rate => {
                let rr = self.interval(self.rr)?;
                let value = 60_000.0 / rr.value;
                let relative = rr.expanded_uncertainty / rr.value;
                Some(Sampled { value, expanded_uncertainty: value * relative })
            }
        }
    }

    /// An interval of no length is two marks on one sample: nothing was measured.
    fn interval(&self, samples: Option<usize>) -> Option<Sampled> {
        let samples = samples.filter(|&samples| samples > 0)?;
        let value = samples as f64 * 1000.0 / self.rate.hz();
        Some(Sampled { value, expanded_uncertainty: sampling_uncertainty(self.rate) })
    }

    fn corrected(&self, by: QtCorrection) -> Option<Sampled> {
        let (qt, rr) = (self.measure(Quantity::Qt)?, self.measure(Quantity::Rr)?);
        let (qt_ms, rr_s) = (Milliseconds::new(qt.value), Milliseconds::new(rr.value).to_seconds());
        let value = corrected_qt(by, qt_ms, rr_s)?.milliseconds();
        let (by_qt, by_rr) = by.sensitivities(qt_ms, rr_s);
        let (from_qt, from_rr) = (by_qt * qt.expanded_uncertainty, by_rr * rr.expanded_uncertainty);
        Some(Sampled { value, expanded_uncertainty: from_qt.hypot(from_rr) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::example;

    fn cycle() -> Cycle {
        let (recording, reading) = example::of_beats(2);
        Cycle { points: reading.beats[0].landmarks, rr: Some(800), rate: recording.rate }
    }

    #[test]
    fn the_worked_example_of_intervals() {
        let expected = [140.0, 88.0, 360.0, 402.5, 387.8, 390.8, 386.25, 800.0, 75.0];
        for (quantity, expected) in Quantity::ALL.into_iter().zip(expected) {
            let measured = cycle().measure(quantity).unwrap().value;
            assert!((measured - expected).abs() < 0.05, "{quantity:?}: {measured}");
        }
    }

    #[test]
    fn the_uncertainty_of_a_formula_is_that_of_moving_its_marks() {
        // Slopes by moving each mark one sample, against the propagation written above.
        let here = cycle();
        let value = |cycle: &Cycle, quantity| cycle.measure(quantity).unwrap().value;
        let corrected = QtCorrection::ALL.map(Quantity::Qtc);
        for quantity in corrected.into_iter().chain([Quantity::Rate]) {
            let mut longer_qt = here;
            let t_end = here.points.at(Landmark::TEnd).unwrap();
            longer_qt.points.set(Landmark::TEnd, Some(t_end.offset(1)));
            let longer_rr = Cycle { rr: Some(801), ..here };
            let slope = |moved: &Cycle| value(moved, quantity) - value(&here, quantity);
            let expected = slope(&longer_qt).hypot(slope(&longer_rr)) * 2.0 / 6.0_f64.sqrt();
            let stated = here.measure(quantity).unwrap().expanded_uncertainty;
            assert!(
                (stated - expected).abs() < 0.003 * expected,
                "{quantity:?}: {stated} {expected}"
            );
        }
    }

    #[test]
    fn marks_in_the_wrong_order_measure_nothing() {
        let mut here = cycle();
        here.points.set(Landmark::QrsEnd, here.points.at(Landmark::QrsOnset));
        assert_eq!(here.measure(Quantity::Qrs), None);
        here.points.set(Landmark::TEnd, here.points.at(Landmark::POnset));
        assert_eq!(here.measure(Quantity::Qtc(QtCorrection::Bazett)), None);
    }
}
