//! A stretch reflex in surface EMG: a tap on the tendon, then a burst at a known latency.
//!
//! Knee, rectus femoris: latency 17.35 ± 1.56 ms and height 1.55 ± 0.75 mV in 50 adults (Chon et
//! al. 1996), burst 20.6 ± 1.7 ms long in another 48. The burst is drawn as the second derivative
//! of a bell, the three-phase shape of many fibres firing together (common practice); it leaves the
//! baseline at the latency and is over after its length.

use super::muscle::muscle_noise;
use super::random::Random;
use crate::signal::{Millivolts, SampleRate, Seconds};

/// How a muscle answers taps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reflex {
    /// From the tap to the first of the burst.
    pub latency: Seconds,
    /// The spread of the latency from tap to tap.
    pub latency_spread: Seconds,
    /// From the first to the last of the burst.
    pub length: Seconds,
    /// From the lowest to the highest point of the burst.
    pub height: Millivolts,
    /// The spread of the EMG of the muscle at rest.
    pub resting_noise: Millivolts,
}

/// One tap and the moment the muscle answered it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tap {
    /// When the hammer touched.
    pub at: Seconds,
    /// When the burst began.
    pub burst: Seconds,
}

impl Reflex {
    /// The knee of an invented volunteer.
    pub const KNEE: Self = Self {
        latency: Seconds::new(0.0178),
        latency_spread: Seconds::new(0.0004),
        length: Seconds::new(0.0206),
        height: Millivolts::new(1.5),
        resting_noise: Millivolts::new(0.008),
    };

    /// The EMG over so many samples in millivolts, and when each tap was answered.
    pub fn record(
        &self,
        taps: &[Seconds],
        rate: SampleRate,
        samples: usize,
        random: &mut Random,
    ) -> (Vec<f32>, Vec<Tap>) {
        let mut trace: Vec<f32> = muscle_noise(samples, rate, random)
            .into_iter()
            .map(|noise| (self.resting_noise.millivolts() * noise) as f32)
            .collect();
        let answered = taps
            .iter()
            .map(|&at| {
                let late = self.latency_spread.seconds() * random.normal().clamp(-2.0, 2.0);
                let burst = at + self.latency + Seconds::new(late);
                let height = self.height.millivolts() * random.between(0.85, 1.15);
                self.add_burst(&mut trace, burst, height, rate);
                Tap { at, burst }
            })
            .collect();
        (trace, answered)
    }

    fn add_burst(&self, trace: &mut [f32], burst: Seconds, height: f64, rate: SampleRate) {
        let first = (burst.seconds() * rate.hz()).ceil() as usize;
        let last = ((burst + self.length).seconds() * rate.hz()).floor() as usize;
        for (index, sample) in trace.iter_mut().enumerate().take(last + 1).skip(first) {
            let part = (index as f64 / rate.hz() - burst.seconds()) / self.length.seconds();
            *sample += (height * three_phases(part)) as f32;
        }
    }
}

/// (1 - u²) exp(-u²/2) over 3.5 spreads on either side, 1 from lowest to highest point, faded to 0
/// at both ends; `part` runs from 0 to 1.
fn three_phases(part: f64) -> f64 {
    let u = 7.0 * (part - 0.5);
    let fade = (std::f64::consts::PI * part).sin().max(0.0).powf(0.25);
    let range = 1.0 + 2.0 * (-1.5f64).exp();
    fade * (1.0 - u * u) * (-0.5 * u * u).exp() / range
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_tap_is_answered_at_its_latency_and_not_before() {
        let rate = SampleRate::new(4000.0).unwrap();
        let still = Reflex { resting_noise: Millivolts::new(0.0), ..Reflex::KNEE };
        let taps = [0.5, 1.25].map(Seconds::new);
        let (trace, answered) = still.record(&taps, rate, 8000, &mut Random::new(2));
        for tap in answered {
            let latency = (tap.burst - tap.at).to_milliseconds().milliseconds();
            assert!((latency - 17.8).abs() <= 0.8, "{latency}");
            let (from, burst) = (rate.nearest(tap.at).get(), tap.burst.seconds() * 4000.0);
            assert!(trace[from..burst.floor() as usize].iter().all(|&x| x == 0.0));
            let answer = &trace[burst.floor() as usize..][..100];
            let high = answer.iter().copied().fold(0.0, f32::max);
            let low = answer.iter().copied().fold(0.0, f32::min);
            assert!((1.2..=1.8).contains(&(high - low)), "{low} to {high} mV");
        }
    }
}
