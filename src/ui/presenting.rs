//! The page before a room: keys of a presenter, what is shown of the answers, and no name of anybody.
//!
//! The keys are those that a presenter's remote control sends (Page Down, Page Up), and two letters.
//! They work while the projector view is on and nothing is being typed.

use super::state::{App, Screen};
use beatwalk::lesson::{Command, Step};
use beatwalk::signal::Mark;
use beatwalk::words::{Phrase, say};
use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

/// Which points of the beat the room sees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Display {
    /// Those that were placed, as at a student's own place.
    #[default]
    Placed,
    /// Those that the analysis found, up to the step that is walked.
    Found,
    /// None: the room is asked first.
    Covered,
}

impl App {
    /// Turns the view for a room on or off; each time it begins with what was placed.
    pub fn present(self, on: bool) {
        self.display.set(Display::default());
        self.projector.set(on);
    }

    /// Shows the points that the analysis found, or takes them back.
    pub fn reveal_to_room(self) {
        // A homework without verdicts tells nobody where the points are.
        if untrack(|| self.help().verdicts) {
            self.toggle(Display::Found);
        }
    }

    /// Hides all points and values, or shows them again.
    pub fn cover(self) {
        self.toggle(Display::Covered);
    }

    fn toggle(self, wanted: Display) {
        self.display.update(|now| *now = if *now == wanted { Display::Placed } else { wanted });
    }

    /// One step further, past the last of a screen to the next screen.
    pub fn step_on(self) {
        if self.screen.get_untracked() == Screen::Walk {
            self.walk(Command::Next);
        } else {
            self.turn_to(1);
        }
    }

    /// One step back.
    pub fn step_back(self) {
        let at_first =
            self.lesson.with_untracked(|lesson| lesson.session().step() == Step::ChooseBeat);
        if self.screen.get_untracked() == Screen::Walk && !at_first {
            self.walk(Command::Back);
        } else {
            self.turn_to(-1);
        }
    }

    /// Goes on in the walk; its last step is a screen of its own.
    pub fn walk(self, command: Command) {
        self.lesson(command);
        let over = self.lesson.with_untracked(|lesson| lesson.session().step() == Step::Results);
        if over && untrack(|| self.can_show(Screen::Results)) {
            self.screen.set(Screen::Results);
        }
    }

    fn turn_to(self, by: isize) {
        let now = self.screen.get_untracked();
        let place = Screen::STEPS.iter().position(|&screen| screen == now);
        let next = place.and_then(|place| Screen::STEPS.get(place.checked_add_signed(by)?));
        if let Some(&screen) = next.filter(|&&screen| untrack(|| self.can_show(screen))) {
            self.screen.set(screen);
        }
    }

    /// What the file is called, where nobody's name can be in it.
    pub fn file_name(self) -> Option<String> {
        let file = self.raw.with(|raw| raw.as_ref().map(|raw| raw.file.clone()))?;
        Some(self.nameless().unwrap_or(file))
    }

    /// What went wrong or was noted, in the language of the page; before a room, without names.
    pub fn tell(self, said: &Phrase) -> String {
        let language = self.language.get();
        match self.projector.get() {
            true => said.nameless().in_words(language),
            false => said.in_words(language),
        }
    }

    /// The words of a note on the trace; before a room only those that were written in the lesson, as a
    /// note that came with the file may name somebody.
    pub fn note_text(self, mark: &Mark) -> &str {
        let own = || self.work.with(|work| work.settings.place_by_hand(mark).is_some());
        if self.projector.get() && !own() { "" } else { &mark.text }
    }

    /// What is said instead of a name before a room.
    pub fn nameless(self) -> Option<String> {
        self.projector.get().then(|| say(self.language.get(), "page.present.nameless").into_owned())
    }

    /// Hears the presenter's keys as long as the page is there.
    pub fn hear_presenter(self) {
        let heard = window_event_listener(keydown, move |event| self.presenter_key(&event));
        on_cleanup(move || heard.remove());
    }

    fn presenter_key(self, event: &KeyboardEvent) {
        let held = event.ctrl_key() || event.alt_key() || event.meta_key();
        if !self.projector.get_untracked() || held || is_typing(event) {
            return;
        }
        match event.key().as_str() {
            "PageDown" => self.step_on(),
            "PageUp" => self.step_back(),
            "r" | "R" => self.reveal_to_room(),
            "h" | "H" => self.cover(),
            _ => return,
        }
        event.prevent_default();
    }
}

/// Whether the key belongs to a field that is being filled in.
fn is_typing(event: &KeyboardEvent) -> bool {
    let element = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    element.is_some_and(|element| {
        matches!(element.tag_name().as_str(), "INPUT" | "TEXTAREA" | "SELECT")
            || element.dyn_ref::<HtmlElement>().is_some_and(HtmlElement::is_content_editable)
    })
}
