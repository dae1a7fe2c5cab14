//! What the text around the table says: the sampling rate and the unit.
//!
//! Each number is judged by the words before it and the word after it: `# nominal rate 500 Hz`,
//! `Sample Rate,500 hertz`, `{"sampling rate": 1000}`, `interval= 0.004 s`. Frequencies of filters,
//! of the mains, of the heart and of a serial line are not sampling rates.

use super::super::{TimeUnit, ValueUnit};
use super::unit_words::{Unit, unit};
use crate::signal::SampleRate;

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

/// Parts of words that rule out a sampling rate.
const OTHER: [&str; 15] = [
    "filter", "pass", "notch", "cutoff", "mains", "line fr", "heart", "herzf", "pulse", "baud",
    "bit rate", "bitrate", "refresh", "corner", "version",
];

/// Whole words that do.
const OTHER_WORDS: [&str; 7] = ["cut", "band", "hum", "bpm", "hp", "lp", "rr"];

/// Words that promise a sampling rate.
const SAMPLING: [&str; 9] = [
    "sampl",
    "abtast",
    "muestr",
    "échantillon",
    "echantillon",
    "campion",
    "amostr",
    "acquisition",
    "logging",
];

impl Stated {
    /// Takes in one line of text. In the table's own head, units belong to their columns.
    pub(super) fn read(&mut self, text: &str, line: usize, in_head: bool) {
        let lower = text.to_lowercase();
        if !in_head {
            self.read_unit(&lower, line);
        }
        let filters = OTHER.iter().any(|other| lower.contains(other));
        let mut rest = lower.as_str();
        while let Some(start) = rest.find(|sign: char| sign.is_ascii_digit()) {
            let (before, from) = rest.split_at(start);
            let end = from
                .find(|sign: char| !(sign.is_ascii_digit() || sign == '.' || sign == ','))
                .unwrap_or(from.len());
            let (digits, after) = from.split_at(end);
            let word_end = after.trim_start().find([',', ';', '\t', '"', ' ', ')', ']', '}']);
            let trimmed = after.trim_start();
            let word = trimmed.get(..word_end.unwrap_or(trimmed.len())).unwrap_or_default();
            if let Ok(value) = digits.trim_end_matches(['.', ',']).replace(',', ".").parse::<f64>()
            {
                self.judge(before, value, word, trimmed, line, filters);
            }
            rest = after;
        }
    }

    fn judge(
        &mut self,
        before: &str,
        value: f64,
        word: &str,
        after: &str,
        line: usize,
        filters: bool,
    ) {
        let says = |word: &str| before.contains(word);
        let is_word = |asked: &str| {
            before.split(|sign: char| !sign.is_alphanumeric()).any(|word| word == asked)
        };
        if OTHER.iter().any(|other| says(other)) || OTHER_WORDS.iter().any(|other| is_word(other)) {
            return;
        }
        let sampling = SAMPLING.iter().any(|word| says(word));
        let rate = says("rate")
            || says("freq")
            || says("frec")
            || says("fréq")
            || is_word("fs")
            || is_word("sps")
            || is_word("hz");
        let kilo = word.starts_with("khz") || is_word("khz");
        let hertz = kilo
            || word.starts_with("hz")
            || word.starts_with("hertz")
            || word.starts_with("sps")
            || after.starts_with("samples/s")
            || after.starts_with("samples per s")
            || after.starts_with("samples a s")
            || after.starts_with("/s");
        let interval = says("interval")
            || says("period")
            || is_word("step")
            || is_word("dt")
            || says("sample time");
        let (hz, sureness) = if interval {
            let time = unit(word)
                .or_else(|| before.split([' ', '(', ')', '[', ']', '_']).rev().find_map(unit));
            let seconds = match time {
                Some(Unit::Time(TimeUnit::Millisecond)) => value / 1e3,
                Some(Unit::Time(TimeUnit::Microsecond)) => value / 1e6,
                _ if hertz => return,
                _ if value < 1.0 => value,
                Some(Unit::Time(_)) => value,
                _ => return,
            };
            (1.0 / seconds, 3)
        } else {
            let sureness = match (sampling, rate, hertz) {
                (true, true, _) | (true, _, true) => 4,
                (_, true, true) => 3,
                (_, true, _) => 2,
                (_, _, true) => 1,
                _ => return,
            };
            (if kilo { value * 1e3 } else { value }, sureness)
        };
        // A bare `50 Hz` may be the mains, and in a line about filters it is their edge.
        if sureness == 1 && (filters || hz < 90.0) {
            return;
        }
        if sureness > self.sureness && (1.0..=SampleRate::FASTEST).contains(&hz) {
            self.sureness = sureness;
            self.rate_hz = Some(((hz * 1e6).round() / 1e6, line));
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
