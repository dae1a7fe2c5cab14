//! The screens: each wires parts together.

mod class;
mod hand_ins;
mod homework;
mod investigate;
mod open;
mod prepare;
mod results;
mod see;
mod set;
mod walk;

pub use class::ClassScreen;
pub use hand_ins::{HandInsScreen, LookAt};
pub use homework::HomeworkScreen;
pub use investigate::InvestigateScreen;
pub use open::OpenScreen;
pub use prepare::PrepareScreen;
pub use results::ResultsScreen;
pub use see::SeeScreen;
pub use set::SetScreen;
pub use walk::WalkScreen;
