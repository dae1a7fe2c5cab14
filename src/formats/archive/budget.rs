//! How much may still be unpacked, so that a small file cannot fill the memory of the page.

use super::{ArchiveError, MOST_RATIO};
use crate::formats::LARGEST_FILE;
use std::io::{self, Read};

/// What is left to unpack, in bytes.
#[derive(Debug)]
pub(super) struct Budget {
    left: usize,
}

impl Default for Budget {
    fn default() -> Self {
        Self { left: usize::try_from(LARGEST_FILE).unwrap_or(usize::MAX) }
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
    /// Unpacks a stream that is `packed` bytes long in the file of this name.
    pub(super) fn read(
        &mut self,
        stream: impl Read,
        packed: usize,
        file: &str,
    ) -> Result<Unpacked, ArchiveError> {
        let swollen = packed.saturating_mul(MOST_RATIO);
        let most = self.left.min(swollen);
        let mut bytes = Vec::new();
        let result = stream.take(most as u64 + 1).read_to_end(&mut bytes);
        if bytes.len() > most {
            let file = file.to_owned();
            return Err(match swollen < self.left {
                true => ArchiveError::Swells { file },
                false => ArchiveError::TooLarge { file },
            });
        }
        self.left -= bytes.len();
        Ok(Unpacked { bytes, fault: result.err().map(|error| error.kind()) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_streams_share_one_budget() {
        let mut budget = Budget { left: 1000 };
        let read = |budget: &mut Budget, length: u64, packed| {
            let unpacked = budget.read(io::repeat(0).take(length), packed, "a.gz");
            unpacked.map(|unpacked| unpacked.bytes.len())
        };
        let (swells, large) = (
            ArchiveError::Swells { file: "a.gz".to_owned() },
            ArchiveError::TooLarge { file: "a.gz".to_owned() },
        );
        assert_eq!(read(&mut budget, 251, 1), Err(swells));
        assert_eq!(read(&mut budget, 600, 600), Ok(600));
        assert_eq!(read(&mut budget, 401, 600), Err(large));
        assert_eq!(read(&mut budget, 400, 600), Ok(400));
    }
}
