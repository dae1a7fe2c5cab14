//! What is being chosen on the trace right now: a part of it, or the place of a note.
//!
//! One at a time, in a tray right under the trace, so that trace and tray are in view together on the
//! smallest screen.

use super::marks_panel::AddNote;
use super::part_strip::{PartFields, Whole};
use crate::ui::state::App;
use beatwalk::signal::SampleSpan;
use leptos::html::Section;
use leptos::prelude::*;

/// The tools of the trace screen.
#[derive(Clone, Copy)]
pub struct Tools {
    /// The part that is being chosen, in samples of the recording as opened.
    pub part: RwSignal<Option<SampleSpan>>,
    /// Whether a note is being added.
    pub note: RwSignal<bool>,
}

impl Tools {
    /// None in use. They are put away when another recording is opened.
    pub fn of(app: App) -> Self {
        let tools = Self { part: RwSignal::new(None), note: RwSignal::new(false) };
        Effect::new(move |_| {
            app.opened.track();
            tools.put_away();
        });
        tools
    }

    /// Takes up choosing a part, or puts that away.
    pub fn toggle_part(self, app: App) {
        let taken_up = self.part.with_untracked(Option::is_none);
        self.put_away();
        if taken_up {
            let used = app.work.with_untracked(|work| work.settings.part);
            let whole = untrack(|| Whole::of(app)).map(Whole::span);
            self.part.set(used.or(whole));
        }
    }

    /// Takes up adding a note, or puts that away.
    pub fn toggle_note(self) {
        let taken_up = !self.note.get_untracked();
        self.put_away();
        self.note.set(taken_up);
    }

    /// Puts all away.
    pub fn put_away(self) {
        self.part.set(None);
        self.note.set(false);
    }

    /// Whether one is in use.
    pub fn in_use(self) -> bool {
        self.part.read().is_some() || self.note.get()
    }
}

/// The tray with the tool in use.
#[component]
pub fn ToolTray(tools: Tools) -> impl IntoView {
    view! {
        <Show when=move || tools.part.read().is_some()>
            <Tray>
                <PartFields tools=tools />
            </Tray>
        </Show>
        <Show when=move || tools.note.get()>
            <Tray>
                <AddNote tools=tools />
            </Tray>
        </Show>
    }
}

/// Comes into view and takes the keyboard when it appears.
#[component]
fn Tray(children: Children) -> impl IntoView {
    let tray = NodeRef::<Section>::new();
    Effect::new(move |_| {
        if let Some(tray) = tray.get() {
            tray.scroll_into_view_with_bool(false);
            let _ = tray.focus();
        }
    });
    view! {
        <section class="card tray" node_ref=tray tabindex="-1">
            {children()}
        </section>
    }
}
