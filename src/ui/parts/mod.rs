//! Pieces that several screens use.

mod as_table;
mod beat_facts;
mod beat_grade;
mod beat_hand;
mod beats_card;
mod beats_tray;
mod bench;
mod calipers;
mod calipers_tray;
mod chart;
mod check_card;
mod class;
mod cleaning_card;
mod cleaning_price;
mod exhibits;
mod figures;
mod file_facts;
mod file_pick;
mod findings;
mod flaw_tasks;
mod gesture;
mod grab;
mod hand_ins;
mod heart;
mod homework;
mod keeping_notice;
mod layout_form;
mod marks_panel;
mod notices;
mod number_field;
mod numbers_table;
mod overview;
mod paper_bar;
mod part_panel;
mod part_strip;
mod place_pad;
mod presenter_bar;
mod question_card;
mod rate_form;
mod refused_files;
mod results_files;
mod rhythm_card;
mod scale_card;
mod select;
mod signal_picker;
mod step_card;
mod text_area;
mod text_field;
mod tools;
mod trace_table;
mod trace_view;
mod understood;

pub use beat_facts::{BeatFacts, TurnOver};
pub use beats_card::BeatsCard;
pub use bench::{
    BenchFiles, BreathingParts, BreathingResults, Conclusion, ConditionsResults, PaceCard,
    ProtocolCard, RecoveryParts, RecoveryResults, ReflexParts, ReflexResults, SeatCard, Timer,
};
pub use calipers_tray::span_label;
pub use check_card::{CheckPath, is_checking};
pub use class::{ClassComparison, ClassFiles, ClassRows};
pub use cleaning_card::CleaningCard;
pub use figures::Figures;
pub use file_facts::FileFacts;
pub use file_pick::FilePick;
pub use findings::FindingsList;
pub use flaw_tasks::FlawTasks;
pub use hand_ins::{HandInsTable, OneHandIn, OneTask};
pub use heart::HeartCard;
pub use homework::{
    AddTask, HomeworkBar, InstructionSheet, MaterialForms, OwnMaterial, SetHelp, TaskCard,
    TaskForms,
};
pub use keeping_notice::KeepingNotice;
pub use layout_form::LayoutForm;
pub use marks_panel::middle_of_view;
pub use notices::{JobProgress, Mark, ProblemNotice, ProgressLine};
pub use overview::Overview;
pub use paper_bar::{PaperBar, PaperPreview};
pub use part_strip::PartStrip;
pub use place_pad::PlacePad;
pub use presenter_bar::PresenterBar;
pub use rate_form::RateForm;
pub use refused_files::RefusedFiles;
pub use results_files::ResultsFiles;
pub use rhythm_card::RhythmCard;
pub use scale_card::ScaleCard;
pub use signal_picker::SignalPicker;
pub use step_card::{StepCard, StonePath};
pub use text_area::TextArea;
pub use text_field::TextField;
pub use tools::{ToolTray, Tools};
pub use trace_table::{BeatsTable, PointsTable};
pub use trace_view::{Overlay, TraceView, zoom_key, zoom_middle};
pub use understood::UnderstoodCard;
