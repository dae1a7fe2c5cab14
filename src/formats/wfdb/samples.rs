//! From the bytes of one signal file to the values of each signal in it.
//!
//! Signals that share a file take turns in it, frame by frame: each frame holds `per_frame` samples
//! of each signal. `value = (step - baseline) / gain`. Missing samples become NaN, for
//! [`bridge`](crate::formats::bridge::bridge) to deal with. A file that ends too early gives the
//! whole frames that are there; memory is taken for those, not for what the header promises.

use super::encoding::Encoding;
use super::signal_line::SignalLine;

/// Steps to a unit where the header gives none (header(5): `DEFGAIN`).
pub(super) const ASSUMED_GAIN: f64 = 200.0;

/// What a signal file holds.
#[derive(Debug)]
pub(super) struct SignalFile {
    /// The signals, in the order of the header.
    pub(super) signals: Vec<Values>,
    /// Frames read.
    pub(super) frames: usize,
    /// Whole frames that follow after the number that the header gives.
    pub(super) left: usize,
}

/// The values of one signal and what proves that they were read right.
#[derive(Debug, Default)]
pub(super) struct Values {
    /// The values in the unit of the header; NaN where one is missing.
    pub(super) samples: Vec<f32>,
    /// The first step.
    pub(super) first: Option<i32>,
    /// The sum of all steps.
    sum: i64,
    /// The same with -32768 for every missing sample, as some writers add it up.
    sum_with_missing: i64,
}

impl Values {
    /// Whether a checksum is right: the low 16 bits of the sum, signed or not.
    pub(super) const fn adds_up_to(&self, checksum: i64) -> bool {
        let low = 0xFFFF;
        self.sum & low == checksum & low || self.sum_with_missing & low == checksum & low
    }
}

/// Reads the signals that share a file. `lines` is theirs in the header and not empty.
pub(super) fn read(bytes: &[u8], lines: &[&SignalLine], stated: Option<u64>) -> SignalFile {
    let mut signals: Vec<Values> = lines.iter().map(|_| Values::default()).collect();
    let width = lines.iter().fold(0usize, |sum, line| sum.saturating_add(line.per_frame));
    let (encoding, offset) =
        lines.first().map_or((Encoding::Signed16, 0), |line| (line.encoding, line.offset));
    let bytes = bytes.get(offset..).unwrap_or_default();
    let there = encoding.capacity(bytes.len()).checked_div(width).unwrap_or(0);
    let frames = stated.and_then(|stated| usize::try_from(stated).ok()).unwrap_or(there).min(there);

    let mut before = 0;
    for (values, line) in signals.iter_mut().zip(lines) {
        let gain = line.gain.unwrap_or(ASSUMED_GAIN);
        let baseline = line.baseline;
        let mut step = line.first.unwrap_or(0);
        values.samples.reserve_exact(frames * line.per_frame);
        for frame in 0..frames {
            for turn in 0..line.per_frame {
                let value = encoding.value(bytes, frame * width + before + turn);
                step = match encoding {
                    Encoding::Differences8 => step.wrapping_add(value),
                    _ => value,
                };
                let is_missing = encoding.missing() == Some(step);
                values.first.get_or_insert(step);
                values.sum += i64::from(step);
                values.sum_with_missing += if is_missing { -0x8000 } else { i64::from(step) };
                let physical = (f64::from(step) - baseline) / gain;
                values.samples.push(if is_missing { f32::NAN } else { physical as f32 });
            }
        }
        before += line.per_frame;
    }
    SignalFile { signals, frames, left: there - frames }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formats::wfdb::header;

    fn read_back(header: &str, bytes: &[u8]) -> SignalFile {
        let header = header::parse(header.as_bytes()).unwrap();
        read(bytes, &header.signals.iter().collect::<Vec<_>>(), header.frames)
    }

    #[test]
    fn signals_take_turns_and_keep_their_own_scale() {
        let lines = "r 2 250 3\na.dat 16+2 100(10)/mV 0 0 10 60\na.dat 16+2 1(0)/mV";
        let words: [i16; 8] = [999, 10, 1, 20, -32768, 30, 3, 4];
        let bytes: Vec<u8> = words.iter().flat_map(|word| word.to_le_bytes()).collect();
        let file = read_back(lines, &bytes);
        let [first, second] = file.signals.as_slice() else { panic!("{file:?}") };
        assert_eq!(first.samples, [0.0, 0.1, 0.2]);
        assert_eq!((first.first, first.adds_up_to(60)), (Some(10), true));
        assert_eq!((second.samples[0], second.samples[2]), (1.0, 3.0));
        assert!(second.samples[1].is_nan());
        assert!(second.adds_up_to(4 - 32768) && second.adds_up_to(65536 + 4 + 32768));
        assert_eq!((file.frames, file.left), (3, 0));
    }

    #[test]
    fn a_frame_may_hold_several_samples_of_a_signal() {
        let file = read_back(
            "r 2 100 9\na.dat 80x2 1(0)\na.dat 80 1(0)",
            &[129, 130, 131, 132, 133, 134, 1],
        );
        assert_eq!(file.signals[0].samples, [1.0, 2.0, 4.0, 5.0]);
        assert_eq!(file.signals[1].samples, [3.0, 6.0]);
        assert_eq!(file.frames, 2);
    }

    #[test]
    fn differences_add_up_from_the_first_value() {
        // Source: signal(5), format 8; steps 0, 1, 1, -3 from 7.
        let file = read_back("r 1 100\na.dat 8 1(0)/mV 8 0 7 29", &[0, 1, 1, 0xFD]);
        assert_eq!(file.signals[0].samples, [7.0, 8.0, 9.0, 6.0]);
        assert!(file.signals[0].adds_up_to(30));
    }

    #[test]
    fn a_promise_takes_no_memory() {
        let file = read_back("r 1 100 1000000000000\na.dat 16x999999999999", &[0; 8]);
        assert_eq!((file.frames, file.signals[0].samples.capacity()), (0, 0));
    }
}
