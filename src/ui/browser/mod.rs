//! What the browser does for us, one behaviour a file; each cleans up after itself.

mod canvas;
mod clock;
mod download;
mod files;
mod focus;
mod messages;
mod motion;
mod offline;
mod scrolling;
mod seen;
mod shelf;
mod store;

pub use canvas::{CanvasSize, observe_size};
pub use clock::{now, since_start, while_running};
pub use download::{draw_to_png, print, save_text};
pub use files::{Dropped, dropped_files, pasted_text, picked_files, read_buffers, read_bytes};
pub use focus::takes_focus;
pub use messages::fetch_messages;
pub use motion::{each_frame, in_turn, prefers_less_motion};
pub use offline::{PageKept, keep_page, use_newer_page};
pub use scrolling::keep_current_in_sight;
pub use seen::observe_seen;
pub use shelf::Shelf;
pub use store::{Drawer, Kept, Store};
