//! How samples are packed into the bytes of a signal file.
//!
//! Source: signal(5) in the WFDB Applications Guide (Moody, PhysioNet); the numbers are its own.
//! Any sample is found from its place in the stream, so a cut-off file is simply a shorter one:
//! [`Encoding::capacity`] says how many whole samples the bytes hold. The codes for a missing
//! sample are those of the WFDB library: the most negative number that fits.

/// A storage format.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Encoding {
    /// 0: no samples; the signal is only described.
    Nothing,
    /// 8: each byte is the step from the sample before, the first from the header's first value.
    Differences8,
    /// 16: two bytes, low one first.
    Signed16,
    /// 24: three bytes, low one first.
    Signed24,
    /// 32: four bytes, low one first.
    Signed32,
    /// 61: two bytes, high one first.
    HighFirst16,
    /// 80: one byte, 128 above the value.
    Offset8,
    /// 160: two bytes, low one first, 32 768 above the value.
    Offset16,
    /// 212: two samples of 12 bits in three bytes.
    Packed12,
    /// 310: three samples of 10 bits in two byte pairs, the third from the 5 high bits of each.
    Packed10,
    /// 311: three samples of 10 bits in four bytes, one after the other from the lowest bit.
    Packed10Straight,
}

impl Encoding {
    /// The storage format with this number; `None` for those that can't be read.
    pub(super) const fn numbered(number: u32) -> Option<Self> {
        Some(match number {
            0 => Self::Nothing,
            8 => Self::Differences8,
            16 => Self::Signed16,
            24 => Self::Signed24,
            32 => Self::Signed32,
            61 => Self::HighFirst16,
            80 => Self::Offset8,
            160 => Self::Offset16,
            212 => Self::Packed12,
            310 => Self::Packed10,
            311 => Self::Packed10Straight,
            _ => return None,
        })
    }

    /// How many whole samples so many bytes hold.
    pub(super) const fn capacity(self, bytes: usize) -> usize {
        match self {
            Self::Nothing => 0,
            Self::Differences8 | Self::Offset8 => bytes,
            Self::Signed16 | Self::HighFirst16 | Self::Offset16 => bytes / 2,
            Self::Signed24 => bytes / 3,
            Self::Signed32 => bytes / 4,
            Self::Packed12 => bytes / 3 * 2 + bytes % 3 / 2,
            Self::Packed10 => bytes / 4 * 3 + bytes % 4 / 2,
            Self::Packed10Straight => bytes / 4 * 3 + (bytes % 4).saturating_sub(1),
        }
    }

    /// The value at a place of the stream; for format 8 the step. Bytes past the end count as 0.
    pub(super) fn value(self, bytes: &[u8], place: usize) -> i32 {
        let byte = |at: usize| i32::from(bytes.get(at).copied().unwrap_or(0));
        let pair = |at: usize| byte(at) | byte(at + 1) << 8;
        match self {
            Self::Nothing => 0,
            Self::Differences8 => sign(byte(place), 8),
            Self::Signed16 => sign(pair(2 * place), 16),
            Self::Signed24 => sign(pair(3 * place) | byte(3 * place + 2) << 16, 24),
            Self::Signed32 => pair(4 * place) | pair(4 * place + 2) << 16,
            Self::HighFirst16 => sign(byte(2 * place) << 8 | byte(2 * place + 1), 16),
            Self::Offset8 => byte(place) - 0x80,
            Self::Offset16 => pair(2 * place) - 0x8000,
            Self::Packed12 => {
                let group = place / 2 * 3;
                match place % 2 {
                    0 => sign(pair(group) & 0xFFF, 12),
                    _ => sign(byte(group + 1) >> 4 << 8 | byte(group + 2), 12),
                }
            }
            Self::Packed10 => {
                let (low, high) = (pair(place / 3 * 4), pair(place / 3 * 4 + 2));
                match place % 3 {
                    0 => sign(low >> 1 & 0x3FF, 10),
                    1 => sign(high >> 1 & 0x3FF, 10),
                    _ => sign(low >> 11 | high >> 11 << 5, 10),
                }
            }
            Self::Packed10Straight => {
                let (low, high) = (pair(place / 3 * 4), pair(place / 3 * 4 + 2));
                match place % 3 {
                    0 => sign(low & 0x3FF, 10),
                    1 => sign(low >> 10 | (high & 0xF) << 6, 10),
                    _ => sign(high >> 4 & 0x3FF, 10),
                }
            }
        }
    }

    /// The value that stands for a missing sample.
    pub(super) const fn missing(self) -> Option<i32> {
        Some(match self {
            Self::Nothing | Self::Differences8 => return None,
            Self::Signed16 | Self::HighFirst16 | Self::Offset16 => -0x8000,
            Self::Signed24 => -0x80_0000,
            Self::Signed32 => i32::MIN,
            Self::Offset8 => -0x80,
            Self::Packed12 => -0x800,
            Self::Packed10 | Self::Packed10Straight => -0x200,
        })
    }
}

/// A two's complement number of so many bits.
const fn sign(value: i32, bits: u32) -> i32 {
    value << (32 - bits) >> (32 - bits)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(encoding: Encoding, bytes: &[u8]) -> Vec<i32> {
        (0..encoding.capacity(bytes.len())).map(|place| encoding.value(bytes, place)).collect()
    }

    #[test]
    fn whole_bytes_by_hand() {
        let bytes = [0x01, 0xFF, 0x00, 0x80];
        assert_eq!(all(Encoding::Differences8, &bytes), [1, -1, 0, -128]);
        assert_eq!(all(Encoding::Signed16, &bytes), [-255, -32768]);
        assert_eq!(all(Encoding::HighFirst16, &bytes), [0x01FF, 0x0080]);
        assert_eq!(all(Encoding::Offset8, &bytes), [-127, 127, -128, 0]);
        assert_eq!(all(Encoding::Offset16, &bytes), [0xFF01 - 0x8000, 0]);
        assert_eq!(all(Encoding::Signed24, &bytes), [0x00_FF01]);
        assert_eq!(all(Encoding::Signed32, &bytes), [i32::from_le_bytes(bytes)]);
    }

    #[test]
    fn twelve_bits_by_hand() {
        // 995 = 0x3E3 and -13 = 0xFF3, then 0x800, the code for a missing sample, alone at the end.
        let bytes = [0xE3, 0xF3, 0xF3, 0x00, 0x08];
        assert_eq!(all(Encoding::Packed12, &bytes), [995, -13, -2048]);
        assert_eq!(Encoding::Packed12.missing(), Some(-2048));
    }

    #[test]
    fn ten_bits_by_hand() {
        // 5, -3 and 0b11111_00001 = -31: its low five bits lie above the first sample.
        let (first, second, third) = (5u16, 0x3FDu16, 0x3E1u16);
        let low = (first << 1 | (third & 0x1F) << 11).to_le_bytes();
        let high = (second << 1 | (third >> 5) << 11).to_le_bytes();
        assert_eq!(all(Encoding::Packed10, &[low[0], low[1], high[0], high[1]]), [5, -3, -31]);
        assert_eq!(all(Encoding::Packed10, &low), [5]);
        let word = u32::from(first) | u32::from(second) << 10 | u32::from(third) << 20;
        assert_eq!(all(Encoding::Packed10Straight, &word.to_le_bytes()), [5, -3, -31]);
        assert_eq!(all(Encoding::Packed10Straight, &word.to_le_bytes()[..3]), [5, -3]);
    }
}
