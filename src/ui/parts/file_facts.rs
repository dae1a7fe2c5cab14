//! The recording: what the file holds, the part that is used, notes on it, how it was understood, and
//! what was guessed or repaired.

use super::layout_form::LayoutForm;
use super::marks_panel::MarksPanel;
use super::part_panel::PartPanel;
use super::tools::Tools;
use crate::ui::reactive::Views;
use crate::ui::state::{App, Memory, tr};
use beatwalk::signal::VoltageUnit;
use beatwalk::words::{Phrase, decimal, say, say_with};
use leptos::prelude::*;

/// What is open, and all that can be set for it.
#[component]
pub fn FileFacts(tools: Tools) -> impl IntoView {
    let app = App::here();
    view! {
        <section class="card recording">
            <h2>{tr("page.see.file_title")}</h2>
            <Remembered />
            <Facts />
            <Repairs />
            <details>
                <summary>{tr("page.part.title")}</summary>
                <PartPanel tools=tools />
            </details>
            <details>
                <summary>{tr("page.marks.title")}</summary>
                <MarksPanel tools=tools />
            </details>
            {move || {
                let opened = app.opened.get()?;
                let layout = opened.layout.clone()?;
                let choices = opened.choices.clone();
                Some(view! {
                    <details>
                        <summary>{tr("page.layout.title")}</summary>
                        <LayoutForm
                            layout=layout
                            choices=choices
                            on_correct=Callback::new(move |choices| app.correct(choices))
                        />
                    </details>
                })
            }}
        </section>
    }
}

#[component]
fn Facts() -> impl IntoView {
    let app = App::here();
    let facts = move || {
        let shown = app.shown.get()?;
        let recording = &shown.recording;
        let language = app.language.get();
        let length = say_with(
            language,
            "page.see.length_value",
            &[
                ("seconds", &decimal(language, recording.duration().seconds(), 1)),
                ("samples", &recording.recorded_samples().to_string()),
            ],
        );
        Some(view! {
            <dl class="facts">
                <dt>{tr("page.see.file")}</dt>
                <dd>{app.file_name()}</dd>
                <dt>{tr("page.see.signal_name")}</dt>
                <dd>{app.nameless().unwrap_or_else(|| recording.name.clone())}</dd>
                <dt>{tr("page.see.sampling")}</dt>
                <dd>{format!("{} Hz", decimal(language, recording.rate.hz(), 2))}</dd>
                <dt>{tr("page.see.length")}</dt>
                <dd>{length}</dd>
                <dt>{tr("page.see.unit")}</dt>
                <dd>{say(language, unit_key(recording.unit))}</dd>
            </dl>
        })
    };
    view! { {facts} }
}

/// Said when a correction is remembered for files like this, with the way back.
#[component]
fn Remembered() -> impl IntoView {
    let app = App::here();
    let memory = Memo::new(move |_| {
        app.opened.with(|opened| opened.as_ref().map(|opened| opened.memory).unwrap_or_default())
    });
    let said = move || match memory.get() {
        Memory::None => None,
        Memory::Used => Some("page.layout.used_before"),
        Memory::Kept => Some("page.layout.kept"),
    };
    view! {
        <div role="status">
            {move || {
                said()
                    .map(|key| {
                        view! {
                            <div class="notice">
                                <p>{tr(key)}</p>
                                <button class="button" on:click=move |_| app.forget_shape()>
                                    {tr("page.layout.forget")}
                                </button>
                            </div>
                        }
                    })
            }}
        </div>
    }
}

/// What was guessed or repaired.
#[component]
fn Repairs() -> impl IntoView {
    let app = App::here();
    let notes = Memo::new(move |_| {
        app.raw.with(|raw| raw.as_ref().map(|raw| raw.notes.clone()).unwrap_or_default())
    });
    let list = move || {
        let notes = notes.get();
        (!notes.is_empty()).then(|| {
            let item = |note: Phrase| view! { <li>{app.tell(&note)}</li> };
            let items = notes.into_iter().map(item).views();
            view! {
                <details open>
                    <summary>{tr("page.see.notes")}</summary>
                    <ul>{items}</ul>
                </details>
            }
        })
    };
    view! { {list} }
}

/// The message that names a unit.
pub const fn unit_key(unit: VoltageUnit) -> &'static str {
    match unit {
        VoltageUnit::Millivolt => "page.unit.millivolt",
        VoltageUnit::Counts => "page.unit.counts",
        VoltageUnit::Unstated => "page.unit.unstated",
    }
}
