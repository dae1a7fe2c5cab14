//! The file: what it holds, how it was understood, and what was guessed or repaired.

use super::layout_form::LayoutForm;
use super::select::Select;
use crate::ui::state::{App, tr};
use beatwalk::signal::VoltageUnit;
use beatwalk::words::{say, say_with};
use leptos::prelude::*;

/// What is open, with the choice of a signal and the correction of a layout.
#[component]
pub fn FileFacts() -> impl IntoView {
    let app = App::here();
    let facts = move || {
        let (opened, shown) = (app.opened.get()?, app.shown.get()?);
        let recording = &shown.recording;
        let language = app.language.get();
        let unit = say(language, unit_key(recording.unit)).into_owned();
        let names: Vec<String> =
            opened.recordings.iter().map(|recording| recording.name.clone()).collect();
        let chosen = shown.trace;
        let several = names.len() > 1;
        let notes = opened.notes.clone();
        let layout = opened.layout.clone();
        Some(view! {
            <Show when=move || several>
                <Select
                    label=Signal::derive(tr("page.see.choose_signal"))
                    options=names.clone()
                    chosen=Some(chosen)
                    on_choose=Callback::new(move |trace: usize| app.choose_trace(trace))
                />
            </Show>
            <dl class="facts">
                <dt>{tr("page.see.file")}</dt>
                <dd>{opened.file.clone()}</dd>
                <dt>{tr("page.see.signal_name")}</dt>
                <dd>{recording.name.clone()}</dd>
                <dt>{tr("page.see.sampling")}</dt>
                <dd>{format!("{:.2} Hz", recording.rate.hz())}</dd>
                <dt>{tr("page.see.length")}</dt>
                <dd>
                    {say_with(
                        language,
                        "page.see.length_value",
                        &[
                            ("seconds", &format!("{:.1}", recording.duration().seconds())),
                            ("samples", &recording.recorded_samples().to_string()),
                        ],
                    )}
                </dd>
                <dt>{tr("page.see.unit")}</dt>
                <dd>{unit}</dd>
            </dl>
            <Notes notes=notes />
            {layout
                .map(|layout| {
                    view! {
                        <details>
                            <summary>{tr("page.layout.title")}</summary>
                            <LayoutForm layout=layout />
                        </details>
                    }
                })}
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.see.file_title")}</h2>
            {facts}
        </section>
    }
}

/// What was guessed or repaired.
#[component]
fn Notes(notes: Vec<String>) -> impl IntoView {
    let any = !notes.is_empty();
    let notes = StoredValue::new(notes);
    view! {
        <Show when=move || any>
            <details open>
                <summary>{tr("page.see.notes")}</summary>
                <ul>
                    {notes.get_value().into_iter().map(|note| view! { <li>{note}</li> }).collect_view()}
                </ul>
            </details>
        </Show>
    }
}

const fn unit_key(unit: VoltageUnit) -> &'static str {
    match unit {
        VoltageUnit::Millivolt => "page.unit.millivolt",
        VoltageUnit::Counts => "page.unit.counts",
        VoltageUnit::Unstated => "page.unit.unstated",
    }
}
