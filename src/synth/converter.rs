//! The converter of a sensor: steps instead of a smooth voltage, and two rails it cannot leave.

use crate::signal::Millivolts;

/// A converter that counts from its lowest to its highest voltage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Converter {
    /// The voltage of one step.
    pub step: Millivolts,
    /// How many bits a sample has: the rails lie half of 2^bits steps from zero.
    pub bits: u32,
}

impl Converter {
    /// 12 bits in steps of 2 µV: from -4.096 to 4.094 mV.
    pub const CLASSROOM: Self = Self { step: Millivolts::new(0.002), bits: 12 };

    /// What the converter makes of a trace in millivolts: the nearest step, cut off at the rails.
    pub fn convert(self, trace: &mut [f32]) {
        let half = f64::from(1_u32 << (self.bits.clamp(1, 24) - 1));
        for sample in trace {
            let steps =
                (f64::from(*sample) / self.step.millivolts()).round().clamp(-half, half - 1.0);
            // Adding zero turns a negative zero into a plain one.
            *sample = (steps * self.step.millivolts() + 0.0) as f32;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn voltages_fall_on_steps_and_stop_at_the_rails() {
        let mut trace = [0.0, 0.0009, 0.0011, -0.0031, 9.0, -9.0];
        Converter::CLASSROOM.convert(&mut trace);
        assert_eq!(trace, [0.0, 0.0, 0.002, -0.004, 4.094, -4.096]);
    }
}
