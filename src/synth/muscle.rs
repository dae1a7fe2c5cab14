//! The noise of a working muscle: many fibres firing out of step, heard at the skin.
//!
//! White noise between 20 and 450 Hz, the usual band of surface EMG (SENIAM recommends a high-pass
//! of 10-20 Hz and a low-pass near 500 Hz); the upper edge is left to the grid where the sampling
//! rate is too low for it. Second-order Butterworth edges.

use super::random::Random;
use crate::signal::{Hertz, SampleRate};
use biquad::{Biquad, Coefficients, DirectForm2Transposed, Q_BUTTERWORTH_F64, ToHertz, Type};

const BAND: (Hertz, Hertz) = (Hertz::new(20.0), Hertz::new(450.0));

/// So many samples with spread 1, settled from the first. All zero below 100 samples a second, where
/// the band does not fit.
pub(super) fn muscle_noise(samples: usize, rate: SampleRate, random: &mut Random) -> Vec<f64> {
    let lead = rate.hz() as usize;
    let mut noise: Vec<f64> = (0..lead + samples).map(|_| random.normal()).collect();
    if rate.hz() < 100.0 {
        return vec![0.0; samples];
    }
    filter(&mut noise, Type::HighPass, BAND.0, rate);
    if BAND.1.hertz() < 0.9 * rate.nyquist().hertz() {
        filter(&mut noise, Type::LowPass, BAND.1, rate);
    }
    noise.drain(..lead);
    let power = noise.iter().map(|x| x * x).sum::<f64>() / samples.max(1) as f64;
    noise.iter_mut().for_each(|x| *x /= power.sqrt());
    noise
}

fn filter(signal: &mut [f64], kind: Type<f64>, edge: Hertz, rate: SampleRate) {
    // Both edges lie below half the sampling rate: the caller has looked.
    if let Ok(coefficients) =
        Coefficients::<f64>::from_params(kind, rate.hz().hz(), edge.hertz().hz(), Q_BUTTERWORTH_F64)
    {
        let mut section = DirectForm2Transposed::<f64>::new(coefficients);
        signal.iter_mut().for_each(|x| *x = section.run(*x));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_noise_has_spread_1_and_nothing_slow() {
        let rate = SampleRate::new(1000.0).unwrap();
        let noise = muscle_noise(20_000, rate, &mut Random::new(5));
        let power = noise.iter().map(|x| x * x).sum::<f64>() / 20_000.0;
        assert!((power - 1.0).abs() < 1e-9);
        // Means over 0.2 s keep mostly what is slower than 5 Hz; white noise would leave 1/200.
        let slow =
            noise.chunks(200).map(|part| (part.iter().sum::<f64>() / 200.0).powi(2)).sum::<f64>()
                / 100.0;
        assert!(slow < 0.1 / 200.0, "slow power {slow}");
    }
}
