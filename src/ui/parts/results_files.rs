//! Everything that can be taken away as a file, and printing.

use super::figures::{FIGURE, FINE, Figure};
use crate::ui::browser::{draw_to_png, print, save_text};
use crate::ui::state::{App, tr};
use beatwalk::chart::draw_cycle;
use beatwalk::lesson::ResultsTable;
use beatwalk::report::{EXTENSION, SavedReading, landmarks_csv, results_csv};
use beatwalk::words::Phrase;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Buttons for everything that can be saved, and for printing.
#[component]
pub fn ResultsFiles() -> impl IntoView {
    let app = App::here();
    let save = move |make: fn(App, &str) -> Option<Result<(), JsValue>>| {
        // A browser shows what it saved by its name, to the room too.
        let stem = untrack(|| match app.projector.get() {
            true => Some("recording".to_owned()),
            false => app.raw.with(|raw| raw.as_ref().map(|raw| stem(&raw.file))),
        });
        let saved = stem.and_then(|stem| untrack(|| make(app, &stem)));
        if !matches!(saved, Some(Ok(()))) {
            app.fail(
                Phrase::message("page.results.save_failed"),
                Phrase::message("page.results.save_again"),
            );
        }
    };
    view! {
        <section class="card no-print">
            <h2>{tr("page.results.save")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=move |_| save(save_work)>
                    {tr("page.results.save_work")}
                </button>
                <button class="button" on:click=move |_| save(save_results)>
                    {tr("page.results.save_results")}
                </button>
                <button class="button" on:click=move |_| save(save_landmarks)>
                    {tr("page.results.save_landmarks")}
                </button>
                <button class="button" on:click=move |_| save(save_svg)>
                    {tr("page.results.save_svg")}
                </button>
                <button class="button" on:click=move |_| save(save_png)>
                    {tr("page.results.save_png")}
                </button>
                <button class="button" on:click=move |_| print()>
                    {tr("page.results.print")}
                </button>
            </div>
        </section>
    }
}

fn save_work(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let document = SavedReading::new(app.work_now(), (*raw).clone()).to_json().ok()?;
    Some(save_text(&format!("{stem}{EXTENSION}"), "application/json", &document))
}

fn save_results(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let work = app.work_now();
    let results = app.with_evidence(|evidence| ResultsTable::of(&work.session, evidence))?;
    Some(save_text(
        &format!("{stem}-results.csv"),
        "text/csv",
        &results_csv(&work, &raw.file, &results),
    ))
}

fn save_landmarks(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let table = app.with_evidence(|evidence| landmarks_csv(&raw.file, evidence))?;
    Some(save_text(&format!("{stem}-beats.csv"), "text/csv", &table))
}

fn save_svg(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let svg = Figure::of_beat(app)?.svg()?;
    Some(save_text(&format!("{stem}-cycle.svg"), "image/svg+xml", &svg))
}

fn save_png(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let figure = Figure::of_beat(app)?;
    let size = (FIGURE.0 * FINE, FIGURE.1 * FINE);
    Some(draw_to_png(&format!("{stem}-cycle.png"), size, |area| {
        let _ = draw_cycle(area, &figure.scene(), &figure.look(FINE.into()));
    }))
}

/// A file's name without its ending, for the names of what is made from it.
fn stem(file: &str) -> String {
    file.rsplit_once('.').map_or(file, |(stem, _)| stem).to_owned()
}
