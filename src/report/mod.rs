//! What leaves the app: a reading to go on with, tables for other programs, a report to hand in.
//!
//! Only data and text are made here. The page draws the report and the browser keeps the files.

mod figure;
mod inquiry_table;
mod lines;
mod model;
mod page;
mod pool;
mod saved;
mod table;
mod understood;

pub use figure::{Figure, FigureKind, FigureWidth};
pub use inquiry_table::{breathing_csv, recovery_csv, reflex_csv};
pub use model::{Figures, PlacementLine, Report, ResultLine};
pub use page::Drawn;
pub(crate) use page::Markup;
pub use pool::{PoolEntry, entries_of_saved, pool_csv};
pub use saved::{
    EXTENSION, InquirySheet, Orientation, SavedError, SavedInquiry, SavedReading, SavedRecording,
    SavedWork, Settings,
};
pub(crate) use saved::{Unknown, WrittenRecording, envelope};
pub(crate) use table::{harmless, number, table};
pub use table::{landmarks_csv, results_csv};
pub use understood::{CheckLine, Understood};
