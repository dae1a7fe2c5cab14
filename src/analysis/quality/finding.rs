//! What each finding means for the student and what to do about it, in one sentence.

use crate::analysis::reading::{Finding, FindingKind};
use std::fmt;

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.kind {
            FindingKind::Flat => f.write_str(
                "The line is exactly flat here, so no signal reached the sensor: plug in the cable, \
                 check the electrodes and record again, or use the rest.",
            ),
            FindingKind::Stuck => f.write_str(
                "The line is stuck at the end of the sensor's range here, as when an electrode has \
                 come off: press the electrodes on and record again, or use the rest.",
            ),
            FindingKind::Clipped => f.write_str(
                "Waves are cut off at the end of the sensor's range, so their height can't be \
                 measured, though their time can: choose a wider range and record again.",
            ),
            FindingKind::Noisy => f.write_str(
                "Beats can't be told from noise here and are not marked: sit still, rest both arms \
                 on the table and record again, or use the rest.",
            ),
            FindingKind::MainsHum(hertz) => write!(
                f,
                "A hum of {hertz:.0} Hz from the mains lies over the trace and hides small waves: \
                 move away from cables and chargers, run on battery and press the electrodes on.",
            ),
            FindingKind::BaselineWander => f.write_str(
                "The line rises and falls with breathing or movement, which shifts heights but not \
                 times: sit still, breathe quietly and measure heights from the line beside each wave.",
            ),
            FindingKind::LowRate => f.write_str(
                "There are few samples a second, so a boundary is uncertain by a sample either way: \
                 set the sensor to 250 samples a second or more and record again.",
            ),
            FindingKind::TooShort => f.write_str(
                "There are too few clear beats for averages: record at least ten seconds and sit \
                 still.",
            ),
            FindingKind::Inverted => f.write_str(
                "P, QRS and T all point down, as when the left and right arm electrodes are \
                 swapped: check the electrodes and record again, or turn the trace over.",
            ),
            FindingKind::Muscle => f.write_str(
                "This signal is named as muscle (EMG), not heart, so no beats were looked for: \
                 choose the heart's signal, or look at the muscle's bursts by eye.",
            ),
            FindingKind::NoBeats => f.write_str(
                "No heartbeat was found: check that this is the ECG signal, press the electrodes on \
                 and record again.",
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Severity;

    #[test]
    fn a_hum_names_its_frequency_and_a_remedy() {
        let hum = Finding {
            kind: FindingKind::MainsHum(60.0),
            severity: Severity::Limits,
            spans: Vec::new(),
        };
        let sentence = hum.to_string();
        assert!(sentence.starts_with("A hum of 60 Hz from the mains"));
        assert!(sentence.contains("battery") && sentence.ends_with('.'));
    }
}
