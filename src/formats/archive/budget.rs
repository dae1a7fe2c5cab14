//! How much may still be unpacked, so that a small file cannot fill the memory of the page.

use super::{ArchiveError, MOST_RATIO};
use crate::formats::LARGEST_FILE;
use std::io::{self, Read};

/// What is left to unpack, in bytes.
#[derive(Debug)]
pub(super) struct Budget {
    /// For all archives together.
    left: usize,
    /// For the archive at hand: its members may lie over each other, so they share it.
    left_here: usize,
}

impl Default for Budget {
    fn default() -> Self {
        Self { left: usize::try_from(LARGEST_FILE).unwrap_or(usize::MAX), left_here: 0 }
    }
}

/// What came out of a packed stream.
pub(super) struct Unpacked {
    /// All bytes up to the end or to the fault.
    pub(super) bytes: Vec<u8>,
    /// Why it went no further.
    pub(super) fault: Option<io::ErrorKind>,
}

impl Budget {
    /// Begins an archive of this many bytes.
    pub(super) const fn begin(&mut self, packed: usize) {
        self.left_here = packed.saturating_mul(MOST_RATIO);
    }

    /// Unpacks a stream of the archive of this name.
    pub(super) fn read(&mut self, stream: impl Read, file: &str) -> Result<Unpacked, ArchiveError> {
        let most = self.left.min(self.left_here);
        let mut bytes = Vec::new();
        let result = stream.take(most as u64 + 1).read_to_end(&mut bytes);
        if bytes.len() > most {
            let file = file.to_owned();
            return Err(match self.left_here < self.left {
                true => ArchiveError::Swells { file },
                false => ArchiveError::TooLarge { file },
            });
        }
        self.left -= bytes.len();
        self.left_here -= bytes.len();
        Ok(Unpacked { bytes, fault: result.err().map(|error| error.kind()) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_streams_share_one_budget() {
        let mut budget = Budget { left: 1000, left_here: 0 };
        let read = |budget: &mut Budget, length: u64| {
            let unpacked = budget.read(io::repeat(0).take(length), "a.gz");
            unpacked.map(|unpacked| unpacked.bytes.len())
        };
        let (swells, large) = (
            ArchiveError::Swells { file: "a.gz".to_owned() },
            ArchiveError::TooLarge { file: "a.gz".to_owned() },
        );
        budget.begin(1);
        assert_eq!(read(&mut budget, 150), Ok(150));
        assert_eq!(read(&mut budget, 101), Err(swells));
        budget.begin(600);
        assert_eq!(read(&mut budget, 851), Err(large));
        assert_eq!(read(&mut budget, 850), Ok(850));
    }
}
