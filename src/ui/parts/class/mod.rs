//! Pieces of the class desk.

mod class_comparison;
mod class_files;
mod class_rows;
mod quantity_choice;

pub use class_comparison::ClassComparison;
pub use class_files::ClassFiles;
pub use class_rows::ClassRows;
pub use quantity_choice::QuantityChoice;
