//! Pieces of marking: the table of a class, one hand-in, one task of all.

mod one_hand_in;
mod one_task;
mod points_field;
mod table;

pub use one_hand_in::OneHandIn;
pub use one_task::OneTask;
pub use table::HandInsTable;
