//! Pieces of the bench on which an investigation is worked through.

mod bench_files;
mod breathing_results;
mod channel_choice;
mod conclusion;
mod conditions_results;
mod figure;
mod pace_card;
mod protocol_card;
mod recovery_plan;
mod recovery_results;
mod reflex_plan;
mod reflex_results;
mod seat_card;
mod timer;

pub use bench_files::{BenchFiles, save_inquiry};
pub use breathing_results::{BreathingParts, BreathingResults};
pub use conclusion::Conclusion;
pub use conditions_results::ConditionsResults;
pub use figure::{ChartFigure, on_paper};
pub use pace_card::PaceCard;
pub use protocol_card::ProtocolCard;
pub use recovery_plan::RecoveryParts;
pub use recovery_results::RecoveryResults;
pub use reflex_plan::ReflexParts;
pub use reflex_results::ReflexResults;
pub use seat_card::SeatCard;
pub use timer::Timer;
