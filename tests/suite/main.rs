//! Everything that is tested through the library's front door, in one binary.

// A test that can't go on has to stop.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod accuracy;
mod archive_files;
mod archive_variants;
mod beat_cases;
mod beats_accuracy;
mod beats_invented;
mod boundaries_accuracy;
mod boundaries_invented;
mod boundaries_tables;
mod breathing_accuracy;
mod charts;
mod cleaning;
mod corrected_beats;
mod demo_recordings;
mod ec57;
mod edf_files;
mod edf_variants;
mod edf_written;
mod field_cases;
mod field_waves;
#[expect(unreachable_pub, reason = "its doors are those of the fuzz targets too")]
mod fuzz_corpus;
mod golden;
mod house;
mod inquiry_charts;
mod inquiry_curves;
mod inquiry_recovery;
mod inquiry_reference;
mod invented;
mod lesson_marks;
mod messages;
mod pool;
mod reading_anything;
mod reflex_accuracy;
mod reflex_charts;
mod reflex_reference;
mod reports;
mod rr_series;
mod sentences;
mod text_anything;
mod text_choices;
mod text_faults;
mod text_marks;
mod text_reference;
mod text_runs;
mod text_shapes;
mod uncertainty;
mod wav_files;
mod wfdb_anything;
mod wfdb_records;
mod wfdb_segments;
mod wfdb_written;
mod worked_examples;
