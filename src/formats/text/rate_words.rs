//! Which number in a line of words is a sampling rate: told by the words before it and after it.
//!
//! `# nominal rate 500 Hz`, `Sample Rate,500 hertz`, `{"sampling rate": 1000}`, `interval= 0.004 s`,
//! `recorded at 250 Hz with 12 bit`. Frequencies of filters, of the mains, of the heart and of a
//! serial line are not sampling rates.

use super::super::TimeUnit;
use super::unit_words::{Unit, unit};
use crate::signal::SampleRate;

/// Parts of words that rule out a sampling rate.
const OTHER: [&str; 16] = [
    "filter", "pass", "notch", "cutoff", "mains", "line fr", "heart", "herzf", "pulse", "puls",
    "baud", "bit rate", "bitrate", "refresh", "corner", "version",
];

/// Whole words that do.
const OTHER_WORDS: [&str; 7] = ["cut", "band", "hum", "bpm", "hp", "lp", "rr"];

/// Words before a number that is no frequency unless it says so.
const COUNTED: [&str; 4] = ["channel", "ch", "lead", "bit"];

/// Words that promise a sampling rate.
const SAMPLING: [&str; 22] = [
    "sampl",
    "abtast",
    "muestr",
    "échantillon",
    "echantillon",
    "campion",
    "amostr",
    "acquisition",
    "logging",
    "recorded at",
    "recorded with",
    "bemonster",
    "próbkow",
    "probkow",
    "vzork",
    "näyte",
    "mintav",
    "дискрет",
    "采样",
    "採樣",
    "サンプリング",
    "표본",
];

/// Words of a frequency.
const RATE: [&str; 7] = ["rate", "freq", "frec", "fréq", "frek", "often", "част"];

/// Names that are one word.
const RATE_WORDS: [&str; 6] = ["fs", "f_s", "sps", "sr", "hz", "гц"];

/// The sampling rate that a number is, in Hz, and how sure that is: `before` are the words that
/// belong to it, `after` is the rest of the line, all in lower case.
pub(super) fn rate(before: &str, value: f64, after: &str, whole: &str) -> Option<(f64, u8)> {
    let says = |words: &[&str]| words.iter().any(|word| before.contains(word));
    let is_word = |asked: &[&str]| {
        before
            .split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
            .flat_map(|word| std::iter::once(word).chain(word.split('_')))
            .any(|word| asked.contains(&word))
    };
    if says(&OTHER) || is_word(&OTHER_WORDS) {
        return None;
    }
    let end = after.find([',', ';', '\t', '"', ' ', ')', ']', '}']).unwrap_or(after.len());
    let word = after.get(..end).unwrap_or_default();
    let kilo = word.starts_with("khz") || word.starts_with("кгц") || is_word(&["khz"]);
    let hertz = kilo
        || ["hz", "hertz", "sps", "гц"].iter().any(|unit| word.starts_with(unit))
        || is_per_second(after);
    if !hertz && is_word(&COUNTED) {
        return None;
    }
    let sampling = says(&SAMPLING);
    // `samples per second = 250`
    let rate = says(&RATE) || is_word(&RATE_WORDS) || sampling && has_per_second(before);
    let (hz, sureness) = match interval(before, value, after) {
        Some(_) if hertz => return None,
        Some(seconds) => (1.0 / seconds, 3),
        None => {
            let sureness = match (sampling, rate, hertz) {
                (true, _, true) | (true, true, false) => 4,
                (_, true, true) => 3,
                (_, true, _) => 2,
                (_, _, true) => 1,
                _ => return None,
            };
            // A number of something else: `rate of 12 bit`, `sampling rate 1: 250 Hz`.
            if !hertz && (word.starts_with(char::is_alphabetic) || value < 20.0 && !kilo) {
                return None;
            }
            (if kilo { value * 1e3 } else { value }, sureness)
        }
    };
    // A bare `50 Hz` may be the mains, and in a line about filters it is their edge.
    let filters = OTHER.iter().any(|other| whole.contains(other));
    if sureness == 1 && (filters || hz < 90.0) {
        return None;
    }
    (1.0..=SampleRate::FASTEST).contains(&hz).then_some((hz, sureness))
}

/// Where the next number from `from` on begins and ends; an exponent belongs to it.
pub(super) fn next_number(text: &str, from: usize) -> Option<(usize, usize)> {
    let start = from + text.get(from..)?.find(|sign: char| sign.is_ascii_digit())?;
    let bytes = text.as_bytes();
    let is_digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let mut end = start;
    while bytes.get(end).is_some_and(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b',')) {
        end += 1;
    }
    if bytes.get(end) == Some(&b'e') {
        let signed = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        if is_digit(end + 1 + signed) {
            end += 1 + signed;
            while is_digit(end) {
                end += 1;
            }
        }
    }
    Some((start, end))
}

/// The words that belong to a number: since the number before it, and of those the last part of the
/// sentence that has any. Words before an earlier number count when there are none since.
pub(super) fn clause(text: &str, from: usize, to: usize) -> &str {
    let has_words = |part: &&str| part.contains(char::is_alphabetic);
    let since = text.get(from..to).unwrap_or_default();
    let before = text.get(..to).unwrap_or_default();
    let part = if has_words(&since) { since } else { before };
    part.split([',', ';', '|', '\t']).rfind(has_words).unwrap_or_default()
}

/// `samples/s`, `data points per second`, `/s`, `readings each second` right after a number.
fn is_per_second(after: &str) -> bool {
    let words: String = after.split_whitespace().take(4).collect::<Vec<_>>().join(" ");
    let sentence = words.split([',', ';']).next().unwrap_or_default();
    !sentence.starts_with("bit") && has_per_second(sentence)
}

fn has_per_second(text: &str) -> bool {
    ["/s", "per s", " a second", "each second", "pro sekunde", "por segundo", "par seconde"]
        .iter()
        .any(|per| {
            text.find(per).is_some_and(|at| !text.get(at..).is_some_and(|it| it.starts_with("/sa")))
        })
}

/// Seconds from sample to sample, when the words speak of that: `interval`, `dt = 0.004`, `every 4 ms`.
fn interval(before: &str, value: f64, after: &str) -> Option<f64> {
    let says = |word: &str| before.contains(word);
    let is_word =
        |asked: &str| before.split(|sign: char| !sign.is_alphanumeric()).any(|word| word == asked);
    let speaks = says("interval")
        || says("intervall")
        || says("period")
        || says("timebase")
        || says("time base")
        || says("sample time")
        || says("delta t")
        || says("every") && says("sampl")
        || is_word("step")
        || is_word("dt");
    let end = after.find(|sign: char| !sign.is_alphabetic()).unwrap_or(after.len());
    let own = unit(after.get(..end).unwrap_or_default());
    let time = own.or_else(|| before.split([' ', '(', ')', '[', ']', '_']).rev().find_map(unit));
    match time.filter(|_| speaks) {
        Some(Unit::Time(TimeUnit::Millisecond)) => Some(value / 1e3),
        Some(Unit::Time(TimeUnit::Microsecond)) => Some(value / 1e6),
        Some(Unit::Time(TimeUnit::Nanosecond)) => Some(value / 1e9),
        Some(Unit::Time(_)) => Some(value),
        _ => (speaks && value < 1.0).then_some(value),
    }
}
