//! What the student chose to take out, and the copy that it makes.
//!
//! The order is fixed: drift, hum, what lies above a corner, then smoothing. All of them are zero-phase,
//! so no wave moves. Drift goes by a high-pass at 0.67 Hz, the highest that AHA/ACC/HRS 2007
//! (Circulation 115:1306) leave for filters without phase.

use super::smoother::Smoother;
use crate::analysis::filter::Filter;
use crate::signal::{Hertz, Recording, SampleRate};
use crate::words::{Phrase, errors_as_said, phrase};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// Below this a trace drifts.
const DRIFT: Hertz = Hertz::new(0.67);
/// The frequency of the notch over its width. Narrower would ring on after each complex (a quality of 30
/// at 50 Hz rings for 0.9 s).
const NOTCH: f64 = 10.0;

/// What is taken out of a trace.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Cleaning {
    /// Whether the slow drift goes.
    pub drift: bool,
    /// The hum that goes.
    pub mains: Option<Mains>,
    /// The corner above which everything goes.
    pub low_pass: Option<Corner>,
    /// The smoothing.
    pub smoother: Option<Smoother>,
}

/// The frequency of the mains, by part of the world.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Mains {
    /// 50 Hz.
    #[serde(rename = "50")]
    Fifty,
    /// 60 Hz.
    #[serde(rename = "60")]
    Sixty,
}

impl Mains {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Fifty, Self::Sixty];

    /// Its frequency.
    pub const fn frequency(self) -> Hertz {
        match self {
            Self::Fifty => Hertz::new(50.0),
            Self::Sixty => Hertz::new(60.0),
        }
    }
}

/// The corner of a low-pass, -3 dB, from [`Corner::LOWEST`] to [`Corner::HIGHEST`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Corner(f64);

/// Why a frequency is no corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnusableCorner(pub f64);

impl UnusableCorner {
    /// What is wrong, and what to take instead.
    pub fn said(self) -> Phrase {
        let [hz, low, high] = [self.0, Corner::LOWEST, Corner::HIGHEST].map(Phrase::exact);
        phrase!("faults.corner", hz, low, high)
    }
}

errors_as_said!(UnusableCorner);

impl Corner {
    /// Below it little of a QRS complex would be left, Hz.
    pub const LOWEST: f64 = 10.0;
    /// Above it nothing of the heart is lost, Hz.
    pub const HIGHEST: f64 = 500.0;

    /// A corner in Hz.
    ///
    /// # Errors
    /// [`UnusableCorner`] when it is out of range or no number.
    pub fn new(hz: f64) -> Result<Self, UnusableCorner> {
        if (Self::LOWEST..=Self::HIGHEST).contains(&hz) {
            Ok(Self(hz))
        } else {
            Err(UnusableCorner(hz))
        }
    }

    /// In Hz.
    pub const fn hz(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for Corner {
    type Error = UnusableCorner;
    fn try_from(hz: f64) -> Result<Self, UnusableCorner> {
        Self::new(hz)
    }
}

impl From<Corner> for f64 {
    fn from(corner: Corner) -> Self {
        corner.0
    }
}

impl Cleaning {
    /// Whether anything is taken out.
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }

    /// The copy. Holes, marks and everything else stay.
    #[must_use]
    pub fn apply(&self, recording: &Recording) -> Recording {
        if self.is_none() {
            return recording.clone();
        }
        let mut samples = Cow::Borrowed(&recording.samples[..]);
        for filter in self.filters(recording.rate) {
            samples = filter.apply(&samples).into();
        }
        if let Some(smoother) = self.smoother {
            samples = smoother.apply(&samples).into();
        }
        Recording { samples: samples.into(), ..recording.clone() }
    }

    /// What is left of a wave of one frequency after all of it; `None` with a median, which has none.
    pub fn gain(&self, frequency: Hertz, rate: SampleRate) -> Option<f64> {
        let filters: f64 =
            self.filters(rate).iter().map(|filter| filter.gain(frequency, rate)).product();
        let smoothed =
            self.smoother.map_or(Some(1.0), |smoother| smoother.gain(frequency, rate))?;
        Some(filters * smoothed)
    }

    fn filters(&self, rate: SampleRate) -> Vec<Filter> {
        let drift = self.drift.then(|| Filter::high_pass(rate, DRIFT));
        let hum = self.mains.map(|mains| Filter::notch(rate, mains.frequency(), NOTCH));
        let low = self.low_pass.map(|corner| Filter::low_pass(rate, Hertz::new(corner.hz())));
        [drift, hum, low].into_iter().flatten().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::{SmootherKind, Window};
    use super::*;
    use crate::signal::VoltageUnit;

    fn sine(hz: f64) -> Recording {
        let rate = SampleRate::new(500.0).unwrap();
        let wave = |i: i32| (std::f64::consts::TAU * hz * f64::from(i) / 500.0).sin() as f32;
        Recording {
            name: String::new(),
            rate,
            unit: VoltageUnit::Millivolt,
            samples: (0..20_000).map(wave).collect(),
            holes: Vec::new(),
            marks: Vec::new(),
        }
    }

    #[test]
    fn what_is_left_of_a_sine_is_what_the_gain_says() {
        let smoother = Smoother { kind: SmootherKind::Mean, window: Window::new(9).unwrap() };
        let all = Cleaning {
            drift: true,
            mains: Some(Mains::Fifty),
            low_pass: Some(Corner::new(100.0).unwrap()),
            smoother: Some(smoother),
        };
        for hz in [0.3, 1.0, 10.0, 45.0, 50.0, 70.0, 120.0] {
            let trace = sine(hz);
            let copy = all.apply(&trace);
            let middle = 5000..15_000;
            let product = |a: &[f32], b: &[f32]| -> f64 {
                a.iter().zip(b).map(|(a, b)| f64::from(*a) * f64::from(*b)).sum()
            };
            let left = product(&copy.samples[middle.clone()], &trace.samples[middle.clone()])
                / product(&trace.samples[middle.clone()], &trace.samples[middle]);
            let said = all.gain(Hertz::new(hz), trace.rate).unwrap();
            assert!((left - said).abs() < 2e-3, "{hz}: {left} {said}");
        }
    }

    #[test]
    fn nothing_chosen_changes_nothing() {
        let trace = sine(7.0);
        assert!(Cleaning::default().is_none());
        assert_eq!(Cleaning::default().apply(&trace), trace);
        assert_eq!(Cleaning::default().gain(Hertz::new(7.0), trace.rate), Some(1.0));
        assert!(Corner::new(f64::NAN).is_err() && Corner::new(5.0).is_err());
    }

    #[test]
    fn a_choice_is_kept_as_words() {
        let chosen = Cleaning {
            mains: Some(Mains::Sixty),
            smoother: Some(Smoother { kind: SmootherKind::Median, window: Window::NARROWEST }),
            ..Cleaning::default()
        };
        let text = serde_json::to_string(&chosen).unwrap();
        assert!(text.contains(r#""mains":"60""#) && text.contains(r#""kind":"median","window":5"#));
        assert_eq!(serde_json::from_str::<Cleaning>(&text).unwrap(), chosen);
        assert!(
            serde_json::from_str::<Cleaning>(r#"{"smoother":{"kind":"mean","window":4}}"#).is_err()
        );
    }
}
