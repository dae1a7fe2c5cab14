//! Invented heartbeats whose truth is known: sums of bells, sampled at any rate.
//!
//! A bell never ends. By convention it begins and ends 2.5 standard deviations from its middle, where
//! 4.4 % of it are left; T ends where the tangent to its last limb meets the line, at 2. A complex begins
//! with its first bell and ends with its last.

use beatwalk::signal::{Landmark, Recording, SampleRate, VoltageUnit};
use std::f64::consts::TAU;

/// How many standard deviations from its middle a bell begins and ends, and where its tangent does.
const EDGE: f64 = 2.5;
const TANGENT: f64 = 2.0;

/// One bell: its middle after R and its standard deviation in s, its height in mV.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bell {
    pub(crate) middle: f64,
    pub(crate) spread: f64,
    pub(crate) height: f64,
}

pub(crate) const fn bell(middle: f64, spread: f64, height: f64) -> Bell {
    Bell { middle, spread, height }
}

/// The waves of one beat.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    pub(crate) p: Option<Bell>,
    /// In order; R is the one in the middle.
    pub(crate) qrs: Vec<Bell>,
    pub(crate) t: Option<Bell>,
}

impl Shape {
    /// An ordinary beat in lead I at an interval in s: QT follows its square root, PR hardly moves.
    pub(crate) fn ordinary(rr: f64) -> Self {
        let root = rr.clamp(0.25, 1.44).sqrt();
        Self {
            p: Some(bell(-0.155 * root.powf(0.6), 0.021 * root.powf(0.5), 0.12)),
            qrs: vec![bell(-0.026, 0.008, -0.1), bell(0.0, 0.011, 1.0), bell(0.028, 0.009, -0.2)],
            t: Some(bell(0.28 * root, 0.045 * root, 0.3)),
        }
    }

    fn bells(&self) -> impl Iterator<Item = &Bell> {
        self.p.iter().chain(&self.qrs).chain(&self.t)
    }

    /// Where a point lies, s after R.
    pub(crate) fn at(&self, landmark: Landmark) -> Option<f64> {
        let edge = |bell: &Bell, spreads: f64| bell.middle + spreads * bell.spread;
        match landmark {
            Landmark::POnset => self.p.map(|p| edge(&p, -EDGE)),
            Landmark::PPeak => self.p.map(|p| p.middle),
            Landmark::PEnd => self.p.map(|p| edge(&p, EDGE)),
            Landmark::QrsOnset => self.qrs.first().map(|bell| edge(bell, -EDGE)),
            Landmark::R => Some(0.0),
            Landmark::QrsEnd => self.qrs.last().map(|bell| edge(bell, EDGE)),
            Landmark::TOnset => self.t.map(|t| edge(&t, -EDGE)),
            Landmark::TPeak => self.t.map(|t| t.middle),
            Landmark::TEnd => self.t.map(|t| edge(&t, TANGENT)),
            Landmark::Q | Landmark::S => None,
        }
    }
}

/// Beats and when their R comes, s.
pub(crate) type Beats = Vec<(f64, Shape)>;

/// Adds the beats of a shape at even intervals, for a time in s.
pub(crate) fn even(rr: f64, seconds: f64, shape: impl Fn(usize) -> Shape) -> Beats {
    let count = ((seconds - 1.2) / rr).floor() as usize + 1;
    // Intervals that are no whole samples: beats fall anywhere between them.
    (0..count).map(|beat| (0.6137 + rr * beat as f64, shape(beat))).collect()
}

/// The trace of some beats, with white noise of a standard deviation in mV, or upside down.
pub(crate) fn trace(beats: &Beats, seconds: f64, hz: f64, noise: f64, upright: bool) -> Recording {
    let sign = if upright { 1.0 } else { -1.0 };
    let mut random = oorandom::Rand64::new(7);
    let mut samples: Vec<f64> = (0..(seconds * hz) as usize)
        .map(|_| {
            let (radius, angle) = (1.0 - random.rand_float(), random.rand_float());
            noise * (-2.0 * radius.ln()).sqrt() * (TAU * angle).cos()
        })
        .collect();
    for (r, shape) in beats {
        for bell in shape.bells() {
            let (middle, reach) = ((r + bell.middle) * hz, 6.0 * bell.spread * hz);
            let from = (middle - reach).max(0.0) as usize;
            let to = ((middle + reach).max(0.0) as usize + 1).min(samples.len());
            for (at, sample) in samples.iter_mut().enumerate().take(to).skip(from) {
                let distance = (at as f64 - middle) / (bell.spread * hz);
                *sample += sign * bell.height * (-0.5 * distance * distance).exp();
            }
        }
    }
    Recording {
        name: "I".to_owned(),
        rate: SampleRate::new(hz).unwrap(),
        unit: VoltageUnit::Millivolt,
        samples: samples.into_iter().map(|value| value as f32).collect(),
        holes: Vec::new(),
        marks: Vec::new(),
    }
}
