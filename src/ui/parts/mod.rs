//! Pieces that several screens use.

mod beat_facts;
mod chart;
mod figures;
mod file_facts;
mod findings;
mod gesture;
mod layout_form;
mod notices;
mod overview;
mod place_pad;
mod results_files;
mod select;
mod step_card;
mod trace_view;

pub use beat_facts::{BeatFacts, TurnOver};
pub use figures::Figures;
pub use file_facts::FileFacts;
pub use findings::{FindingsList, finding_word};
pub use layout_form::RateForm;
pub use notices::{JobProgress, Mark, ProblemNotice};
pub use overview::Overview;
pub use place_pad::PlacePad;
pub use results_files::ResultsFiles;
pub use step_card::{StepCard, StonePath};
pub use trace_view::{Overlay, TraceView, zoom_key, zoom_middle};
