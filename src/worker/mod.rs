//! The worker: opening and analysis run here, so that the page never freezes.
//!
//! The two sides share [`protocol`] and nothing else. The worker keeps no state between requests:
//! cancelling is ending it and starting a new one.

mod host;
mod page;
mod protocol;
mod wire;

pub use host::serve;
pub use page::Analyst;
pub use protocol::{Answer, Opened, RateWanted, Request, Stage, Trace, recordings};
