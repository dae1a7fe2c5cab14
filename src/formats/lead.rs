//! Which signal of a file most looks like the wanted one: lead I, else another lead of the ECG.
//!
//! Files name their signals freely (`I`, `ECG I`, `lead I`, `EKG-1`, `MLII`). The name is cut into
//! words; what is left after `ecg`, `ekg` and `lead` is compared with the standard lead names.

use crate::signal::{Recording, VoltageUnit};

/// How likely a signal is the wanted one; the higher the likelier.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Likeness {
    /// Not a voltage.
    NoVoltage,
    /// A voltage that says it is something else: muscle, brain, eye, breath, noise.
    OtherVoltage,
    /// A voltage with a name that says nothing.
    AnyVoltage,
    /// An ECG lead.
    Lead,
    /// Lead I.
    LeadOne,
}

/// The limb, chest, orthogonal and modified leads (MLII: modified limb lead II).
const LEADS: [&str; 24] = [
    "ii", "iii", "avr", "avl", "avf", "v1", "v2", "v3", "v4", "v5", "v6", "v", "vx", "vy", "vz",
    "mli", "mlii", "mliii", "mcl1", "mcl5", "d2", "d3", "cm5", "cc5",
];

const OTHERS: [&str; 12] = [
    "emg",
    "eeg",
    "eog",
    "resp",
    "respiration",
    "breathing",
    "noise",
    "pleth",
    "ppg",
    "abp",
    "gsr",
    "eda",
];

impl Likeness {
    fn of(name: &str, unit: VoltageUnit) -> Self {
        let lower = name.to_lowercase();
        let words: Vec<&str> = lower
            .split(|sign: char| !sign.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        let says = |list: &[&str]| words.iter().any(|word| list.contains(word));
        let is_ecg = says(&["ecg", "ekg", "lead"]);
        let rest: Vec<&str> =
            words.iter().copied().filter(|word| !["ecg", "ekg", "lead"].contains(word)).collect();
        match rest.as_slice() {
            // Text often names a signal without its unit; the name then says enough.
            ["i" | "1" | "d1" | "di"] => Self::LeadOne,
            _ if is_ecg || says(&LEADS) => Self::Lead,
            _ if unit == VoltageUnit::Unstated => Self::NoVoltage,
            _ if words.iter().any(|word| OTHERS.iter().any(|other| word.starts_with(other))) => {
                Self::OtherVoltage
            }
            _ => Self::AnyVoltage,
        }
    }
}

/// The place of the likeliest trace; of equals the first. 0 when there is none.
pub(super) fn suggested(traces: &[Recording]) -> usize {
    likeliest(traces.iter().map(|trace| (trace.name.as_str(), trace.unit)))
}

/// The same for names and units.
pub(super) fn likeliest<'a>(signals: impl Iterator<Item = (&'a str, VoltageUnit)>) -> usize {
    let mut best = None;
    for (place, (name, unit)) in signals.enumerate() {
        let likeness = Likeness::of(name, unit);
        if best.is_none_or(|(_, known)| likeness > known) {
            best = Some((place, likeness));
        }
    }
    best.map_or(0, |(place, _)| place)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lead_one_has_many_names() {
        for name in ["i", "I", "ECG I", "lead I", "EKG-1", "Lead i", "ecg_i"] {
            let likeness = Likeness::of(name, VoltageUnit::Millivolt);
            assert_eq!(likeness, Likeness::LeadOne, "{name}");
        }
    }

    #[test]
    fn a_lead_comes_before_a_voltage_and_that_before_muscle_and_breath() {
        let of = |name| Likeness::of(name, VoltageUnit::Millivolt);
        assert_eq!(of("MLII"), Likeness::Lead);
        assert_eq!(of("ECG"), Likeness::Lead);
        assert_eq!(of("channel 3"), Likeness::AnyVoltage);
        assert_eq!(of("EMG left"), Likeness::OtherVoltage);
        assert_eq!(of("noise1"), Likeness::OtherVoltage);
        assert_eq!(Likeness::of("angle", VoltageUnit::Unstated), Likeness::NoVoltage);
        assert!(Likeness::Lead > Likeness::AnyVoltage);
        assert!(Likeness::AnyVoltage > Likeness::OtherVoltage);
    }
}
