//! Drawing a recording: what part of it is seen, where each sample falls, and the picture itself.
//!
//! [`Viewport`] says which seconds and which voltages are in view, [`Projection`] turns them into
//! pixels and back, [`draw_trace`] draws. All drawing goes through plotters, so that the page's
//! canvas, the printed sheet and the tests get the same picture from the same code.

mod axes;
mod breathing;
mod clip;
mod cycle;
mod groups;
mod key;
mod marks;
mod notes;
mod outline;
mod overlay;
mod overview;
mod pace;
mod palette;
mod paper;
mod pen;
mod points;
mod projection;
mod pulse;
mod recovery;
mod reflex;
mod scene;
mod summary;
mod svg;
mod table;
mod tachogram;
mod ticks;
mod trace;
mod viewport;

pub use breathing::draw_breathing;
pub use cycle::{CycleScene, draw_cycle};
pub use groups::{GroupsScene, draw_groups};
pub use outline::outline;
pub use overlay::{OverlayScene, draw_overlay};
pub use overview::draw_overview;
pub use pace::{LATE, Pace, REST, Way};
pub use palette::{Ink, Palette};
pub use projection::{Frame, Margins, Projection};
pub use recovery::draw_recovery;
pub use reflex::{ReflexScene, draw_reflex, draw_reflexes};
pub use scene::{BeatMark, Look, NoteMark, PointMark, Role, Shade, Tone, TraceScene};
pub use summary::summary;
pub use svg::{CSS_PX_PER_MM, SvgText, to_svg};
pub use table::ChartTable;
pub use tachogram::{TachogramScene, draw_tachogram};
pub use trace::draw_trace;
pub use viewport::{Bounds, Viewport};

/// What can go wrong while drawing on a backend `DB`: nothing but the backend itself.
pub type DrawError<DB> =
    plotters::drawing::DrawingAreaErrorKind<<DB as plotters::prelude::DrawingBackend>::ErrorType>;
