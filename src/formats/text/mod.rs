//! Rows of numbers.
use super::{Choices, OpenError, Opening, SourceFile};
use crate::signal::Progress;
pub(super) fn open(
    files: &[SourceFile],
    _choices: &Choices,
    _progress: &mut dyn Progress,
) -> Result<Opening, OpenError> {
    Err(OpenError::Empty { file: files.first().map(|file| file.name.clone()).unwrap_or_default() })
}
