//! What a teacher is about to set: a draft, kept in the browser at each change.

use super::browser::{Drawer, Store};
use super::state::App;
use crate::ui::reactive::follow_gathered;
use beatwalk::homework::{Ask, Assignment, Material, Task};
use leptos::prelude::*;

/// The draft.
#[derive(Clone, Copy)]
pub struct SettingState {
    /// What is being set.
    pub draft: RwSignal<Assignment>,
    /// Grows when tasks or recordings come, go or change places: their forms are built anew then, and only then.
    pub shape: RwSignal<u32>,
}

/// The draft of the page.
#[derive(Clone, Copy)]
pub struct Setting {
    app: App,
    state: SettingState,
}

impl std::ops::Deref for Setting {
    type Target = SettingState;

    fn deref(&self) -> &SettingState {
        &self.state
    }
}

impl SettingState {
    /// Nothing set yet; made once, at the root.
    pub fn new() -> Self {
        Self { draft: RwSignal::new(Assignment::default()), shape: RwSignal::new(0) }
    }
}

impl App {
    /// What a teacher is about to set.
    pub fn setting(self) -> Setting {
        Setting { app: self, state: self.setting_state }
    }
}

impl Setting {
    /// The draft, from the context.
    pub fn here() -> Self {
        App::here().setting()
    }

    /// Goes on with an assignment.
    pub fn open(self, assignment: Assignment) {
        self.draft.set(assignment);
        self.shape.update(|shape| *shape += 1);
    }

    /// Lets the draft go, on the page and in the browser's storage.
    pub fn leave(self) {
        self.open(Assignment::default());
        self.app.write(Drawer::Draft, String::new());
    }

    /// Changes what tasks and recordings there are, or their order.
    pub fn reshape(self, change: impl FnOnce(&mut Assignment)) {
        self.draft.update(change);
        self.shape.update(|shape| *shape += 1);
    }

    /// Changes a task.
    pub fn change_task(self, place: usize, change: impl FnOnce(&mut Task)) {
        self.draft.update(|draft| {
            if let Some(task) = draft.tasks.get_mut(place) {
                change(task);
            }
        });
    }

    /// Adds a task; its key is the first number that is free.
    pub fn add_task(self, text: &str, ask: Ask) {
        self.reshape(|draft| {
            let free = |key: &String| draft.task(key).is_none();
            let key = (1..).map(|number: usize| number.to_string()).find(free);
            draft.tasks.push(Task::new(key.unwrap_or_default(), text, 1.0, ask));
        });
    }

    /// Moves a task by so many places.
    pub fn move_task(self, place: usize, by: isize) {
        self.reshape(|draft| {
            if let Some(to) = place.checked_add_signed(by).filter(|&to| to < draft.tasks.len()) {
                draft.tasks.swap(place, to);
            }
        });
    }

    /// Adds the recording that lies on the desk, taken as it is taken there.
    pub fn add_open(self) {
        let Some(raw) = self.app.raw.get_untracked() else { return };
        let settings = self.app.work_now().settings;
        self.add_material(|key| Material::given(key, raw.file.clone(), (*raw).clone(), settings));
    }

    /// Adds a recording that each student brings.
    pub fn add_own(self, label: &str) {
        self.add_material(|key| Material::own(key, label));
    }

    fn add_material(self, make: impl FnOnce(String) -> Material) {
        self.reshape(|draft| {
            let free = |key: &String| draft.material(key).is_none();
            let mut keys = ('a'..='z').map(String::from).chain((1..).map(|n: u32| format!("z{n}")));
            let key = keys.find(free).unwrap_or_default();
            draft.materials.push(make(key));
        });
    }

    /// Writes each change into the browser's storage.
    pub fn keep_up(self) {
        let write = move || {
            if let Ok(text) = self.draft.with_untracked(Assignment::to_json) {
                self.app.write(Drawer::Draft, text);
            }
        };
        follow_gathered(move || *self.draft.read() != Assignment::default(), write);
    }

    /// Takes up the draft that this browser kept; one that can't be read any more is not missed.
    pub(super) async fn resume(self, store: &Store) {
        let kept = store.text(Drawer::Draft).await;
        let kept = kept.and_then(|kept| Assignment::from_json(&kept).ok());
        if let (Some(kept), true) =
            (kept, self.draft.with_untracked(|draft| *draft == Assignment::default()))
        {
            self.open(kept);
        }
    }
}
