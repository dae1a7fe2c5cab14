//! What can be taken away from the bench as a file, and printing.

use crate::ui::bench::Bench;
use crate::ui::browser::save_text;
use crate::ui::parts::paper_bar::PaperPreview;
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Investigation;
use beatwalk::report::{EXTENSION, breathing_csv, pool_csv, recovery_csv, reflex_csv};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Buttons for the document, the numbers, and printing.
#[component]
pub fn BenchFiles(investigation: Investigation) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let numbers: fn(Bench) -> Option<String> = match investigation {
        Investigation::Recovery => of_recovery,
        Investigation::Breathing => of_breathing,
        Investigation::Conditions => of_conditions,
        Investigation::Reflex => of_reflex,
    };
    let name = investigation.protocol().key;
    let save_numbers =
        move |bench| Some(save_text(&format!("{name}.csv"), "text/csv", &numbers(bench)?));
    view! {
        <section class="card no-print">
            <h2>{tr("page.results.save")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=move |_| app.check_saved(untrack(|| save_inquiry(bench)))>
                    {tr("page.results.save_work")}
                </button>
                <button class="button" on:click=move |_| app.check_saved(untrack(|| save_numbers(bench)))>
                    {tr("bench.save_numbers")}
                </button>
                <PaperPreview />
            </div>
        </section>
    }
}

/// Saves the investigation that is open; `None` when there is none.
pub fn save_inquiry(bench: Bench) -> Option<Result<(), JsValue>> {
    let saved = bench.saved()?;
    let name = format!("{}{EXTENSION}", saved.sheet.investigation.protocol().key);
    Some(save_text(&name, "application/json", &saved.to_json().ok()?))
}

fn of_recovery(bench: Bench) -> Option<String> {
    Some(recovery_csv(&bench.student(), &bench.recovery()?))
}

fn of_conditions(bench: Bench) -> Option<String> {
    let entries = bench.condition_entries();
    (!entries.is_empty()).then(|| pool_csv(&entries))
}

fn of_breathing(bench: Bench) -> Option<String> {
    let roles = Investigation::Breathing.roles().iter();
    let found: Vec<_> =
        roles.filter_map(|&role| Some((role, bench.breathing(role)?.ok()?))).collect();
    (!found.is_empty()).then(|| breathing_csv(&bench.student(), &found))
}

fn of_reflex(bench: Bench) -> Option<String> {
    let roles = Investigation::Reflex.roles().iter();
    let found: Vec<_> =
        roles.filter_map(|&role| Some((role, bench.reflexes(role)?.ok()?.0.clone()))).collect();
    (!found.is_empty()).then(|| reflex_csv(&bench.student(), &found))
}
