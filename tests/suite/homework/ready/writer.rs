//! Writes an assignment in one of two languages.

use super::cut;
use beatwalk::homework::{Ask, Assignment, Material, Task, Tolerance};
use beatwalk::inquiry::Measured;
use beatwalk::lesson::Quantity;
use beatwalk::report::{SavedRecording, Settings};
use beatwalk::synth::Demo;
use beatwalk::words::Language;

/// A text in both languages.
pub(super) type Both = [&'static str; 2];

pub(super) struct Writer {
    language: Language,
    pub(super) assignment: Assignment,
}

impl Writer {
    pub(super) fn new(language: Language, title: Both, instructions: Both) -> Self {
        let mut writer = Self { language, assignment: Assignment::default() };
        writer.assignment.title = writer.in_words(title);
        writer.assignment.instructions = writer.in_words(instructions);
        writer.assignment.language = Some(language);
        writer
    }

    fn in_words(&self, [english, spanish]: Both) -> String {
        match self.language {
            Language::English => english.to_owned(),
            Language::Spanish => spanish.to_owned(),
        }
    }

    pub(super) fn give(&mut self, key: &str, demo: Demo, label: Both) {
        let saved = SavedRecording::new(demo.file_name(), cut(demo, 15.0));
        let material = Material::given(key, self.in_words(label), saved, Settings::default());
        self.assignment.materials.push(material);
    }

    pub(super) fn ask(&mut self, points: f64, text: Both, ask: Ask) {
        let key = (self.assignment.tasks.len() + 1).to_string();
        let task = Task::new(key, self.in_words(text), points, ask);
        self.assignment.tasks.push(task);
    }

    pub(super) fn measure(&mut self, material: &str, text: Both, quantity: Quantity, within: f64) {
        let (material, measured) = (material.to_owned(), Measured::Of(quantity));
        let tolerance = Tolerance::Within(within);
        self.ask(2.0, text, Ask::Measure { material, measured, tolerance });
    }

    pub(super) fn choose(&mut self, text: Both, options: &[Both], right: usize) {
        let options = options.iter().map(|one| self.in_words(*one)).collect();
        self.ask(1.0, text, Ask::Choice { options, right: Some(right) });
    }

    pub(super) fn write(&mut self, points: f64, text: Both, guide: Both) {
        let guide = Some(self.in_words(guide));
        self.ask(points, text, Ask::Text { guide });
    }
}
