//! A quieter copy of a trace, and what the quiet costs.
//!
//! A [`Cleaning`] is what the student chose: take out the slow drift, the mains hum, what lies above a
//! corner, and smooth over a window of points. [`Cleaning::apply`] makes the copy; the trace itself is
//! never altered. [`price`] compares the two beat by beat's median: how much of each wave is left, how much
//! wider the QRS complex looks, how much noise went. [`strongest_window`] is the widest window that
//! leaves R nearly whole.

mod choice;
mod kernel;
mod price;
mod smoother;
mod suggest;
mod window;

pub use choice::{Cleaning, Corner, Mains, UnusableCorner};
pub use price::{Price, WavePrice, price};
pub use smoother::{Smoother, SmootherKind};
pub use suggest::{R_KEPT, strongest_window};
pub use window::{UnusableWindow, Window};
