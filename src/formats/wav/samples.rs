//! From frames to traces, one for each channel.

use super::chunks::Chunks;
use super::fault::WavNote;
use super::layout::{Kind, Layout};
use crate::formats::bridge::bridge;
use crate::signal::{Progress, Recording, VoltageUnit};

/// What has to be said about the length of the samples, if anything.
pub(super) fn length_note(chunks: &Chunks<'_>, layout: &Layout) -> Option<WavNote> {
    let (held, frame) = (chunks.data.len(), layout.frame());
    let (frames, left) = (held / frame, held % frame);
    match chunks.promised {
        None => Some(WavNote::LengthCounted { frames }),
        Some(promised) if promised > held => {
            Some(WavNote::Truncated { stated: promised / frame, frames })
        }
        Some(_) if left > 0 => Some(WavNote::LeftOver { bytes: left }),
        Some(_) => None,
    }
}

/// Reads every channel. What the values are, and what was missing, goes to `notes`.
pub(super) fn read(
    data: &[u8],
    layout: &Layout,
    notes: &mut Vec<WavNote>,
    progress: &mut dyn Progress,
) -> Vec<Recording> {
    let size = layout.kind.bytes();
    let unit = match layout.kind {
        Kind::Steps(bytes) => {
            notes.push(WavNote::Steps { bits: bytes * 8 });
            VoltageUnit::Counts
        }
        Kind::Float | Kind::Double => {
            notes.push(WavNote::NoUnit);
            VoltageUnit::Unstated
        }
    };
    let mut missing = 0;
    let traces = (0..layout.channels).map(|channel| {
        progress.at(channel as f64 / layout.channels as f64);
        let place = channel * size..(channel + 1) * size;
        let frames = data.chunks_exact(layout.frame());
        let mut samples: Vec<f32> = frames
            .map(|frame| value(frame.get(place.clone()).unwrap_or_default(), layout.kind))
            .collect();
        missing += samples.iter().filter(|sample| !sample.is_finite()).count();
        let holes = bridge(&mut samples, layout.rate).holes;
        let name = format!("channel {}", channel + 1);
        let samples = samples.into();
        Recording { name, rate: layout.rate, unit, samples, holes, marks: Vec::new() }
    });
    let traces = traces.collect();
    if missing > 0 {
        notes.push(WavNote::NoNumbers { count: missing });
    }
    traces
}

/// One sample; NaN when it is no number.
fn value(bytes: &[u8], kind: Kind) -> f32 {
    let bits = bytes.iter().rev().fold(0u64, |bits, &byte| bits << 8 | u64::from(byte));
    match kind {
        Kind::Float => f32::from_bits(bits as u32),
        Kind::Double => f64::from_bits(bits) as f32,
        Kind::Steps(1) => bits as f32 - 128.0,
        Kind::Steps(size) => {
            let unused = 64 - 8 * size as u32;
            (bits.wrapping_shl(unused).cast_signed() >> unused) as f32
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_have_their_sign() {
        for (bytes, kind, right) in [
            (&[0xFF, 0x7F][..], Kind::Steps(2), 32_767.0),
            (&[0x00, 0x80], Kind::Steps(2), -32_768.0),
            (&[0xFF, 0xFF, 0xFF], Kind::Steps(3), -1.0),
            (&[0x01, 0x02, 0x03], Kind::Steps(3), 197_121.0),
            (&[0xFE, 0xFF, 0xFF, 0xFF], Kind::Steps(4), -2.0),
            (&[0, 0, 0x80, 0xBE], Kind::Float, -0.25),
            (&[0, 0, 0, 0, 0, 0, 0xD0, 0xBF], Kind::Double, -0.25),
            (&[0x00], Kind::Steps(1), -128.0),
            (&[0xFF], Kind::Steps(1), 127.0),
        ] {
            assert_eq!(value(bytes, kind), right);
        }
    }
}
