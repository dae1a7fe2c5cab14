//! Pieces that several screens use.

mod chart;
mod findings;
mod gesture;
mod layout_form;
mod notices;
mod place_pad;
mod results_files;
mod select;
mod step_card;
mod trace_view;

pub use chart::Chart;
pub use findings::{FindingsList, finding_word};
pub use layout_form::{LayoutForm, RateForm};
pub use notices::{JobProgress, Mark, ProblemNotice};
pub use place_pad::PlacePad;
pub use results_files::{CycleFigure, ResultsFiles};
pub use select::Select;
pub use step_card::{StepCard, StonePath};
pub use trace_view::{Overlay, Overview, TraceView, zoom_key, zoom_middle};
