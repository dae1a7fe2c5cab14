//! WFDB.
use super::{OpenError, Opened, SourceFile};
use crate::signal::Progress;
pub(super) fn is_wfdb(files: &[SourceFile]) -> bool {
    files.iter().any(|file| file.name.ends_with(".hea"))
}
pub(super) fn open(
    files: &[SourceFile],
    _progress: &mut dyn Progress,
) -> Result<Opened, OpenError> {
    Err(OpenError::Empty { file: files.first().map(|file| file.name.clone()).unwrap_or_default() })
}
