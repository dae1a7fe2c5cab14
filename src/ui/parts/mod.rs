//! Pieces that several screens use.

mod beat_facts;
mod chart;
mod figures;
mod file_facts;
mod findings;
mod gesture;
mod layout_form;
mod marks_panel;
mod notices;
mod number_field;
mod overview;
mod part_panel;
mod place_pad;
mod rate_form;
mod results_files;
mod scale_card;
mod select;
mod signal_picker;
mod step_card;
mod trace_view;

pub use beat_facts::{BeatFacts, TurnOver};
pub use figures::Figures;
pub use file_facts::FileFacts;
pub use findings::{FindingsList, finding_word};
pub use layout_form::LayoutForm;
pub use marks_panel::middle_of_view;
pub use notices::{JobProgress, Mark, ProblemNotice};
pub use overview::Overview;
pub use part_panel::PartStrip;
pub use place_pad::PlacePad;
pub use rate_form::RateForm;
pub use results_files::ResultsFiles;
pub use scale_card::ScaleCard;
pub use signal_picker::SignalPicker;
pub use step_card::{StepCard, StonePath};
pub use trace_view::{Overlay, TraceView, zoom_key, zoom_middle};
