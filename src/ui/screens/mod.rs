//! The screens: each wires parts together.

mod open;
mod prepare;
mod results;
mod see;
mod walk;

pub use open::OpenScreen;
pub use prepare::PrepareScreen;
pub use results::ResultsScreen;
pub use see::SeeScreen;
pub use walk::WalkScreen;
