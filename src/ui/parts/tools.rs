//! What is being done on the trace right now: choosing a part of it or the place of a note, correcting
//! beats, measuring by hand.
//!
//! One at a time, in a tray right under the trace, so that trace and tray are in view together on the
//! smallest screen.

use super::beat_hand::BeatHand;
use super::beats_tray::BeatButtons;
use super::calipers::Calipers;
use super::calipers_tray::CaliperFields;
use super::grab::Grab;
use super::marks_panel::AddNote;
use super::part_strip::{PartFields, Whole};
use crate::ui::reactive::{Show, follow};
use crate::ui::state::{App, tr};
use beatwalk::signal::SampleSpan;
use leptos::ev::KeyboardEvent;
use leptos::html::Section;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{FocusOptions, HtmlElement};

/// The tools of the trace screen. What opened one gets the keyboard back when it is put away.
#[derive(Clone, Copy)]
pub struct Tools {
    /// The part that is being chosen, in samples of the recording as opened.
    pub part: RwSignal<Option<SampleSpan>>,
    /// Whether a note is being added.
    pub note: RwSignal<bool>,
    /// Whether beats are being corrected.
    pub beats: RwSignal<bool>,
    /// What corrects them.
    pub hand: BeatHand,
    /// What measures by hand.
    pub calipers: Calipers,
    opener: StoredValue<Option<HtmlElement>, LocalStorage>,
}

impl Tools {
    /// None in use. They are put away when another recording is opened.
    pub fn of(app: App) -> Self {
        let tools = Self {
            part: RwSignal::new(None),
            note: RwSignal::new(false),
            beats: RwSignal::new(false),
            hand: BeatHand::of(app),
            calipers: Calipers::of(app),
            opener: StoredValue::new_local(None),
        };
        follow(move || {
            app.opened.track();
            tools.opener.set_value(None);
            tools.put_away();
        });
        tools
    }

    /// Takes up choosing a part, or puts that away.
    pub fn toggle_part(self, app: App) {
        let taken_up = self.part.with_untracked(Option::is_none);
        self.put_away();
        if taken_up {
            self.opener.set_value(focused());
            let used = app.work.with_untracked(|work| work.settings.part);
            let whole = untrack(|| Whole::of(app)).map(Whole::span);
            self.part.set(used.or(whole));
        }
    }

    /// Takes up adding a note, or puts that away.
    pub fn toggle_note(self) {
        let taken_up = !self.note.get_untracked();
        self.put_away();
        if taken_up {
            self.opener.set_value(focused());
            self.note.set(true);
        }
    }

    /// Takes up correcting beats, or puts that away.
    pub fn toggle_beats(self) {
        let taken_up = !self.beats.get_untracked();
        self.put_away();
        if taken_up {
            self.opener.set_value(focused());
            self.hand.start();
            self.beats.set(true);
        }
    }

    /// Takes up measuring by hand, or puts that away.
    pub fn toggle_calipers(self) {
        let taken_up = self.calipers.legs.with_untracked(Option::is_none);
        self.put_away();
        if taken_up {
            self.opener.set_value(focused());
            self.calipers.set_down();
        }
    }

    /// What a pointer takes hold of on the trace: what belongs to the tool in use.
    pub fn grab(self) -> Grab {
        let (beats, legs) = (self.hand.grab(self.beats), self.calipers.grab());
        let measuring = move || self.calipers.legs.with_untracked(Option::is_some);
        let of = move || if measuring() { legs } else { beats };
        Grab {
            take: Callback::new(move |under| of().take.run(under)),
            drag: Callback::new(move |to| of().drag.run(to)),
            tap: Callback::new(move |at| of().tap.run(at)),
        }
    }

    /// Puts all away.
    pub fn put_away(self) {
        self.part.set(None);
        self.note.set(false);
        self.beats.set(false);
        self.calipers.legs.set(None);
        if let Some(opener) = self.opener.try_update_value(Option::take).flatten() {
            // The keyboard goes back without the page jumping: the trace is what is looked at now.
            let still = FocusOptions::new();
            still.set_prevent_scroll(true);
            let _ = opener.focus_with_options(&still);
        }
    }

    /// Whether one is in use.
    pub fn in_use(self) -> bool {
        self.part.read().is_some()
            || self.note.get()
            || self.beats.get()
            || self.calipers.legs.read().is_some()
    }
}

/// What has the keyboard now.
fn focused() -> Option<HtmlElement> {
    web_sys::window()?.document()?.active_element()?.dyn_into().ok()
}

/// The tray with the tool in use.
#[component]
pub fn ToolTray(tools: Tools) -> impl IntoView {
    view! {
        <Show when=move || tools.part.read().is_some()>
            <Tray tools=tools label="page.part.title">
                <PartFields tools=tools />
            </Tray>
        </Show>
        <Show when=move || tools.note.get()>
            <Tray tools=tools label="page.marks.add">
                <AddNote tools=tools />
            </Tray>
        </Show>
        <Show when=move || tools.calipers.legs.read().is_some()>
            <Tray tools=tools label="by_hand.open">
                <CaliperFields tools=tools />
            </Tray>
        </Show>
        <Show when=move || tools.beats.get()>
            <Tray tools=tools label="beats.title">
                <BeatButtons tools=tools />
            </Tray>
        </Show>
    }
}

/// Comes into view and takes the keyboard when it appears; Escape puts it away.
#[component]
fn Tray(tools: Tools, label: &'static str, children: Children) -> impl IntoView {
    let tray = NodeRef::<Section>::new();
    follow(move || {
        if let Some(tray) = tray.get() {
            tray.scroll_into_view_with_bool(false);
            let _ = tray.focus();
        }
    });
    let on_key = move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            tools.put_away();
        }
    };
    view! {
        <section class="card tray" node_ref=tray tabindex="-1" aria-label=tr(label) on:keydown=on_key>
            {children()}
        </section>
    }
}
