//! Mains hum, measured from the spectrum: which of 50 and 60 Hz, and how much of it.
//!
//! Averaged periodograms of four seconds with a Hann window and half overlap (Welch 1967, IEEE Trans
//! Audio Electroacoust 15:70). A line is hum when it stands far above the median of what lies beside
//! it. Power P in the line is an amplitude of √(2P). A line above half the sampling
//! rate shows at its distance from the nearest multiple of the rate (Shannon 1949); it is looked for there,
//! and has to stand out more, since other things may lie there too.

use crate::analysis::neighbours::median;
use crate::signal::{Hertz, SampleRate, Seconds};
use rustfft::algorithm::{BluesteinsAlgorithm, Radix4};
use rustfft::num_complex::Complex;
use rustfft::{Fft, FftDirection};
use std::sync::Arc;

/// The mains of the world.
const MAINS: [f64; 2] = [50.0, 60.0];
/// One periodogram: 0.25 Hz apart, fine enough for a line.
const LENGTH: Seconds = Seconds::new(4.0);
/// At most this many are averaged, evenly spread over the trace.
const MOST: usize = 64;
/// The line lies within this of the nominal frequency.
const WITHIN: f64 = 1.0;
/// What lies beside it: from [`BESIDE`] to [`AWAY`] hertz on either side.
const BESIDE: f64 = 2.0;
const AWAY: f64 = 6.0;
/// How far the line stands above what lies beside it, in power.
const ABOVE: f32 = 20.0;

/// How much more a line has to stand out where the mains only show folded back.
const FOLDED: f32 = 3.0;
/// Below this lie the waves of the heart: a line there is not taken for the mains.
const LOWEST: f64 = 15.0;

/// A steady hum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hum {
    /// 50 or 60 Hz.
    pub(crate) mains: Hertz,
    /// Where it shows in the trace: another frequency when the sampling is slow.
    pub(crate) frequency: Hertz,
    /// Its amplitude, in units of the trace.
    pub(crate) amplitude: f64,
}

/// The stronger of the two lines, if either is there.
pub(crate) fn hum(samples: &[f32], rate: SampleRate) -> Option<Hum> {
    let length = rate.count(LENGTH).min(samples.len());
    // A second at least, or lines can't be told apart from their neighbours.
    if length < rate.count(Seconds::new(1.0)).max(16) {
        return None;
    }
    let power = spectrum(samples, length);
    let apart = rate.hz() / length as f64;
    let lines = MAINS.iter().filter_map(|&mains| line(&power, apart, mains, rate));
    lines.max_by(|a, b| a.amplitude.total_cmp(&b.amplitude))
}

/// The line at one mains frequency, if it stands out.
fn line(power: &[f32], apart: f64, mains: f64, rate: SampleRate) -> Option<Hum> {
    let seen = (mains - (mains / rate.hz()).round() * rate.hz()).abs();
    let folded = seen != mains;
    if folded && seen < LOWEST {
        return None;
    }
    let above_all = if folded { FOLDED * ABOVE } else { ABOVE };
    let bins = |from: f64, to: f64| {
        let (from, to) = ((from / apart).ceil() as usize, (to / apart).floor() as usize);
        // The last bin is half the rate itself: a line there has no room beside it.
        power.get(from..=to).filter(|_| to + 1 < power.len())
    };
    let peak = bins(seen - WITHIN, seen + WITHIN)?;
    let below = bins(seen - AWAY, seen - BESIDE)?;
    let above = bins(seen + BESIDE, seen + AWAY).unwrap_or(&[]);
    let beside = median(below.iter().chain(above).copied())?;
    let tallest = peak.iter().copied().fold(0.0, f32::max);
    if tallest <= above_all * beside {
        return None;
    }
    let excess: f64 = peak.iter().map(|&bin| f64::from((bin - beside).max(0.0))).sum();
    Some(Hum {
        mains: Hertz::new(mains),
        frequency: Hertz::new(seen),
        amplitude: (2.0 * excess).sqrt(),
    })
}

/// Mean power in each bin; all bins together are the variance of the trace.
fn spectrum(samples: &[f32], length: usize) -> Vec<f32> {
    // One algorithm for every length (Bluestein 1970, IEEE Trans Audio Electroacoust 18:451) around one for
    // powers of two, in f64: a planner brings them all along, which is a tenth of the program.
    let inner = Radix4::<f64>::new((2 * length - 1).next_power_of_two(), FftDirection::Forward);
    let transform = BluesteinsAlgorithm::new(length, Arc::new(inner));
    let turn = std::f64::consts::TAU / length as f64;
    let window: Vec<f64> = (0..length).map(|i| 0.5 - 0.5 * (turn * i as f64).cos()).collect();
    let energy: f64 = window.iter().map(|weight| weight * weight).sum();
    let half = (length / 2).max(1);
    let step = ((samples.len() - length) / half + 1).div_ceil(MOST) * half;
    let mut bins = vec![Complex::default(); length];
    let mut scratch = vec![Complex::default(); transform.get_inplace_scratch_len()];
    let mut power = vec![0.0f64; length / 2 + 1];
    let starts: Vec<usize> = (0..=samples.len() - length).step_by(step).collect();
    // Two real stretches in one complex transform Z: their powers together are (|Z(k)|² + |Z(−k)|²) / 2.
    for pair in starts.chunks(2) {
        bins.fill(Complex::default());
        for (is_second, &start) in pair.iter().enumerate() {
            let stretch = &samples[start..start + length];
            let mean = stretch.iter().map(|&value| f64::from(value)).sum::<f64>() / length as f64;
            for ((place, &value), &weight) in bins.iter_mut().zip(stretch).zip(&window) {
                let part = if is_second == 0 { &mut place.re } else { &mut place.im };
                *part = (f64::from(value) - mean) * weight;
            }
        }
        transform.process_with_scratch(&mut bins, &mut scratch);
        let mirrored = bins.iter().take(1).chain(bins.iter().rev());
        for ((sum, bin), other) in power.iter_mut().zip(&bins).zip(mirrored) {
            *sum += 0.5 * (bin.norm_sqr() + other.norm_sqr());
        }
    }
    let scale = 2.0 / (energy * length as f64 * starts.len() as f64);
    power.into_iter().map(|sum| (sum * scale) as f32).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    fn trace(rate: f64, hum: f64, amplitude: f64) -> Vec<f32> {
        let wave = |i: usize| {
            let t = i as f64 / rate;
            // Pulses once a second, with power up to past 60 Hz, and the line.
            (-((t.fract() - 0.5) / 0.01).powi(2)).exp() + amplitude * (TAU * hum * t).sin()
        };
        (0..(10.0 * rate) as usize).map(|i| wave(i) as f32).collect()
    }

    #[test]
    fn the_line_that_is_there_is_found_with_its_amplitude() {
        for rate in [250.0, 360.0, 1000.0] {
            for mains in MAINS {
                let found = hum(&trace(rate, mains, 0.3), SampleRate::new(rate).unwrap()).unwrap();
                assert_eq!(found.frequency.hertz(), mains);
                assert!((found.amplitude - 0.3).abs() < 0.02, "{rate} {mains}: {found:?}");
            }
        }
    }

    #[test]
    fn a_line_above_half_the_rate_shows_folded_back() {
        // 60 Hz at 100 samples a second looks like 40 Hz.
        let found = hum(&trace(100.0, 60.0, 0.3), SampleRate::new(100.0).unwrap()).unwrap();
        assert_eq!((found.mains.hertz(), found.frequency.hertz()), (60.0, 40.0));
        assert!((found.amplitude - 0.3).abs() < 0.02, "{found:?}");
    }

    #[test]
    fn no_line_is_made_up() {
        let rate = SampleRate::new(250.0).unwrap();
        assert_eq!(hum(&trace(250.0, 40.0, 0.3), rate), None);
        assert_eq!(hum(&trace(250.0, 50.0, 0.0), rate), None);
        assert_eq!(hum(&[], rate), None);
        // 50 Hz is half of 100 Hz: nothing can be said.
        assert_eq!(hum(&trace(100.0, 25.0, 0.3), SampleRate::new(100.0).unwrap()), None);
    }
}
