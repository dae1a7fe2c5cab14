//! How the interval from beat to beat wavers: two humps in its spectrum.
//!
//! McSharry, Clifford, Tarassenko and Smith 2003: the spectrum of RR(t) is the sum of two bells, one
//! near 0.10 Hz (LF) and one at the breathing frequency (HF). Each frequency gets a random phase, an
//! inverse Fourier transform makes the series, and it is scaled to the wanted spread.

use super::random::Random;
use crate::signal::{Hertz, Seconds};
use rustfft::algorithm::Radix4;
use rustfft::num_complex::Complex;
use rustfft::{Fft, FftDirection};
use std::f64::consts::TAU;

/// The two humps. The default is the publication's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RrSpectrum {
    /// The middle of the slow hump.
    pub low: Hertz,
    /// The middle of the fast hump: how often the person breathes.
    pub high: Hertz,
    /// The standard deviation of each hump.
    pub width: Hertz,
    /// The power of the slow hump over that of the fast one.
    pub low_to_high: f64,
}

impl Default for RrSpectrum {
    fn default() -> Self {
        Self {
            low: Hertz::new(0.1),
            high: Hertz::new(0.25),
            width: Hertz::new(0.01),
            low_to_high: 0.5,
        }
    }
}

impl RrSpectrum {
    /// How often the series is sampled: far above both humps.
    pub const SAMPLED_AT: Hertz = Hertz::new(4.0);

    /// A series with this spectrum, mean 0 and the given spread, long enough for a stretch of time.
    pub fn series(&self, spread: Seconds, stretch: Seconds, random: &mut Random) -> Vec<f64> {
        let wanted = (stretch.seconds() * Self::SAMPLED_AT.hertz()).ceil().max(64.0) as usize;
        let length = wanted.next_power_of_two();
        let mut bins = vec![Complex::default(); length];
        for (bin, value) in bins.iter_mut().enumerate().take(length / 2).skip(1) {
            let frequency = bin as f64 * Self::SAMPLED_AT.hertz() / length as f64;
            let phase = random.between(0.0, TAU);
            *value = Complex::from_polar(self.power_at(frequency).sqrt(), phase);
        }
        Radix4::<f64>::new(length, FftDirection::Inverse).process(&mut bins);
        // The real part of one side of a spectrum is half of what both sides give.
        let mut series: Vec<f64> = bins.iter().map(|bin| 2.0 * bin.re).collect();
        let power = series.iter().map(|x| x * x).sum::<f64>() / length as f64;
        let scale = if power > 0.0 { spread.seconds() / power.sqrt() } else { 0.0 };
        series.iter_mut().for_each(|x| *x *= scale);
        series
    }

    fn power_at(&self, frequency: f64) -> f64 {
        let hump = |middle: Hertz| {
            let away = (frequency - middle.hertz()) / self.width.hertz();
            (-0.5 * away * away).exp()
        };
        self.low_to_high * hump(self.low) + hump(self.high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Power between two frequencies by a naive Fourier transform.
    fn power(series: &[f64], low: f64, high: f64) -> f64 {
        let length = series.len() as f64;
        (1..series.len() / 2)
            .filter(|&bin| (low..high).contains(&(bin as f64 * 4.0 / length)))
            .map(|bin| {
                let (mut re, mut im) = (0.0, 0.0);
                for (i, x) in series.iter().enumerate() {
                    let (sin, cos) = (TAU * bin as f64 * i as f64 / length).sin_cos();
                    re += x * cos;
                    im += x * sin;
                }
                re * re + im * im
            })
            .sum()
    }

    #[test]
    fn the_series_has_the_spread_and_the_two_humps() {
        let series = RrSpectrum::default().series(
            Seconds::new(0.04),
            Seconds::new(500.0),
            &mut Random::new(1),
        );
        let mean = series.iter().sum::<f64>() / series.len() as f64;
        let spread = (series.iter().map(|x| x * x).sum::<f64>() / series.len() as f64).sqrt();
        assert!(mean.abs() < 1e-12 && (spread - 0.04).abs() < 1e-12, "{mean}, {spread}");
        // The bands of the Task Force 1996 (Circulation 93:1043): LF 0.04-0.15, HF 0.15-0.40 Hz.
        let (low, high) = (power(&series, 0.04, 0.15), power(&series, 0.15, 0.4));
        assert!((low / high - 0.5).abs() < 0.01, "LF/HF {}", low / high);
        assert!(low + high > 0.999 * power(&series, 0.0, 2.0), "power outside the two bands");
    }
}
