//! The screens: each wires parts together.

mod class;
mod investigate;
mod open;
mod prepare;
mod results;
mod see;
mod walk;

pub use class::ClassScreen;
pub use investigate::InvestigateScreen;
pub use open::OpenScreen;
pub use prepare::PrepareScreen;
pub use results::ResultsScreen;
pub use see::SeeScreen;
pub use walk::WalkScreen;
