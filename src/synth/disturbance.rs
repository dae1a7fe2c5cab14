//! What spoils a trace in a classroom: hum, a wandering baseline, tremor, swapped electrodes.
//!
//! Each is added to the trace it is given, in the unit of that trace. How much of each is common
//! practice, not a published figure.

use super::muscle::muscle_noise;
use super::random::Random;
use crate::signal::{Hertz, Millivolts, SampleRate};
use std::f64::consts::TAU;

/// One thing that goes wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Disturbance {
    /// The mains, with a weaker third harmonic where the sampling rate can hold it.
    Hum {
        /// 50 or 60 Hz.
        mains: Hertz,
        /// The height of its wave.
        height: Millivolts,
    },
    /// The baseline drifts: breathing and electrodes that shift on the skin.
    Wander {
        /// About how far it strays from the middle.
        height: Millivolts,
    },
    /// Tense muscles, now more, now less.
    Tremor {
        /// The spread of the noise at its mean strength.
        spread: Millivolts,
    },
    /// The electrodes of the two arms are swapped: lead I upside down.
    SwappedArms,
}

impl Disturbance {
    /// Spoils a trace.
    pub fn apply(self, trace: &mut [f32], rate: SampleRate, random: &mut Random) {
        match self {
            Self::Hum { mains, height } => {
                let phase = random.between(0.0, TAU);
                let third = if 3.0 * mains.hertz() < rate.nyquist().hertz() { 0.15 } else { 0.0 };
                add(trace, rate, |time| {
                    let angle = TAU * mains.hertz() * time + phase;
                    height.millivolts() * (angle.sin() + third * (3.0 * angle).sin())
                });
            }
            Self::Wander { height } => {
                // Three slow waves that do not repeat within a recording.
                let waves = [0.07, 0.19, 0.31].map(|hertz| (hertz, random.between(0.0, TAU)));
                add(trace, rate, |time| {
                    let sum: f64 =
                        waves.iter().map(|(hertz, phase)| (TAU * hertz * time + phase).sin()).sum();
                    height.millivolts() * sum / 3.0
                });
            }
            Self::Tremor { spread } => {
                let noise = muscle_noise(trace.len(), rate, random);
                let phase = random.between(0.0, TAU);
                for (index, (sample, noise)) in trace.iter_mut().zip(noise).enumerate() {
                    let time = index as f64 / rate.hz();
                    let tension = 1.0 + 0.6 * (TAU * 0.2 * time + phase).sin();
                    *sample += (spread.millivolts() * tension * noise) as f32;
                }
            }
            Self::SwappedArms => trace.iter_mut().for_each(|sample| *sample = -*sample),
        }
    }
}

fn add(trace: &mut [f32], rate: SampleRate, at: impl Fn(f64) -> f64) {
    for (index, sample) in trace.iter_mut().enumerate() {
        *sample += at(index as f64 / rate.hz()) as f32;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on_nothing(disturbance: Disturbance, hz: f64) -> Vec<f32> {
        let mut trace = vec![0.0; (10.0 * hz) as usize];
        disturbance.apply(&mut trace, SampleRate::new(hz).unwrap(), &mut Random::new(9));
        trace
    }

    /// The height of one frequency in ten seconds, by a naive Fourier transform.
    fn height_at(trace: &[f32], hertz: f64, rate: f64) -> f64 {
        let (mut re, mut im) = (0.0, 0.0);
        for (i, &x) in trace.iter().enumerate() {
            let (sin, cos) = (TAU * hertz * i as f64 / rate).sin_cos();
            re += f64::from(x) * cos;
            im += f64::from(x) * sin;
        }
        2.0 * re.hypot(im) / trace.len() as f64
    }

    #[test]
    fn hum_is_at_the_mains_and_at_its_third_harmonic() {
        let hum = Disturbance::Hum { mains: Hertz::new(50.0), height: Millivolts::new(0.2) };
        let fast = on_nothing(hum, 1000.0);
        assert!((height_at(&fast, 50.0, 1000.0) - 0.2).abs() < 1e-6);
        assert!((height_at(&fast, 150.0, 1000.0) - 0.03).abs() < 1e-6);
        assert!(height_at(&fast, 100.0, 1000.0) < 1e-6);
        // At 250 samples a second 150 Hz would fold back to 100 Hz: it is left out.
        assert!(height_at(&on_nothing(hum, 250.0), 100.0, 250.0) < 1e-6);
    }

    #[test]
    fn wander_stays_within_its_height() {
        let trace = on_nothing(Disturbance::Wander { height: Millivolts::new(0.5) }, 250.0);
        assert!(trace.iter().all(|x| x.abs() <= 0.5) && trace.iter().any(|x| x.abs() > 0.1));
    }

    #[test]
    fn tremor_has_about_its_spread() {
        let trace = on_nothing(Disturbance::Tremor { spread: Millivolts::new(0.05) }, 250.0);
        let power = trace.iter().map(|&x| f64::from(x).powi(2)).sum::<f64>() / trace.len() as f64;
        // Over whole swings the tension 1 + 0.6 sin has a mean square of 1.18.
        assert!((power.sqrt() - 0.05 * 1.18_f64.sqrt()).abs() < 0.005, "{}", power.sqrt());
    }

    #[test]
    fn swapped_arms_turn_every_sample_round() {
        let mut trace = vec![0.5, -0.25];
        let rate = SampleRate::new(250.0).unwrap();
        Disturbance::SwappedArms.apply(&mut trace, rate, &mut Random::new(1));
        assert_eq!(trace, [-0.5, 0.25]);
    }
}
