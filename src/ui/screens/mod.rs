//! The four screens: each wires parts together.

mod open;
mod results;
mod see;
mod walk;

pub use open::OpenScreen;
pub use results::ResultsScreen;
pub use see::SeeScreen;
pub use walk::WalkScreen;
