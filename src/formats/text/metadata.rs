//! What the text around the table says: the sampling rate and the unit.
//!
//! Which of its numbers is a sampling rate, [`rate_words`](super::rate_words) tells.

use super::super::ValueUnit;
use super::rate_words::{clause, next_number, rate};
use super::unit_words::{Unit, unit};

/// What is stated, and the line it stands on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Stated {
    /// Samples a second.
    pub(super) rate_hz: Option<(f64, usize)>,
    /// The unit of the values.
    pub(super) unit: Option<(ValueUnit, usize)>,
    /// How sure the rate is; the surest wins.
    sureness: u8,
}

impl Stated {
    /// Takes in one line of text. In the table's own head, units belong to their columns.
    pub(super) fn read(&mut self, text: &str, line: usize, in_head: bool) {
        let lower = text.to_lowercase();
        if !in_head {
            self.read_unit(&lower, line);
        }
        let mut from = 0;
        while let Some((start, end)) = next_number(&lower, from) {
            let before = clause(&lower, from, start);
            let after = lower.get(end..).unwrap_or_default().trim_start();
            let digits = lower.get(start..end).unwrap_or_default();
            if let Ok(value) = digits.trim_end_matches(['.', ',']).replace(',', ".").parse::<f64>()
                && let Some((hz, sureness)) = rate(before, value, after, &lower)
                && sureness > self.sureness
            {
                self.sureness = sureness;
                self.rate_hz = Some(((hz * 1e6).round() / 1e6, line));
            }
            from = end;
        }
    }

    /// `unit: mV`, `Units,uV`, `Einheit;mV`; or how many bits a converter has.
    fn read_unit(&mut self, lower: &str, line: usize) {
        if self.unit.is_some() {
            return;
        }
        let begins_word = |at: &usize| {
            lower
                .get(..*at)
                .is_none_or(|before| !before.ends_with(|sign: char| sign.is_alphabetic()))
        };
        let said = ["unit", "einheit", "unidad", "unité", "eenheid"]
            .iter()
            .find_map(|word| lower.find(word).filter(begins_word));
        let words = |text: &str| {
            text.split(|sign: char| !(sign.is_alphanumeric())).find_map(|word| match unit(word) {
                Some(Unit::Value(found)) => Some(found),
                _ => None,
            })
        };
        let bits =
            ["resolution", "auflösung", "bit adc", "-bit"].iter().find_map(|word| lower.find(word));
        let found = match (said, bits) {
            (Some(at), _) => lower.get(at..).and_then(words),
            // How fine a converter is says that its steps are meant, unless it is said in volts.
            (None, Some(at)) => lower
                .get(at..)
                .is_some_and(|text| words(text).is_none())
                .then_some(ValueUnit::Counts),
            (None, None) => None,
        };
        self.unit = found.map(|found| (found, line));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rate(text: &str) -> Option<f64> {
        let mut stated = Stated::default();
        stated.read(text, 7, false);
        stated.rate_hz.map(|(hz, _)| hz)
    }

    #[test]
    fn a_rate_is_said_in_many_ways() {
        for (text, hz) in [
            ("# sample_rate_hz: 360", 360.0),
            ("# Sampling Rate (Hz):= 1000.00", 1000.0),
            ("Sample Rate,500 hertz", 500.0),
            ("# rate_hz 125", 125.0),
            ("# nominal rate 500 Hz", 500.0),
            ("fs=250", 250.0),
            ("Abtastrate;250,5 Hz", 250.5),
            ("sampled at 1 kHz", 1000.0),
            ("# {\"resolution\": [12], \"sampling rate\": 1000, \"channels\": [1]}", 1000.0),
            ("Interval=\t0.004 s", 250.0),
            ("sampling interval (ms): 4", 250.0),
            ("200 samples per second", 200.0),
            ("frecuencia de muestreo: 400 Hz", 400.0),
            ("sampling frequency = 2.5e2 Hz", 250.0),
            ("1 sample every 4 ms", 250.0),
            ("timebase 4 ms/sample", 250.0),
            ("recorded at 250 Hz with 12 bit", 250.0),
            ("0.5-40 Hz filter, 50 Hz notch; sampling 250 Hz", 250.0),
            ("pulse: 72 bpm, rate: 250 Hz", 250.0),
            ("250 data points per second", 250.0),
            ("samples/second: 250", 250.0),
            ("частота дискретизации: 250 Гц", 250.0),
            ("sampling rate of channel 1: 250 Hz", 250.0),
        ] {
            assert_eq!(rate(text), Some(hz), "{text}");
        }
    }

    #[test]
    fn other_frequencies_are_no_sampling_rate() {
        for text in [
            "low-pass filter 40 Hz",
            "notch: 50 Hz",
            "heart rate 72",
            "Samples,2000",
            "filter: 0.5 - 40 Hz",
            "a 50 Hz country",
            "baud rate 115200",
            "Note 4",
        ] {
            assert_eq!(rate(text), None, "{text}");
        }
    }

    #[test]
    fn a_unit_is_said_after_its_word() {
        let unit = |text: &str| {
            let mut stated = Stated::default();
            stated.read(text, 7, false);
            stated.unit.map(|(unit, _)| unit)
        };
        assert_eq!(unit("# unit uV"), Some(ValueUnit::Microvolt));
        assert_eq!(unit("Unit,µV"), Some(ValueUnit::Microvolt));
        assert_eq!(unit("Einheiten: s, mV"), Some(ValueUnit::Millivolt));
        assert_eq!(unit("# Resolution:= 12"), Some(ValueUnit::Counts));
        assert_eq!(unit("# a community in mV"), None);
    }
}
