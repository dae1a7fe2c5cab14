//! Chance from a seed: the same seed gives the same numbers on every machine.
//!
//! The generator is PCG-XSH-RR (`oorandom`): no state outside itself and nothing asked of the
//! system, so it works in a browser.

use oorandom::Rand32;

/// A stream of chance numbers.
#[derive(Clone, Debug)]
pub struct Random(Rand32);

impl Random {
    /// The stream that belongs to a seed.
    pub fn new(seed: u64) -> Self {
        Self(Rand32::new(seed))
    }

    /// A number from 0 to 1, both left out.
    pub fn unit(&mut self) -> f64 {
        (f64::from(self.0.rand_u32()) + 0.5) / (f64::from(u32::MAX) + 1.0)
    }

    /// A number from `low` to `high`, all equally likely.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A normally distributed number with mean 0 and spread 1 (Box and Muller 1958).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.unit().ln()).sqrt();
        radius * (std::f64::consts::TAU * self.unit()).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_decides_the_numbers() {
        let draw = |seed| {
            let mut random = Random::new(seed);
            [(); 8].map(|()| random.unit().to_bits())
        };
        assert_eq!(draw(7), draw(7));
        assert_ne!(draw(7), draw(8));
    }

    #[test]
    fn normal_numbers_have_mean_0_and_spread_1() {
        let mut random = Random::new(3);
        let numbers: Vec<f64> = (0..20_000).map(|_| random.normal()).collect();
        let mean = numbers.iter().sum::<f64>() / 20_000.0;
        let variance = numbers.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 20_000.0;
        // Three standard errors: 1 / sqrt(n) for the mean, sqrt(2 / n) for the variance.
        assert!(mean.abs() < 3.0 / 20_000_f64.sqrt(), "mean {mean}");
        assert!((variance - 1.0).abs() < 3.0 * (2.0 / 20_000_f64).sqrt(), "variance {variance}");
    }
}
