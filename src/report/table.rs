//! Tables for other programs: CSV as in RFC 4180, UTF-8.
//!
//! Text cells that a spreadsheet would run as a formula are made harmless with a leading quote mark;
//! numbers stay numbers. A value that can't be measured is an empty cell.

use super::{SavedRecording, SavedWork};
use crate::analysis::Reading;
use crate::lesson::ResultsTable;

/// The results, one row a quantity: `student, file, quantity, unit, own, computed, sampling_uncertainty,
/// all_beats_median, all_beats_sd, all_beats_n`.
pub fn results_csv(_work: &SavedWork, _from: &SavedRecording, _results: &ResultsTable) -> String {
    String::new()
}

/// The points of every beat in seconds from the first sample, one row a beat: `file, beat, r_s, counts,
/// p_onset_s … t_end_s`.
pub fn landmarks_csv(_from: &SavedRecording, _reading: &Reading) -> String {
    String::new()
}
