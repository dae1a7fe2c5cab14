//! From counts of a converter, or from a unit that nobody stated, to millivolts at the skin.
//!
//! `millivolts = (value - centre) / units_per_millivolt`. Behind an amplifier of a known gain, one
//! millivolt at the skin is `2^bits * gain / range` counts: the ideal width of a count is the range
//! over 2^bits (IEEE Std 1241; from memory). Numbers that make no scale are refused, each with what to
//! write instead. What would be too large for a sample becomes the largest sample, so that all stay
//! finite.

use super::envelope::Extent;
use super::recording::{Recording, VoltageUnit};
use super::units::Millivolts;
use crate::words::{Phrase, errors_as_said, phrase};
use serde::{Deserialize, Serialize};

/// The most bits a converter has.
const MOST_BITS: u32 = 32;
/// Scales beyond these are slips of the pen: 1 mV is between a billionth and a million million units.
const SCALES: std::ops::RangeInclusive<f64> = 1.0e-9..=1.0e12;

/// From the lowest to the highest sample, a heart at the skin reaches over about 1 mV, a wandering or
/// noisy line over a few; mV. Common practice.
const LIKELY_SPAN: std::ops::RangeInclusive<f64> = 0.2..=15.0;

/// What one millivolt is in the units of a trace, and where 0 mV lies.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Numbers", into = "Numbers")]
pub struct Calibration {
    centre: f64,
    units_per_millivolt: f64,
}

/// What a class knows of its sensor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Converter {
    /// From the lowest count to the highest, at the converter.
    pub range: Millivolts,
    /// How many bits a count has.
    pub bits: u32,
    /// How many times the voltage at the skin is amplified before it is converted.
    pub gain: f64,
}

/// Numbers that make no calibration, and what to write instead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UnusableCalibration {
    /// The range of the converter.
    Range(Millivolts),
    /// The bits of the converter.
    Bits(u32),
    /// The gain of the amplifier.
    Gain(f64),
    /// How many units a millivolt is.
    Scale(f64),
    /// Where 0 mV lies.
    Centre(f64),
}

impl UnusableCalibration {
    /// What is wrong, and what to write instead.
    pub fn said(self) -> Phrase {
        match self {
            Self::Range(range) => {
                let volts = Phrase::exact(range.millivolts() / 1000.0);
                phrase!("faults.scale.range", volts)
            }
            Self::Bits(bits) => {
                let most = MOST_BITS;
                phrase!("faults.scale.bits", bits, most)
            }
            Self::Gain(gain) => {
                let gain = Phrase::exact(gain);
                phrase!("faults.scale.gain", gain)
            }
            Self::Scale(units) => {
                let units = Phrase::exact(units);
                phrase!("faults.scale.units", units)
            }
            Self::Centre(centre) => {
                let centre = Phrase::exact(centre);
                phrase!("faults.scale.centre", centre)
            }
        }
    }
}

errors_as_said!(UnusableCalibration);

/// The numbers as a file has them.
#[derive(Serialize, Deserialize)]
struct Numbers {
    centre: f64,
    units_per_millivolt: f64,
}

impl TryFrom<Numbers> for Calibration {
    type Error = UnusableCalibration;
    fn try_from(numbers: Numbers) -> Result<Self, UnusableCalibration> {
        Self::new(numbers.units_per_millivolt, numbers.centre)
    }
}

impl From<Calibration> for Numbers {
    fn from(Calibration { centre, units_per_millivolt }: Calibration) -> Self {
        Self { centre, units_per_millivolt }
    }
}

impl Calibration {
    /// From how many units of the trace one millivolt is, and from the value that is 0 mV.
    ///
    /// # Errors
    /// [`UnusableCalibration`] when a number makes no scale.
    pub fn new(units_per_millivolt: f64, centre: f64) -> Result<Self, UnusableCalibration> {
        if !SCALES.contains(&units_per_millivolt) {
            return Err(UnusableCalibration::Scale(units_per_millivolt));
        }
        if !centre.is_finite() {
            return Err(UnusableCalibration::Centre(centre));
        }
        Ok(Self { centre, units_per_millivolt })
    }

    /// From the converter and the value that is 0 mV.
    ///
    /// # Errors
    /// [`UnusableCalibration`] when a number makes no scale.
    pub fn of_converter(converter: Converter, centre: f64) -> Result<Self, UnusableCalibration> {
        Self::new(converter.counts_per_millivolt()?, centre)
    }

    /// The value that is 0 mV.
    pub const fn centre(self) -> f64 {
        self.centre
    }

    /// How many units of the trace one millivolt is.
    pub const fn units_per_millivolt(self) -> f64 {
        self.units_per_millivolt
    }

    /// What a value of the trace is at the skin.
    pub fn millivolts(self, value: f64) -> Millivolts {
        Millivolts::new((value - self.centre) / self.units_per_millivolt)
    }

    /// Whether a trace that reaches from the lowest to the highest value is as tall as one of a heart
    /// can be.
    pub fn is_likely(self, reach: Extent) -> bool {
        let height = (f64::from(reach.high) - f64::from(reach.low)) / self.units_per_millivolt;
        LIKELY_SPAN.contains(&height)
    }

    /// The recording in millivolts; one that is in millivolts already stays as it is.
    #[must_use]
    pub fn of(self, recording: &Recording) -> Recording {
        if recording.unit == VoltageUnit::Millivolt {
            return recording.clone();
        }
        let scaled = |&sample: &f32| {
            let value = self.millivolts(sample.into()).millivolts();
            value.clamp(f32::MIN.into(), f32::MAX.into()) as f32
        };
        Recording {
            unit: VoltageUnit::Millivolt,
            samples: recording.samples.iter().map(scaled).collect(),
            ..recording.clone()
        }
    }
}

impl Converter {
    /// The bits of common converters.
    pub const USUAL_BITS: [u32; 6] = [8, 10, 12, 14, 16, 24];

    /// The fewest of [`Self::USUAL_BITS`] whose counts, from 0 up or on both sides of 0, reach as far as
    /// a trace does; `None` when not even the most do.
    pub fn fewest_bits(reach: Extent) -> Option<u32> {
        let (low, high) = (f64::from(reach.low), f64::from(reach.high));
        let holds = |bits: u32| {
            let counts = f64::from(bits).exp2();
            let (from, to) = if low < 0.0 { (-counts / 2.0, counts / 2.0) } else { (0.0, counts) };
            low >= from && high < to
        };
        Self::USUAL_BITS.into_iter().find(|&bits| holds(bits))
    }

    /// How many counts one millivolt at the skin is.
    ///
    /// # Errors
    /// [`UnusableCalibration`] when a number makes no scale.
    pub fn counts_per_millivolt(self) -> Result<f64, UnusableCalibration> {
        let Self { range, bits, gain } = self;
        if !(range.millivolts() > 0.0 && range.millivolts().is_finite()) {
            return Err(UnusableCalibration::Range(range));
        }
        if !(1..=MOST_BITS).contains(&bits) {
            return Err(UnusableCalibration::Bits(bits));
        }
        if !(gain > 0.0 && gain.is_finite()) {
            return Err(UnusableCalibration::Gain(gain));
        }
        Ok(f64::from(bits).exp2() * gain / range.millivolts())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::SampleRate;
    use proptest::prelude::*;

    const TEN_BITS: Converter =
        Converter { range: Millivolts::new(5000.0), bits: 10, gain: 1000.0 };

    fn recording(samples: &[f32], unit: VoltageUnit) -> Recording {
        Recording {
            name: "A0".to_owned(),
            rate: SampleRate::new(250.0).unwrap(),
            unit,
            samples: samples.into(),
            holes: Vec::new(),
            marks: Vec::new(),
        }
    }

    #[test]
    fn ten_bits_over_five_volts_behind_a_gain_of_a_thousand() {
        // One count is 5 V / 1024 = 4.8828 mV at the converter, so 4.8828 µV at the skin.
        let calibration = Calibration::of_converter(TEN_BITS, 512.0).unwrap();
        assert_eq!(calibration.units_per_millivolt(), 204.8);
        assert!((calibration.millivolts(513.0).millivolts() - 0.004_882_8).abs() < 1e-7);
        let trace = recording(&[512.0, 716.8, 307.2], VoltageUnit::Counts);
        let scaled = calibration.of(&trace);
        assert_eq!(scaled.unit, VoltageUnit::Millivolt);
        for (found, right) in scaled.samples.iter().zip([0.0, 1.0, -1.0]) {
            assert!((found - right).abs() < 1e-6, "{found} is not {right}");
        }
        assert_eq!(trace.samples[0], 512.0, "the recording itself stays");
    }

    #[test]
    fn nonsense_is_refused_with_what_to_write_instead() {
        let refused =
            |converter| Calibration::of_converter(converter, 0.0).unwrap_err().to_string();
        for volts in [0.0, -5.0, f64::NAN, f64::INFINITY] {
            let said = refused(Converter { range: Millivolts::new(volts * 1000.0), ..TEN_BITS });
            assert!(said.contains("such as 5 or 3.3"), "{said}");
        }
        for bits in [0, 33] {
            assert!(refused(Converter { bits, ..TEN_BITS }).contains("from 1 to 32"));
        }
        for gain in [0.0, -1000.0, f64::NAN] {
            assert!(refused(Converter { gain, ..TEN_BITS }).contains("above 0"));
        }
        for units in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-300] {
            assert!(Calibration::new(units, 0.0).is_err(), "1 mV was {units} units");
        }
        assert!(Calibration::new(1.0, f64::NAN).is_err());
    }

    #[test]
    fn a_file_with_nonsense_is_no_calibration() {
        let read = serde_json::from_str::<Calibration>;
        assert!(read(r#"{"centre":512,"units_per_millivolt":0}"#).is_err());
        let calibration = read(r#"{"centre":512,"units_per_millivolt":204.8}"#).unwrap();
        assert_eq!(calibration, Calibration::of_converter(TEN_BITS, 512.0).unwrap());
    }

    #[test]
    fn a_trace_says_how_many_bits_it_needs_at_least() {
        let bits = |low, high| Converter::fewest_bits(Extent { low, high });
        assert_eq!(bits(480.0, 640.0), Some(10));
        assert_eq!((bits(0.0, 1023.0), bits(0.0, 1024.0)), (Some(10), Some(12)));
        assert_eq!((bits(-2048.0, 2047.0), bits(-2049.0, 0.0)), (Some(12), Some(14)));
        assert_eq!(bits(0.0, 1.0e9), None);
    }

    #[test]
    fn a_heart_is_about_a_millivolt_tall() {
        let reach = Extent { low: 480.0, high: 640.0 };
        let likely = |units| Calibration::new(units, 515.0).unwrap().is_likely(reach);
        assert!(likely(122.0) && !likely(0.122) && !likely(122_000.0));
    }

    #[test]
    fn millivolts_stay_millivolts() {
        let trace = recording(&[0.25], VoltageUnit::Millivolt);
        assert_eq!(Calibration::new(200.0, 512.0).unwrap().of(&trace), trace);
    }

    proptest! {
        #[test]
        fn every_sample_stays_a_number(
            samples in proptest::collection::vec(prop_oneof![-1e6..1e6f32, Just(f32::MAX), Just(f32::MIN)], 1..50),
            units in 1e-9..1e12f64,
            centre in prop_oneof![-1e6..1e6f64, Just(f64::MAX), Just(f64::MIN)],
        ) {
            let scaled = Calibration::new(units, centre).unwrap().of(&recording(&samples, VoltageUnit::Counts));
            prop_assert!(scaled.samples.iter().all(|sample| sample.is_finite()));
        }
    }
}
