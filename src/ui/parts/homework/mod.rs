//! Pieces of homework: what a student does, and what a teacher sets.

mod bar;
mod material_form;
mod own_material;
mod set_help;
mod set_sheet;
mod task_answer;
mod task_ask;
mod task_card;
mod task_form;

pub use bar::HomeworkBar;
pub use material_form::MaterialForms;
pub use own_material::OwnMaterial;
pub use set_help::SetHelp;
pub use set_sheet::InstructionSheet;
pub use task_card::TaskCard;
pub use task_form::{AddTask, TaskForms};
