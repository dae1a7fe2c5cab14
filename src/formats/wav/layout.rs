//! What the samples of a WAV file are: how many channels, how fast, how many bits of what.

use super::chunks::{half, word};
use super::fault::WavFault;
use crate::signal::SampleRate;

/// How a sample is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Steps in this many bytes, low byte first: two's complement, but a single byte is 128 above the value.
    Steps(usize),
    /// A 32-bit float, low byte first.
    Float,
    /// A 64-bit float, low byte first.
    Double,
}

impl Kind {
    /// Bytes to a sample.
    pub(super) const fn bytes(self) -> usize {
        match self {
            Self::Steps(bytes) => bytes,
            Self::Float => 4,
            Self::Double => 8,
        }
    }
}

/// The format chunk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Layout {
    pub(super) channels: usize,
    pub(super) rate: SampleRate,
    pub(super) kind: Kind,
}

const INTEGERS: u16 = 1;
const FLOATS: u16 = 3;
const EXTENSIBLE: u16 = 0xFFFE;

/// What follows the number of the form in an extended header, to say that it is one of these.
const FAMILY: &[u8] = b"\0\0\0\0\x10\0\x80\0\0\xAA\0\x38\x9B\x71";

impl Layout {
    /// Reads the chunk. Fields that follow from others (bytes a second) are not looked at.
    pub(super) fn parse(chunk: &[u8]) -> Result<Self, WavFault> {
        let short = WavFault::FormatShort { found: chunk.len() };
        let fields =
            (half(chunk, 0), half(chunk, 2), word(chunk, 4), half(chunk, 12), half(chunk, 14));
        let (Some(form), Some(channels), Some(hz), Some(frame), Some(bits)) = fields else {
            return Err(short);
        };
        let form = match form {
            EXTENSIBLE if chunk.get(26..40) == Some(FAMILY) => half(chunk, 24).ok_or(short)?,
            other => other,
        };
        let channels = usize::from(channels);
        if channels == 0 {
            return Err(WavFault::NoChannels);
        }
        let frame = usize::from(frame);
        let kind = match (form, bits) {
            // Fewer bits than the bytes have room for stand at their high end.
            (INTEGERS, 1..=32) => {
                let least = usize::from(bits.div_ceil(8));
                let given = Some(frame / channels).filter(|given| (least..=4).contains(given));
                Kind::Steps(given.unwrap_or(least))
            }
            (FLOATS, 32) => Kind::Float,
            (FLOATS, 64) => Kind::Double,
            _ => return Err(WavFault::Encoding { form, bits }),
        };
        let expected = channels * kind.bytes();
        if frame != expected {
            return Err(WavFault::Frame { channels, bits, expected, found: frame });
        }
        let Ok(rate) = SampleRate::new(hz as f64) else { return Err(WavFault::Rate { hz }) };
        Ok(Self { channels, rate, kind })
    }

    /// Bytes from one moment to the next.
    pub(super) const fn frame(&self) -> usize {
        self.channels * self.kind.bytes()
    }

    /// How many whole moments these bytes hold.
    pub(super) const fn frames(&self, data: &[u8]) -> usize {
        data.len() / self.frame()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chunk(form: u16, channels: u16, hz: u32, frame: u16, bits: u16) -> Vec<u8> {
        let head = [form.to_le_bytes(), channels.to_le_bytes()].concat();
        let rates = [hz.to_le_bytes(), 0u32.to_le_bytes()].concat();
        [head, rates, frame.to_le_bytes().to_vec(), bits.to_le_bytes().to_vec()].concat()
    }

    #[test]
    fn the_forms_in_use_are_known() {
        for (form, bits, kind) in [
            (1, 8, Kind::Steps(1)),
            (1, 16, Kind::Steps(2)),
            (1, 24, Kind::Steps(3)),
            (1, 32, Kind::Steps(4)),
            (3, 32, Kind::Float),
            (3, 64, Kind::Double),
        ] {
            let frame = 2 * bits / 8;
            let layout = Layout::parse(&chunk(form, 2, 500, frame, bits)).unwrap();
            assert_eq!((layout.channels, layout.rate.hz(), layout.kind), (2, 500.0, kind));
            let mut extended = chunk(EXTENSIBLE, 2, 500, frame, bits);
            extended.extend([22, 0, bits as u8, 0, 3, 0, 0, 0]);
            extended.extend(form.to_le_bytes());
            extended.extend(FAMILY);
            assert_eq!(Layout::parse(&extended), Ok(layout));
        }
    }

    #[test]
    fn bits_may_stand_in_more_bytes_than_they_need() {
        let kind = |frame, bits| Layout::parse(&chunk(1, 2, 500, frame, bits)).unwrap().kind;
        assert_eq!(kind(4, 12), Kind::Steps(2));
        assert_eq!(kind(8, 24), Kind::Steps(4));
    }

    #[test]
    fn what_makes_no_sense_is_named() {
        for (bytes, fault) in [
            (chunk(1, 1, 500, 8, 64), WavFault::Encoding { form: 1, bits: 64 }),
            (chunk(2, 1, 500, 2, 4), WavFault::Encoding { form: 2, bits: 4 }),
            (chunk(EXTENSIBLE, 1, 500, 2, 16), WavFault::Encoding { form: EXTENSIBLE, bits: 16 }),
            (chunk(1, 0, 500, 2, 16), WavFault::NoChannels),
            (chunk(1, 1, 0, 2, 16), WavFault::Rate { hz: 0 }),
            (
                chunk(1, 2, 500, 2, 16),
                WavFault::Frame { channels: 2, bits: 16, expected: 4, found: 2 },
            ),
            (vec![1, 0, 1], WavFault::FormatShort { found: 3 }),
        ] {
            assert_eq!(Layout::parse(&bytes), Err(fault));
        }
    }
}
