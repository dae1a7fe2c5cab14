//! A reading as a JSON document of ours: kept in the browser, handed in, opened again.
//!
//! Two parts: the recording, large and written once for each file that is opened, and the work,
//! small and written on each change. [`SavedReading`] holds both, the work on top where a person
//! can read it. Each part carries its kind and version. Fields that a later version added are kept.
//! Opening checks every number, so that nothing from outside can make a later step panic.

pub(crate) mod envelope;
mod error;
mod inquiry;
mod reading;
mod recording;
mod settings;
mod work;

pub use error::SavedError;
pub use inquiry::{InquirySheet, SavedInquiry};
pub use reading::SavedReading;
pub use recording::SavedRecording;
pub(crate) use recording::Written as WrittenRecording;
pub use settings::{Orientation, Settings};
pub use work::SavedWork;

/// How the name of a saved reading ends.
pub const EXTENSION: &str = ".beatwalk.json";

/// The version written, and the newest that can be opened.
const VERSION: u32 = 3;

/// Fields that this version does not know.
pub(crate) type Unknown = serde_json::Map<String, serde_json::Value>;
