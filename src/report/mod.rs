//! What leaves the app: a reading to go on with, tables for other programs, a report to hand in.
//!
//! Only data and text are made here. The page draws the report and the browser keeps the files.

mod lines;
mod model;
mod saved;
mod table;
mod understood;

pub use model::{Figures, PlacementLine, Report, ResultLine};
pub use saved::{
    EXTENSION, Orientation, SavedError, SavedReading, SavedRecording, SavedWork, Settings,
};
pub use table::{landmarks_csv, results_csv};
pub use understood::{CheckLine, Understood};
